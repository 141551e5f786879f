"""Waits: begun as an entry of their own, so that they run on through a restart."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from decimal import Decimal

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.quantities import read_quantity
from jobbook.core.record.journal import Draft
from jobbook.core.work.model import Act
from jobbook.core.work.rules import refusals
from jobbook.core.work.state import State
from jobbook.db.store import Book, WritingBook
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

Place = tuple[str, str, int]  # method, corner and step


def begin_to_wait(tx: WritingBook, book: OpenBook, job: int, doer: Person, act: Act, state: State) -> Written:
    until = book.clock() + wait_length(act, state)
    facts = {"job": job, "method": act.method_key, "corner": act.corner, "step": act.step, "until": until.isoformat()}
    entry = tx.keep(Draft("waiting/1", f"job/{job}", facts, job=job, done_by=doer.id))
    return written(entry, "Wait begun")


def wait_length(act: Act, state: State) -> timedelta:
    """How long the wait is. Refused where its figure is not known for this variant."""
    if act.minutes:
        return timedelta(seconds=int(Decimal(act.minutes) * 60))
    for refusal in refusals(state, act):
        raise Refused(refusal.sentence, refusal.rule)
    minutes = read_quantity(state.figures[act.figure_key].text, "time", default_unit="min").in_unit("min")
    return timedelta(seconds=int(minutes * 60))


def waits(reading: Book, job: int) -> Mapping[Place, str]:
    """When the waits begun on a job are over, by method, corner and step: the last one begun counts, and one that was
    taken back does not."""
    entries = reading.journal.entries(job=job, kind=("waiting/1", "undone/1"))
    undone = {entry.payload["act"] for entry in entries if entry.kind == "undone/1"}
    begun = [entry.payload for entry in entries if entry.kind == "waiting/1" and entry.act not in undone]
    return {(told["method"], told["corner"], told["step"]): told["until"] for told in begun}


def look_at_wait(reading: Book, job: int, act: Act, now: datetime) -> None:
    """Refused where a wait is said to be over that was not begun or still runs; cut short, it needs its reason."""
    if act.do != "wait" or act.ends == "early" or act.answer != "done":
        return
    until = waits(reading, job).get((act.method_key, act.corner, act.step), "")
    if not until:
        raise Refused("Nothing was kept: this wait was not begun. Begin to wait, or cut it short with a reason.")
    if is_running(until, now):
        ends = f"{datetime.fromisoformat(until):%H:%M}"
        raise Refused(f"Nothing was kept: the wait runs until {ends}. Wait on, or cut it short with a reason.")


def is_running(until: str, now: datetime) -> bool:
    """Whether a wait that ends then still runs. Moments are compared, not texts: clocks change in the night."""
    return bool(until) and datetime.fromisoformat(until) > now
