"""Passing a job on: what is open is told with a note, and the next person reads and signs before the first act."""

from collections.abc import Mapping

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.core.work.loose_ends import loose_ends
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.job.replay import job_state
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Passing
from jobbook.services.work.written import Written, written

PASSED, ACCEPTED = "passed-on/1", "accepted/1"


def passing_of(reading: Book, job: int) -> Passing | None:
    """The passing-on that nobody has taken on yet, with people by name; or None."""
    told = reading.journal.entries(job=job, kind=(PASSED, ACCEPTED))
    if not told or told[-1].kind != PASSED:
        return None
    names = {person.id: person.name for person in reading.people.all()}
    return _passing(told[-1], names)


def _passing(entry: Entry, names: Mapping[str, str]) -> Passing:
    facts, by = entry.payload, str(entry.facts["done_by"])
    to = str(facts["to"])
    return Passing(
        entry.number, names.get(by, by), names.get(to, to), entry.done_at, str(facts["note"]), tuple(facts["open"])
    )


def what_is_open(book: OpenBook, job: int) -> tuple[str, ...]:
    """What the next person must know is loose: hand-tight joints, plugs, vented corners, what is off and unplugged."""
    with book.store.read() as reading:
        return _open_now(reading, job)


def _open_now(reading: Book, job: int) -> tuple[str, ...]:
    return tuple(end.sentence for end in loose_ends(job_state(reading, job)) if end.group == "loose now")


def pass_on(book: OpenBook, signer: Person, job: int, note: str, to: str = "") -> Written:
    """Give a job to another technician. What is loose goes along by itself; the note says the rest, and is demanded."""
    if not note.strip():
        raise Refused(
            "The job was not passed on: write what the next person must know, such as parts laid out and what was seen."
        )
    with writing(book, signer, "work") as tx:
        in_hand(tx, job)
        look_at_passing(tx, job)
        if to and not tx.people.get(to).may("work"):
            raise Refused(f"The job was not passed on: {tx.people.get(to).name} does not do work on vehicles here.")
        if to == signer.id:
            raise Refused("The job was not passed on: name another person, or leave it open who takes it on.")
        facts = {"job": job, "to": to, "note": note.strip(), "open": list(_open_now(tx, job))}
        entry = tx.keep(Draft(PASSED, f"job/{job}", facts, job=job, meaning="did"))
    return written(entry, f"Job {job} is passed on")


def take_on(book: OpenBook, signer: Person, job: int) -> Written:
    """Take on a job that was passed on, having read what is open. Whoever passed it on may take it back so."""
    with writing(book, signer, "work") as tx:
        there = passing_of(tx, job)
        if there is None:
            raise Refused(f"Nothing was kept: job {job} was taken on already, or never passed on.")
        facts = {"job": job, "passed": there.entry}
        entry = tx.keep(Draft(ACCEPTED, f"job/{job}", facts, job=job, meaning="did"))
    return written(entry, f"Job {job} is taken on by {signer.name}")


def look_at_passing(reading: Book, job: int) -> None:
    """Refused while a job that was passed on is not taken on: nobody works past a note that nobody has read."""
    there = passing_of(reading, job)
    if there is not None:
        whose = f"to {there.to}" if there.to else "to whoever takes it on"
        raise Refused(
            f"Nothing was kept: {there.by} passed this job on {whose}, and nobody has taken it on yet. "
            "Read the note on the Work page and sign for it first."
        )
