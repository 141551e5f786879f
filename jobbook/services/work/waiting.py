"""Waits: begun as an entry of their own, so that they run on through a restart."""

from datetime import timedelta
from decimal import Decimal

from jobbook.core.errors import Refused
from jobbook.core.journal import Draft
from jobbook.core.quantities import read_quantity
from jobbook.core.work.model import Act
from jobbook.core.work.rules import refusals
from jobbook.core.work.state import State
from jobbook.db.store import Book, WritingBook
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written


def begin_to_wait(tx: WritingBook, book: OpenBook, job: int, act: Act, state: State) -> Written:
    until = book.clock() + wait_length(act, state)
    facts = {"job": job, "method": act.method_key, "corner": act.corner, "step": act.step, "until": until.isoformat()}
    entry = tx.keep(Draft("waiting/1", f"job/{job}", facts, job=job))
    return written(entry, "Wait begun")


def wait_length(act: Act, state: State) -> timedelta:
    """How long the wait is. Refused where its figure is not known for this variant."""
    if act.minutes:
        return timedelta(seconds=int(Decimal(act.minutes) * 60))
    for refusal in refusals(state, act):
        raise Refused(refusal.sentence, refusal.rule)
    minutes = read_quantity(state.figures[act.figure_key].text, "time", default_unit="min").in_unit("min")
    return timedelta(seconds=int(minutes * 60))


def waits(reading: Book, job: int) -> dict[tuple[str, str, int], str]:
    """When the waits begun on a job are over, by method, corner and step: the last one begun counts."""
    entries = reading.journal.entries(job=job, kind="waiting/1")
    return {(e.payload["method"], e.payload["corner"], e.payload["step"]): e.payload["until"] for e in entries}
