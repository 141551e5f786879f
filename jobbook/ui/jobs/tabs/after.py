"""After the release: the visits that were asked for, who tried to reach the customer, and what came of each."""

from jobbook.core.desk.calls import Tried
from jobbook.services.office.visits import OUTCOMES, REMINDED, Visit, visits
from jobbook.services.opened import OpenBook
from jobbook.ui.jobs.signing import name_of
from jobbook.ui.jobs.tabs.records import Block, Line
from jobbook.ui.moments import day

MARKS = {"done here": "disc", "done elsewhere": "disc", "done": "disc", "did not come": "bar", "waived": "bar"}


def blocks(book: OpenBook, job: int) -> tuple[Block, ...]:
    """One block, where any visit was asked for; Today is where what came of it is kept."""
    asked = visits(book, job)
    lines = tuple(line for one in asked for line in _lines(book, one))
    return (Block("After the release", lines),) if asked else ()


def _lines(book: OpenBook, one: Visit) -> tuple[Line, ...]:
    reminder = one.reminder
    distance = f" or after {reminder.due_at}" if reminder.due_at else ""
    words = f"{reminder.what}: {_outcome(reminder.outcome)}"
    beside = [f"due {day(reminder.due_on)}{distance}"]
    beside += [f"with {one.tool}"] if one.tool else []
    beside += ["note erased" if one.note is None else one.note] if one.note != "" else []
    beside += [f"kept by {name_of(book, one.by)}"] if one.by else []
    visit = Line(words, " · ".join(beside), MARKS.get(reminder.outcome, "ring"), one.at)
    return (visit, *(_tried(book, tried) for tried in one.tried))


def _outcome(outcome: str) -> str:
    return OUTCOMES.get(outcome) or REMINDED.get(outcome) or outcome or "not yet"


def _tried(book: OpenBook, tried: Tried) -> Line:
    note = "note erased" if tried.note is None else tried.note
    beside = " · ".join(filter(None, (note, f"by {name_of(book, tried.by)}")))
    return Line(f"Tried {tried.how}: {tried.outcome}", beside, "dash", tried.at)
