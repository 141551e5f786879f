"""What comes of visits and promises: a reminder is closed with an outcome, a promise is moved with its reason."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from jobbook.core.desk.calls import Tried, appointed
from jobbook.core.desk.outcomes import OF_A_REMINDER, OF_A_VISIT, RETORQUE
from jobbook.core.desk.retorque import RETORQUED, Tightened, tightened_from
from jobbook.core.desk.waits import HELD, HELD_NOTES
from jobbook.core.errors import Refused
from jobbook.core.jobs import Reminder
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.office.calls import HOW_TO_WRITE
from jobbook.services.office.retorque import OfWheels, keep_visit_odometer, keep_wheels
from jobbook.services.opened import OpenBook

NOTE_NEEDED = {
    "done elsewhere": "who did it and what shows it: an invoice, its number and day",
    "waived": "who waived it, and why",
}


@dataclass(frozen=True)
class Outcome:
    """What came of a visit. Where it was done here, `tool` is the one that the joints were tightened with, `told` what
    each wheel was tightened to by corner, as typed, `turned` the corners where a fastener turned further, `by` who did
    it where it was not whoever keeps it. Nothing is taken from what the job said."""

    outcome: str
    note: str = ""
    tool: str = ""
    odometer: str = ""
    told: Mapping[str, str] = field(default_factory=dict)
    turned: tuple[str, ...] = ()
    by: str = ""


@dataclass(frozen=True)
class Visit:
    """A reminder of a job with what came of it, who kept that and when, and who tried to reach the customer."""

    reminder: Reminder
    tried: tuple[Tried, ...] = ()
    note: str | None = ""
    tool: str = ""
    at: str = ""
    by: str = ""
    wheels: tuple[Tightened, ...] = ()


def visits(book: OpenBook, job: int) -> tuple[Visit, ...]:
    """Every visit that was asked for after a job, with its outcome where there is one."""
    with book.store.read() as reading:
        closed = {int(e.payload["reminder"]): e for e in reading.journal.entries(job=job, kind="reminder-closed/1")}
        wheels = [tightened_from(entry) for entry in reading.journal.entries(job=job, kind=RETORQUED)]
        found = [_visit(reading, one, closed.get(one.entry)) for one in reading.reminders.of_job(job)]
    return tuple(replace(one, wheels=tuple(w for w in wheels if w.reminder == one.reminder.entry)) for one in found)


def _visit(reading: Book, one: Reminder, closed: Entry | None) -> Visit:
    tried = tuple(reading.calls.tried(f"reminder/{one.entry}"))
    if closed is None:
        return Visit(one, tried)
    facts = closed.payload
    note = reading.sealed(str(facts.get("note", "")))
    return Visit(one, tried, note, str(facts.get("tool", "")), closed.done_at, closed.done_by)


def close_visit(book: OpenBook, who: Person, number: int, outcome: Outcome) -> None:
    """Close a reminder with one of OF_A_VISIT after wheels were off, of OF_A_REMINDER for any other. "Done here" names
    its tool and every wheel; others need what is said in NOTE_NEEDED; nobody "did not come" whom nobody tried to
    reach."""
    note = outcome.note.strip()
    if outcome.outcome in NOTE_NEEDED and not note:
        raise Refused(f"Nothing was kept: write {NOTE_NEEDED[outcome.outcome]}.")
    if outcome.outcome == "done here" and not outcome.tool.strip():
        raise Refused("Nothing was kept: name the tool that the joints were tightened with.")
    with writing(book, who, "desk", "work") as tx:
        one = _still_open(tx, number)
        _look_at(tx, one, outcome)
        if outcome.outcome == "done here":
            done = OfWheels(outcome.told, outcome.turned, outcome.tool, outcome.by, note)
            keep_wheels(tx, book, one.job, number, done)
            keep_visit_odometer(tx, one.job, outcome.odometer, note)
        facts = {"reminder": number, "outcome": outcome.outcome, "note": tx.seal(note)}
        facts |= {"tool": outcome.tool.strip(), "odometer": outcome.odometer.strip()}
        tx.keep(Draft("reminder-closed/1", f"reminder/{number}", facts | {"job": one.job}, job=one.job or None))


def _look_at(tx: WritingBook, one: Reminder, outcome: Outcome) -> None:
    """Refuse what cannot come of this reminder, and what lacks its reason or its attempt."""
    allowed = outcomes_of(one)
    if outcome.outcome not in allowed:
        raise Refused(f"Nothing was kept: say what came of it: {', '.join(allowed.values())}.")
    if one.waits_for and outcome.outcome in HELD_NOTES and not outcome.note.strip():
        raise Refused(f"Nothing was kept: write {HELD_NOTES[outcome.outcome]}.")
    if one.what == RETORQUE and outcome.outcome == "did not come" and not tx.calls.tried(f"reminder/{one.entry}"):
        raise Refused("Nothing was kept: nobody tried to reach the customer yet. Keep an attempt first.")


def outcomes_of(one: Reminder) -> Mapping[str, str]:
    """What may come of a reminder: of a visit, of what a vehicle waits for, of any other."""
    return HELD if one.waits_for else OF_A_VISIT if one.what == RETORQUE else OF_A_REMINDER


def _still_open(tx: WritingBook, number: int) -> Reminder:
    one = tx.reminders.get(number)
    if one.outcome:
        raise Refused(f"Nothing was changed: this was closed already: {one.outcome}.")
    return one


def move_visit(book: OpenBook, who: Person, number: int, day: str, reason: str) -> None:
    """Keep another day for a visit; the one before stays readable, with the reason."""
    moment = appointed(day, book.clock())
    if not moment or not reason.strip():
        raise Refused("Nothing was changed: write the new day, like 9 Dec or fri, and why it is moved.")
    with writing(book, who, "desk", "work") as tx:
        one = _still_open(tx, number)
        facts = {"job": one.job or None, "what": one.what, "due_on": moment[:10], "due_at": one.due_at}
        facts |= {"waits_for": one.waits_for, "stands": one.stands} if one.waits_for else {}
        subject, replaces = f"job/{one.job}", tx.reminders.entry_of(number)
        job = one.job or None
        tx.keep(Draft("reminder/1", subject, facts, job=job, replaces=replaces, reason=reason.strip()))


def move_promise(book: OpenBook, who: Person, job: int, promised: str, reason: str) -> None:
    """Promise the vehicle for another time. Refused without the time and why it was moved."""
    moment = appointed(promised, book.clock())
    if not moment:
        raise Refused(f"Nothing was changed: “{promised.strip()}” is no day or time. {HOW_TO_WRITE}")
    if not reason.strip():
        raise Refused("Nothing was changed: write why the promise is moved, and what the customer was told.")
    with writing(book, who, "desk", "work") as tx:
        in_hand(tx, job)
        facts = {"job": job, "promised": moment.replace("T", " ")}
        tx.keep(Draft("promise/1", f"job/{job}", facts, job=job, reason=reason.strip()))
