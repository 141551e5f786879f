"""At the desk and beside the vehicle: concerns, tests, fault codes. Permissions stand in services/agreed/."""

from collections.abc import Mapping
from dataclasses import asdict

from jobbook.core.errors import Refused
from jobbook.core.jobs import ANSWERS, Concern, FaultCode, Job, Test
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.services.agreed.permission import ask_authority, give_permission, permissions
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import to_be_tested
from jobbook.services.opened import OpenBook

__all__ = [
    "add_fault_code", "add_test", "ask_authority", "concern", "fault_codes", "get_job", "give_permission",
    "permissions", "tests",
]  # fmt: skip

CONFIDENCES = ("", "proved", "probable", "not found")
NEEDS_REASON = ("not done", "not possible", "declined")


def get_job(book: OpenBook, job: int) -> Job:
    with book.store.read() as reading:
        return reading.jobs.get(job)


def concern(
    book: OpenBook,
    who: Person,
    job: int,
    number: int,
    *,
    words: str | None = None,
    cause: str | None = None,
    confidence: str | None = None,
    correction: str | None = None,
) -> None:
    """Keep what is known of one concern: a new one with its words, or the cause and the correction of one there is."""
    if confidence not in (None, *CONFIDENCES):
        raise Refused("The concern was not kept: its cause is proved, probable or not found.")
    told = {"cause": cause, "confidence": confidence, "correction": correction}
    with writing(book, who, "work", "desk") as tx:
        there = next((c for c in tx.jobs.get(job).concerns if c.number == number), None)
        if there is None and not (words or "").strip():
            raise Refused("The concern was not kept: it needs the customer's words.")
        before = there or Concern(number, "")
        facts: dict[str, object] = {"job": job, "number": number}
        facts |= {key: getattr(before, key) if said is None else said.strip() for key, said in told.items()}
        if words is not None and words.strip():
            facts["words"] = tx.seal(words.strip())
        tx.keep(Draft("concern/1", f"job/{job}", facts, job=job))


def tests(book: OpenBook, job: int) -> tuple[Test, ...]:
    with book.store.read() as reading:
        return tuple(reading.tests(job))


def add_test(
    book: OpenBook,
    who: Person,
    job: int,
    name: str,
    answer: str,
    result: str = "",
    reason: str = "",
    figures: Mapping[str, str] | None = None,
) -> None:
    """Keep a test of the diagnosis. "Not done" and "not possible" need their reason; "done" needs its result.

    `figures` are what a result was reckoned from, as typed."""
    said = {"name": name, "answer": answer, "result": result, "reason": reason}
    facts: dict[str, object] = {"job": job} | {key: text.strip() for key, text in said.items()}
    look_at_test(facts)
    if figures:
        facts["figures"] = dict(figures)
    with writing(book, who, "work", "desk") as tx:
        if answer == "done":
            to_be_tested(tx, job)
        tx.keep(Draft("test/1", f"job/{job}", facts, job=job))


def look_at_test(facts: Mapping[str, object]) -> None:
    """Refuse a test without its name, one of the answers, and the result or the reason that the answer needs."""
    if facts["answer"] not in ANSWERS or not facts["name"]:
        raise Refused("The test was not kept: it needs its name and one of the answers.")
    if facts["answer"] == "done" and not facts["result"]:
        raise Refused("The test was not kept: a test that was done has a result.")
    if facts["answer"] in NEEDS_REASON and not facts["reason"]:
        raise Refused(f"The test was not kept: “{facts['answer']}” needs its reason.")


def fault_codes(book: OpenBook, job: int) -> tuple[FaultCode, ...]:
    with book.store.read() as reading:
        return tuple(reading.fault_codes(job))


def add_fault_code(book: OpenBook, who: Person, job: int, code: FaultCode) -> None:
    """Keep a fault code as shown. An empty code says that this module was read and showed none."""
    if not code.module.strip() or code.when not in ("before", "after"):
        raise Refused(
            "The code was not kept: it needs the module that showed it, and whether before or after the work."
        )
    kept = ("module", "code", "text", "status", "when", "odometer", "cleared")
    facts = {"job": job} | {key: value for key, value in asdict(code).items() if key in kept}
    with writing(book, who, "work", "desk") as tx:
        tx.keep(Draft("fault-code/1", f"job/{job}", facts, job=job, done_at=code.at))
