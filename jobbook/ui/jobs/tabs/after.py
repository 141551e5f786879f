"""What a job waited for, and the visits that were asked for after its release: who tried, and what came of each."""

from jobbook.core.desk.calls import Tried
from jobbook.core.desk.retorque import Tightened
from jobbook.core.desk.waits import held_words
from jobbook.services.office.visits import Visit, outcomes_of, visits
from jobbook.services.opened import OpenBook
from jobbook.ui.jobs.signing import name_of
from jobbook.ui.jobs.tabs.records import Block, Line
from jobbook.ui.moments import day

DONE = ("done here", "done elsewhere", "done", "came")


def blocks(book: OpenBook, job: int) -> tuple[Block, ...]:
    """A block each, where there is any; Today is where what came of them is kept."""
    asked = visits(book, job)
    waits = tuple(line for one in asked if one.reminder.waits_for for line in _lines(book, one))
    after = tuple(line for one in asked if not one.reminder.waits_for for line in _lines(book, one))
    return tuple(Block(title, lines) for title, lines in (("Waited for", waits), ("After the release", after)) if lines)


def _lines(book: OpenBook, one: Visit) -> tuple[Line, ...]:
    reminder = one.reminder
    what = held_words(reminder.waits_for, reminder.what, reminder.stands) if reminder.waits_for else reminder.what
    words = f"{what}: {outcomes_of(reminder).get(reminder.outcome) or reminder.outcome or 'not yet'}"
    distance = f" or after {reminder.due_at}" if reminder.due_at else ""
    beside = [f"due {day(reminder.due_on)}{distance}"] if reminder.due_on else []
    beside += [f"with {one.tool}"] if one.tool else []
    beside += ["note erased" if one.note is None else one.note] if one.note != "" else []
    beside += [f"kept by {name_of(book, one.by)}"] if one.by else []
    mark = "ring" if not reminder.outcome else "disc" if reminder.outcome in DONE else "bar"
    visit = Line(words, " · ".join(beside), mark, one.at)
    return (visit, *(wheel_line(book, wheel) for wheel in one.wheels), *(_tried(book, tried) for tried in one.tried))


def wheel_line(book: OpenBook, wheel: Tightened) -> Line:
    """What was done at one wheel on a visit."""
    told = (wheel.wanted and f"to be {wheel.wanted}", wheel.tool and f"with {wheel.tool}", wheel.unfit)
    beside = " · ".join(filter(None, (*told, f"by {name_of(book, wheel.by)}")))
    return Line(wheel.words, beside, "disc" if wheel.answer == "done" else "bar", wheel.at)


def _tried(book: OpenBook, tried: Tried) -> Line:
    note = "note erased" if tried.note is None else tried.note
    beside = " · ".join(filter(None, (note, f"by {name_of(book, tried.by)}")))
    return Line(f"Tried {tried.how}: {tried.outcome}", beside, "dash", tried.at)
