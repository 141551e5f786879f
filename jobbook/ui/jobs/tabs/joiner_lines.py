"""Joiners in the air lines, on the Parts tab: those found before the work, those put in, those that went."""

from jobbook.core.people import Person
from jobbook.core.vehicle.history import WHOSE, Joiner, joiners_words
from jobbook.core.work.model import CORNERS
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.services.vehicle import joiners
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line
from jobbook.ui.moments import day

ADD, GONE = "joiner", "joiner gone"
KEYS = (ADD, GONE)
ADD_ASKS = (
    Ask("line", "In which line, and where"),
    Ask("whose", "Whose it is", "choice", options_of(WHOSE), value="others"),
    Ask("corner", "Corner", "choice", options_of(CORNERS), required=False),
    Ask("note", "What was seen", required=False),
)


def block(there: tuple[Joiner, ...]) -> Block:
    """The joiners of the vehicle from all its visits; what a maker allows is counted over its whole life."""
    add = Deed(ADD, "Found or put in…", ADD_ASKS, explain="One joiner each time; look at all lines before the work.")
    lines = (Line(joiners_words(there)), *(_line(one) for one in there if not one.gone_in))
    return Block("Joiners in the air lines", lines, deeds=(add,))


def _line(one: Joiner) -> Line:
    words = f"{one.corner} · {one.line}" if one.corner else one.line
    beside = " · ".join(filter(None, (WHOSE[one.whose], f"{day(one.at)}, job {one.job}", one.note)))
    gone = Deed(GONE, "Went with its line…", (Ask("note", "What was renewed", required=False),), of=str(one.entry))
    return Line(words, beside, "disc", deeds=(gone,))


def keep(book: OpenBook, who: Person, job: int, deed: Deed, given: Answers) -> str:
    if deed.key == GONE:
        joiners.joiner_gone(book, who, job, int(deed.of), given["note"])
        return "The joiner went with its line"
    joiners.add_joiner(book, who, job, given["line"], given["whose"], given["corner"], given["note"])
    return "The joiner is kept"
