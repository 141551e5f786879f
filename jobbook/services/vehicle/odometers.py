"""Odometer readings as they are kept: as read, with the reason where the counter begins anew, or unknown."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.quantities.whole import whole_number
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.odometers import (
    NO_RESET,
    REPLACED,
    RESETS,
    Distance,
    Reset,
    doubt,
    in_unit,
    kilometres,
    other_unit,
    true_distance,
)
from jobbook.core.vehicle.vehicles import Odometer, Unread
from jobbook.core.written import thousands
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

LARGEST_ODOMETER = 9_999_999
UNITS = ("km", "mi")
UNKNOWN = ("?", "unknown")


@dataclass(frozen=True)
class Distances:
    """Every reading of a vehicle, the visits at which there was none, and how far it has truly run."""

    readings: tuple[Odometer, ...]
    unread: tuple[Unread, ...]
    true: Distance | None
    unit: str = "km"  # in which the vehicle's odometer counts


def distances(book: OpenBook, vehicle: int) -> Distances:
    with book.store.read() as reading:
        return distances_of(reading, vehicle)


def distances_of(reading: Book, vehicle: int) -> Distances:
    there = reading.vehicles.get(vehicle)
    readings = tuple(reading.vehicles.odometers(there.id))
    unread = tuple(reading.vehicles.unread(there.id))
    return Distances(readings, unread, true_distance(readings), there.distance_unit)


def true_at_each(readings: Sequence[Odometer]) -> dict[int, Distance]:
    """How far the vehicle had truly run at each reading, by the entry of the reading; the newest reading first."""
    reckoned = ((one.entry, true_distance(readings[place:])) for place, one in enumerate(readings))
    return {entry: true for entry, true in reckoned if true is not None}


def read_odometer(typed: str) -> int:
    """A whole number of km or miles. Thousands may be parted by spaces, points, commas or apostrophes."""
    digits = "".join(character for character in typed if character not in " .,'’\u00a0\u202f\u2009")
    value = whole_number(digits, LARGEST_ODOMETER)
    if value is None:
        raise Refused(f"The odometer “{typed}” is not a whole number up to {LARGEST_ODOMETER}; nothing was kept.")
    return value


def read_or_unknown(typed: str) -> int | None:
    """A reading, or None where somebody says that there is none to be had: “?” or “unknown”."""
    return None if typed.strip().casefold() in UNKNOWN else read_odometer(typed)


def question_of(reading: Book, vehicle: int, value: int | None, unit: str, note: str, reset: Reset = NO_RESET) -> str:
    """The question that a reading raises beside the last one; a note or a reason answers it."""
    if value is None or note.strip() or reset.why:
        return ""
    return doubt(next(iter(reading.vehicles.odometers(vehicle)), None), value, unit)


def keep_odometer(
    tx: WritingBook,
    vehicle: int,
    job: int,
    value: int | None,
    unit: str,
    what: str,
    note: str = "",
    reset: Reset = NO_RESET,
) -> None:
    """Keep one odometer reading as read; None says that it could not be read, and the note why."""
    if value is None:
        keep_unknown(tx, vehicle, job, what, note)
        return
    facts: dict[str, object] = {"vehicle": vehicle, "job": job, "value": value, "unit": _unit(unit), "what": what}
    tx.keep(Draft("odometer/1", f"vehicle/{vehicle}", facts | {"note": note} | _reset_facts(reset), job=job))


def _reset_facts(reset: Reset) -> dict[str, str]:
    """What an entry says of a counter that begins anew; an end that nobody knows stays empty."""
    if not reset.why:
        return {}
    if reset.why not in RESETS:
        raise Refused(f"The reading was not kept: say why the counter begins anew: {', '.join(RESETS)}.")
    ends = (reset.old_end, reset.new_start) if reset.why == REPLACED else ("", reset.new_start)
    old, new = (str(read_odometer(end)) if end.strip() else "" for end in ends)
    return {"reset": reset.why, "old_end": old, "old_unit": _unit(reset.old_unit or "km"), "new_start": new}


def _unit(unit: str) -> str:
    if unit not in UNITS:
        raise Refused(f"“{unit}” is no unit of an odometer: km or mi; nothing was kept.")
    return unit


def keep_unknown(tx: WritingBook, vehicle: int, job: int, what: str, why: str) -> None:
    """Keep that the odometer could not be read. Refused without the reason: “unknown” is an answer."""
    if not why.strip():
        raise Refused(
            "Nothing was kept: say in the note why the odometer could not be read, for instance “display dark”."
        )
    facts = {"vehicle": vehicle, "job": job, "what": what, "why": why.strip()}
    tx.keep(Draft("odometer-unknown/1", f"vehicle/{vehicle}", facts, job=job))


def correct_odometer(
    book: OpenBook, who: Person, entry: int, typed: str, unit: str, reason: str, reset: Reset | None = None
) -> None:
    """Correct a reading by an entry that names it: a slip, the wrong unit, or a counter that had begun anew.

    `reset`: why the counter begins anew with it; None leaves what was said of that. Refused without a reason."""
    if not reason.strip():
        raise Refused("Nothing was changed: say what was wrong with the reading; both stay readable.")
    value = read_odometer(typed)
    with writing(book, who, "work", "desk") as tx:
        before = tx.journal.get(entry)
        if before.kind != "odometer/1":
            raise Refused("Nothing was changed: that entry is no odometer reading. Choose the reading from the list.")
        facts = dict(before.payload) | {"value": value, "unit": _unit(unit)}
        facts |= {"vehicle": tx.vehicles.kept_of(facts["vehicle"])}
        if reset is not None:
            facts = {
                key: told for key, told in facts.items() if key not in ("reset", "old_end", "old_unit", "new_start")
            }
            facts |= _reset_facts(reset)
        draft = Draft("odometer/1", f"vehicle/{facts['vehicle']}", facts, job=before.job, done_at=before.done_at)
        tx.keep(replace(draft, replaces=entry, reason=reason.strip()))


def both_units(value: int, unit: str) -> str:
    """A distance with the same in the other unit behind it: 128 410 km (79 790 mi)."""
    other = other_unit(unit)
    return f"{thousands(value)} {unit} ({thousands(in_unit(kilometres(value, unit), other))} {other})"


def true_words(true: Distance | None, unit: str) -> str:
    """How far a vehicle has truly run, in words; empty where nothing was ever read."""
    if true is None:
        return ""
    there = both_units(in_unit(true.km, unit), unit)
    if true.known == "unknown":
        return f"unknown; {there} since its counter began anew"
    return there if true.known == "exact" else f"at least {there}"
