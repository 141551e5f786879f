"""What a file can belong to: a step, a finding, a test, a concern, the fault codes before or after the work."""

from collections.abc import Iterator
from dataclasses import dataclass

from jobbook.core.errors import Refused
from jobbook.core.work.rules import apply
from jobbook.core.work.state import START
from jobbook.core.written import ERASED
from jobbook.db.store import Book
from jobbook.services.job.methods import running_methods
from jobbook.services.job.replay import kept_acts, work_entries
from jobbook.services.measured.findings import findings_of
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.step_words import step_title

KINDS = (
    "step", "finding", "test", "concern", "codes", "geometry", "part", "permission", "paper", "estimate", "arrival",
)  # fmt: skip


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
        return places_of(reading, job)


def places_of(reading: Book, job: int) -> tuple[Place, ...]:
    """The same inside a reading that is open."""
    there = [Place("arrival", "As it arrived")]
    there += [Place(f"concern/{c.number}", f"Concern: {_short(c.words)}") for c in reading.jobs.get(job).concerns]
    there += [Place("codes/before", "Fault codes before the work"), Place("codes/after", "Fault codes after the work")]
    there += [Place("geometry", "Wheel geometry")]
    there += [Place(f"test/{one.entry}", f"Test: {_short(one.name)}") for one in reading.tests(job)]
    there += [Place(f"finding/{one.entry}", f"Finding: {_short(one.words)}") for one in findings_of(reading, job)]
    return (*there, *_steps(reading, job))


def _steps(reading: Book, job: int) -> Iterator[Place]:
    kept = kept_acts(work_entries(reading, job))
    state = START
    for one in kept:
        state = apply(state, one.act)
    for run in running_methods(reading, kept):
        for step in run.steps:
            title = step_title(step, state.things, run.corner)
            yield Place(step_key(run.begun, step.number), f"Step {step.number}: {_short(title)}")


def _short(words: str | None, most: int = 60) -> str:
    text = " ".join((words or ERASED).split())
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"
