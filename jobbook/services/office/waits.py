"""Waits: what comes of a time of the work that runs, and of what a vehicle in the shop waits for from outside."""

from jobbook.core.desk.outcomes import OF_A_WAIT, TAKEN_BACK
from jobbook.core.desk.waits import STANDS, TIMES, WAITS_FOR, unanswered
from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.job.methods import running_methods
from jobbook.services.job.replay import kept_acts, work_entries
from jobbook.services.office.calls import promised_for
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.sheet.sheets import Choice
from jobbook.services.work.keeping import keep


def end_wait(book: OpenBook, who: Person, number: int, outcome: str, reason: str = "") -> None:
    """Answer the step whose wait was begun by that entry, as its card would: it is over, or it is cut short. Or take
    the wait back. Refused while it runs, or without the reason that is needed."""
    if outcome not in OF_A_WAIT:
        raise Refused(f"Nothing was kept: say what came of the wait: {', '.join(OF_A_WAIT.values())}.")
    if outcome != "main" and not reason.strip():
        raise Refused("Nothing was kept: say why the wait does not run to its end.")
    wait = _still_open(book, number)
    if outcome == TAKEN_BACK:
        _take_back(book, who, wait, reason)
        return
    answers = {"reason": reason.strip()} if outcome == "early" else {}
    keep(book, who, int(wait.payload["job"]), _choice(book, who, wait, outcome), answers)


def _still_open(book: OpenBook, number: int) -> Entry:
    with book.store.read() as reading:
        wait = reading.journal.get(number)
        listed = reading.journal.entries(job=wait.job, kind=TIMES)
    if wait.kind != "waiting/1" or wait.number not in {one.number for one in unanswered(listed)}:
        raise Refused("Nothing was kept: the job has gone on from this wait. Look at the job.")
    return wait


def _choice(book: OpenBook, who: Person, wait: Entry, key: str) -> Choice:
    """What the card of the wait's step offers under that key now."""
    facts = wait.payload
    job, step = int(facts["job"]), (facts["method"], facts["corner"])
    with book.store.read() as reading:
        running = running_methods(reading, kept_acts(work_entries(reading, job)))
    begun = next((run.begun for run in running if (run.method.key, run.corner) == step), None)
    card = job_sheet(book, job, (begun, int(facts["step"])), who.id).card if begun is not None else None
    choice = next((one for one in card.choices if one.key == key), None) if card is not None else None
    if choice is None:
        needs = " ".join(card.needs) if card is not None else ""
        running_on = f"it runs until {card.waits_until[11:16]}" if card is not None and card.waits_until else ""
        why = needs or running_on or "its step offers this no more"
        raise Refused(f"Nothing was kept: {why.rstrip('.')}. Look at the job.")
    return choice


def _take_back(book: OpenBook, who: Person, wait: Entry, reason: str) -> None:
    with writing(book, who, "work") as tx:
        job = int(wait.payload["job"])
        tx.keep(Draft("undone/1", f"job/{job}", {"job": job, "act": wait.act}, job=job, reason=reason.strip()))


def hold(book: OpenBook, who: Person, job: int, waits_for: str, what: str, expected: str = "", stands: str = "") -> int:
    """Keep that a vehicle in the shop waits for something from outside, until when as far as that is known, and where
    it stands meanwhile. It is a reminder, closed with an outcome. Returns its number."""
    if waits_for not in WAITS_FOR or (stands and stands not in STANDS):
        raise Refused("Nothing was kept: say what the vehicle waits for, and where it stands meanwhile.")
    if not what.strip():
        raise Refused("Nothing was kept: write what exactly is waited for, and from whom.")
    day = promised_for(expected, book.clock())[:10]
    with writing(book, who, "desk", "work") as tx:
        in_hand(tx, job)
        facts = {"job": job, "what": what.strip(), "due_on": day, "due_at": "", "waits_for": waits_for}
        return tx.keep(Draft("reminder/1", f"job/{job}", facts | {"stands": stands}, job=job)).number
