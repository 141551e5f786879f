"""A customer asks to be forgotten.

Forgotten is whatever of theirs is sealed: name, address, telephone, mail, what they said, who allowed what at which
number, notes. What was done on the vehicle stays, without them. An open job or a wait for somebody's answer holds it
back; the day of the next look is then written down.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import timedelta

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

LOOK_AGAIN_DAYS = 30  # common practice: about a month to answer
FORGET = "Forget the customer of this job, who asked for it"
COMMITMENT_SIGNS = 64


@dataclass(frozen=True)
class Forgetting:
    """What came of the wish: how many values were erased, or why it waits and until when it is looked at again."""

    erased: int = 0
    waits_for: str = ""
    look_again: str = ""


def holds(reading: Book, number: int) -> str:
    """Why a customer cannot be forgotten yet, or nothing."""
    waiting = [row.number for row in reading.jobs.of_customer(number) if row.stage != "released"]
    waiting += [p for p in _owned_jobs(reading, number) if p not in waiting]
    named = ", ".join(str(job) for job in sorted(waiting))
    return f"job {named} is open" if len(waiting) == 1 else f"jobs {named} are open" if waiting else ""


def _owned_jobs(reading: Book, number: int) -> list[int]:
    """Open jobs of vehicles that are theirs now, brought by somebody else."""
    theirs = [one.vehicle_id for one in reading.customers.owned(number) if not one.until]
    jobs = [row for vehicle in theirs for row in reading.jobs.of_vehicle(vehicle)]
    return [row.number for row in jobs if row.stage != "released"]


def forget(book: OpenBook, who: Person, number: int, reason: str) -> Forgetting:
    """Erase everything of a customer that is sealed. Where something holds it back, the wish is kept with a day on
    which it is looked at again, and nothing is erased. Refused without a reason."""
    if not reason.strip():
        raise Refused("Nothing was erased: say why, for instance “asked for by letter of 3 March”.")
    with writing(book, who, "people", "desk") as tx:
        there = tx.customers.get(number).id
        if why := holds(tx, there):
            day = (book.today() + timedelta(days=LOOK_AGAIN_DAYS)).isoformat()
            return Forgetting(waits_for=why, look_again=_look_again(tx, there, day))
        found = tx.customers.among_sealed(list(_commitments(tx, there)))
        if not found:
            raise Refused("Nothing was erased: nothing of this customer is left to forget.")
        facts = {"commitments": found, "reason": reason.strip(), "customer": there}
        tx.keep(Draft("erased/1", f"customer/{there}", facts, reason=reason.strip()))
    return Forgetting(erased=len(found))


def forget_call(book: OpenBook, who: Person, number: int, reason: str) -> Forgetting:
    """Erase everything that is sealed of a call that came to nothing. Refused without a reason, or while it is open."""
    if not reason.strip():
        raise Refused("Nothing was erased: say why.")
    with writing(book, who, "people", "desk") as tx:
        call = tx.calls.get(number)
        if not call.outcome or call.job:
            raise Refused("Nothing was erased: the call is open, or became a job and goes with its customer.")
        told = [tx.journal.get(entry) for entry in tx.calls.entries_of(number)]
        told += [e for e in tx.journal.entries(kind="call-closed/1") if e.payload["call"] == number]
        found = tx.customers.among_sealed([one for entry in told for one in _sealed_in(entry.payload)])
        if not found:
            raise Refused("Nothing was erased: nothing of this call is left to forget.")
        tx.keep(Draft("erased/1", "call", {"commitments": found, "reason": reason.strip()}, reason=reason.strip()))
    return Forgetting(erased=len(found))


def _look_again(tx: WritingBook, number: int, day: str) -> str:
    """Keep the day of the next look, at the newest open job of theirs; one that is noted already stands."""
    jobs = [row.number for row in tx.jobs.of_customer(number) if row.stage != "released"] or _owned_jobs(tx, number)
    noted = [one for one in tx.reminders.of_job(jobs[0]) if one.what == FORGET and not one.outcome]
    if noted:
        return noted[0].due_on
    facts = {"job": jobs[0], "what": FORGET, "due_on": day, "due_at": ""}
    tx.keep(Draft("reminder/1", f"job/{jobs[0]}", facts, job=jobs[0]))
    return day


def _commitments(reading: Book, number: int) -> Iterator[str]:
    """Whatever may stand for a sealed value in the entries of a customer and of the jobs that they brought."""
    for entry in _entries(reading, number):
        yield from _sealed_in(entry.payload)


def _entries(reading: Book, number: int) -> Iterator[Entry]:
    for entry in reading.customers.entries(number):
        yield reading.journal.get(entry)
    for row in reading.jobs.of_customer(number):
        yield from reading.journal.entries(job=row.number)
        yield from (reading.journal.get(entry) for entry in reading.calls.entries_of_job(row.number))


def _sealed_in(told: object) -> Iterator[str]:
    if isinstance(told, str):
        if len(told) == COMMITMENT_SIGNS:
            yield told
        return
    inside: Iterable[object] = (
        told.values() if isinstance(told, dict) else told if isinstance(told, list | tuple) else ()
    )
    for one in inside:
        yield from _sealed_in(one)
