"""Odometer readings: what is doubtful about a new one beside the last, and how far the vehicle has truly run.

A doubt asks; it never changes a reading. A counter that begins anew keeps its reading as read; the distance run before
is added in reckoning.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.vehicle.vehicles import Odometer

KM_PER_MILE = Fraction(1609344, 1000000)  # exact since 1959: 1 mi = 1609.344 m
# Common practice, no standard: a vehicle whose distance grew by about this factor was read in the other unit once.
MIXED_UP = (Fraction(155, 100), Fraction(167, 100))
TOO_YOUNG_TO_TELL = 5000  # km: a new vehicle may well have run 1.6 times as far as at its last visit

REPLACED, UNIT_CHANGED, NEVER_KNOWN = "cluster replaced", "unit changed", "never known"
RESETS = {
    REPLACED: "the cluster was replaced",
    UNIT_CHANGED: "the counter was set to the other unit",
    NEVER_KNOWN: "nobody knows how far it ran before",
}


@dataclass(frozen=True)
class Distance:
    """How far a vehicle has truly run, in km.

    `known`: "exact", "at least", or "unknown"; then `km` is what it ran since its counter began anew."""

    km: Fraction
    known: str = "exact"


def true_distance(readings: Sequence[Odometer]) -> Distance | None:
    """The distance behind the newest reading, over every beginning anew of the counter. None where there is no reading.

    Readings come the newest first. One that falls and says no reason makes the distance a least one."""
    run: Distance | None = None
    before, offset, last = Fraction(0), Fraction(0), ""
    known = "exact"
    for reading in reversed(readings):
        here = kilometres(reading.value, reading.unit)
        if reading.reset == REPLACED:
            begun = _begun_with(reading, here)
            offset, sure = _over_replacement(reading, offset, before, begun)
            known = known if sure or known == "unknown" else "at least"
        elif reading.reset == NEVER_KNOWN:
            offset, known = -_begun_with(reading, here), "unknown"
        elif run is not None and reading.reset != UNIT_CHANGED and _falls(here, before, reading.unit == last):
            offset, known = offset + before - here, known if known == "unknown" else "at least"
        before, last, run = here, reading.unit, Distance(offset + here, known)
    return run


def _falls(here: Fraction, there: Fraction, same_unit: bool) -> bool:
    """Whether a reading is less than the one before; between km and miles a rounded mile is no fall."""
    return here < there - (0 if same_unit else KM_PER_MILE)


def _begun_with(reading: Odometer, here: Fraction) -> Fraction:
    """What the counter showed when it began; this reading where nobody knows."""
    return kilometres(int(reading.new_start), reading.unit) if reading.new_start else here


def _over_replacement(reading: Odometer, offset: Fraction, before: Fraction, begun: Fraction) -> tuple[Fraction, bool]:
    """What to add to the new counter, and whether both of its ends are known."""
    end = kilometres(int(reading.old_end), reading.old_unit or reading.unit) if reading.old_end else before
    return offset + end - begun, bool(reading.old_end and reading.new_start)


def doubt(last: Odometer | None, value: int, unit: str) -> str:
    """The question that a reading raises beside the last one: it falls, or the units look mixed up. Empty: none."""
    if last is None:
        return ""
    here, there = kilometres(value, unit), kilometres(last.value, last.unit)
    before = f"{last.value} {last.unit} read before"
    if _falls(here, there, unit == last.unit):
        return _falling(value, unit, before, there)
    if there >= TOO_YOUNG_TO_TELL and MIXED_UP[0] <= here / there <= MIXED_UP[1]:
        return (
            f"{value} {unit} is 1.6 times the {before}: are miles and kilometres mixed up? "
            "Look at the unit; if it is right, say so in the note."
        )
    return ""


def _falling(value: int, unit: str, before: str, there: Fraction) -> str:
    other = "mi" if unit == "km" else "km"
    if there <= kilometres(value, other) <= there * Fraction(3, 2):
        return f"{value} {unit} is less than {before}; in {other} it fits. Which is it? Say so in the note."
    return (
        f"{value} {unit} is less than {before}. "
        "Was it a typing slip, was the cluster replaced, or was the unit changed? Say so in the note."
    )


def kilometres(value: int, unit: str) -> Fraction:
    """A distance in km, exactly."""
    return Fraction(value) * (KM_PER_MILE if unit == "mi" else 1)


def in_unit(km: Fraction, unit: str) -> int:
    """A distance in whole km or miles, rounded to the nearest; half away from nought."""
    return int(km / (KM_PER_MILE if unit == "mi" else 1) + Fraction(1, 2))


def other_unit(unit: str) -> str:
    return "km" if unit == "mi" else "mi"


@dataclass(frozen=True)
class Reset:
    """Why the counter begins anew (one of RESETS), the old counter's last figure and the new one's first, as typed.

    A figure that nobody knows is left empty: it is not nought."""

    why: str = ""
    old_end: str = ""
    old_unit: str = ""
    new_start: str = ""


NO_RESET = Reset()
