"""The odometer of a vehicle: every reading in both units, the counter that began anew, and the true distance."""

from dataclasses import replace

from jobbook.core.people import Person
from jobbook.core.vehicle.odometers import RESETS, Reset
from jobbook.core.vehicle.vehicles import Odometer, Unread
from jobbook.core.written import thousands
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Fact, Option, options_of
from jobbook.services.vehicle.odometers import Distances, both_units, correct_odometer, true_words
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line
from jobbook.ui.moments import day_and_hour

WHEN = {"in": "on arrival", "out": "when it left", "test": "on the road test", "stated": "as stated, not read"}
CORRECT = "odometer wrong"
UNITS = (Option("km", "km"), Option("mi", "mi"))


def block(told: Distances, deeds: tuple[Deed, ...] = ()) -> Block:
    """The readings, the newest first, with what can be put right in each."""
    dated = [(one.at, _reading(one)) for one in told.readings] + [(one.at, _unread(one)) for one in told.unread]
    lines = tuple(line for _, line in sorted(dated, key=lambda pair: pair[0], reverse=True))
    true = true_words(told.true, told.unit)
    facts = (Fact("True distance", true, strong=True),) if true else ()
    return Block("Odometer", lines, facts, nothing="No reading yet.", deeds=deeds)


def _reading(one: Odometer) -> Line:
    said = " · ".join(filter(None, (_when(one), _began(one), one.note)))
    asks = (
        Ask("value", "Reading as it was", "number", value=str(one.value)),
        Ask("unit", "Unit", "choice", UNITS, value=one.unit),
        Ask("reason", "What was wrong with it"),
        *reset_asks(one),
    )
    return Line(both_units(one.value, one.unit), said,
                deeds=(Deed(CORRECT, "Correct…", asks, of=str(one.entry)),))  # fmt: skip


def _when(one: Odometer | Unread) -> str:
    """When it was read, with its year: a vehicle comes again after years."""
    return f"{WHEN.get(one.what, one.what)}, {day_and_hour(one.at)}"


def _began(one: Odometer) -> str:
    """Why the counter began anew, and its ends as far as they are known."""
    if not one.reset:
        return ""
    ends = []
    if one.reset == "cluster replaced":
        old = f"{thousands(int(one.old_end))}\u00a0{one.old_unit}" if one.old_end else "a figure that nobody knows"
        new = f"{thousands(int(one.new_start))}\u00a0{one.unit}" if one.new_start else "a figure that nobody knows"
        ends = [f"the old one ended at {old}", f"the new one began at {new}"]
    return ", ".join((RESETS.get(one.reset, one.reset), *ends))


def _unread(one: Unread) -> Line:
    return Line("not read", f"{_when(one)} · {one.why}", mark="bar")


def reset_asks(one: Odometer | None = None) -> tuple[Ask, ...]:
    """What is asked of a counter that begins anew; what nobody knows is left empty."""
    there = one or Odometer(0, "km", "", "")
    why = options_of(RESETS)
    old, new = "Old one's last figure, if known", "New one's first figure, if known"
    asks = (
        Ask("reset", "The counter begins anew with it", "list", why, value=there.reset),
        Ask("old_end", old, "number", value=there.old_end),
        Ask("old_unit", "Old one counted", "choice", UNITS, value=there.old_unit or there.unit),
        Ask("new_start", new, "number", value=there.new_start),
    )
    return tuple(replace(ask, required=False, folded=True) for ask in asks)


def reset_of(said: Answers) -> Reset:
    """What was answered of a counter that begins anew."""
    if not said.get("reset"):
        return Reset()
    return Reset(said["reset"], said.get("old_end", ""), said.get("old_unit", ""), said.get("new_start", ""))


def keep(book: OpenBook, who: Person, deed: Deed, said: Answers) -> None:
    correct_odometer(book, who, int(deed.of), said["value"], said["unit"], said["reason"], reset_of(said))
