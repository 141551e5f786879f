"""Jobs in hand: once a vehicle is released its record is closed, until a correction or a late entry opens it again."""

from jobbook.core.errors import Refused
from jobbook.core.jobs import LEFT, Job
from jobbook.core.record.journal import Draft
from jobbook.db.store import Book, WritingBook


def in_hand(reading: Book, number: int) -> Job:
    """The job. Refused where it was released: nothing is added to what the customer's papers say."""
    job = reading.jobs.get(number)
    if closed := closed_words(job):
        raise Refused(f"Nothing was kept: {closed}")
    return job


def to_be_tested(reading: Book, number: int) -> Job:
    """The job in hand. Refused, too, where the vehicle was left with nobody there and nothing is allowed yet."""
    job = in_hand(reading, number)
    if job.arrival == LEFT and not reading.permissions(number):
        raise Refused(
            "Nothing was kept: the vehicle was left with nobody there. Reach the customer first, and keep what they "
            "allow; then test."
        )
    return job


def closed_words(job: Job) -> str:
    """Why nothing is added to a job, and what can be done instead; empty while it is in hand."""
    if job.stage != "released":
        return ""
    return (
        f"job {job.number} was released on {job.released_at[:10]}. Correct what is wrong in it, keep "
        "what was forgotten as already happened, or take the vehicle in again."
    )


def reopen(tx: WritingBook, number: int, reason: str) -> None:
    """Open a released job again, so that it is released anew with what it says now; a job in hand stays as it is."""
    if tx.jobs.get(number).stage == "released":
        tx.keep(Draft("reopened/1", f"job/{number}", {"job": number}, job=number, reason=reason))
