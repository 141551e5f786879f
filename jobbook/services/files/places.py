"""What a file can belong to: a step, a finding, a test, a concern, the fault codes before or after the work."""

from dataclasses import dataclass

from jobbook.core.errors import Refused
from jobbook.services.findings import findings_of
from jobbook.services.jobsheet import job_sheet
from jobbook.services.opened import OpenBook

KINDS = ("step", "finding", "test", "concern", "codes", "part", "permission", "paper", "estimate", "arrival")


@dataclass(frozen=True)
class Place:
    """Something in a job that files can belong to: its key as entries have it, and what people call it."""

    key: str
    words: str


def look_at_place(key: str) -> None:
    """Refused where this is no way to name a place of a job; "" is the tray."""
    if key and key.split("/", 1)[0] not in KINDS:
        raise Refused(f"Nothing was assigned: there is no place “{key}” in a job.")


def step_key(begun: int, number: int) -> str:
    return f"step/{begun}/{number}"


def places(book: OpenBook, job: int) -> tuple[Place, ...]:
    """The places of a job, those of its diagnosis first, then the steps in their order."""
    with book.store.read() as reading:
        concerns, found, tests = reading.jobs.get(job).concerns, findings_of(reading, job), reading.tests(job)
    there = [Place("arrival", "As it arrived")]
    there += [Place(f"concern/{one.number}", f"Concern: {_short(one.words)}") for one in concerns]
    there += [Place("codes/before", "Fault codes before the work"), Place("codes/after", "Fault codes after the work")]
    there += [Place(f"test/{one.entry}", f"Test: {_short(one.name)}") for one in tests]
    there += [Place(f"finding/{one.entry}", f"Finding: {_short(one.words)}") for one in found]
    for row in job_sheet(book, job).steps:
        there.append(Place(step_key(row.begun, row.number), f"Step {row.number}: {_short(row.title)}"))
    return tuple(there)


def _short(words: str | None, most: int = 60) -> str:
    text = " ".join((words or "(erased)").split())
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"
