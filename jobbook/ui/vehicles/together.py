"""The trace of numbers that were brought together, on either's page, and the way back."""

from collections.abc import Sequence

from jobbook.services.sheet.sheets import Ask
from jobbook.services.vehicle.apart import STAYS, Together
from jobbook.ui.jobs.tabs.records import Deed, Line
from jobbook.ui.moments import day

APART = "apart"
REASON = Ask("reason", "How it was found that they are two")


def lines(found: Sequence[Together], here: int) -> tuple[Line, ...]:
    return tuple(_line(one, here) for one in found)


def _line(one: Together, here: int) -> Line:
    said = " · ".join((day(one.at), one.who, one.reason))
    what = one.what.capitalize()
    if one.apart:
        other = one.kept if here == one.gone else one.gone
        return Line(f"{what} {other} was taken for this one; they are two", said, mark="bar")
    deed = Deed(APART, "Take apart…", (REASON,), of=str(one.gone), keep="They are two", explain=STAYS)
    direct = (deed,) if one.kept == here else ()
    return Line(f"{what} {one.gone} was found to be this one", said, deeds=direct)
