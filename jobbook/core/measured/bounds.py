"""Limits as people write them beside a reading, and whether the reading lies inside. Exact: the limit belongs to it."""

import re
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.quantities import Quantity, read_quantity

INSIDE, OUTSIDE = "inside", "outside"

_MOST = re.compile(r"(?:at most|up to|no more than|not above|max\.?|<=|≤|<)\s*(.+)", re.IGNORECASE)
_LEAST = re.compile(r"(?:at least|from|no less than|not below|min\.?|>=|≥|>)\s*(.+)", re.IGNORECASE)
_BETWEEN = re.compile(r"(?:between\s+)?(.+?)\s*(?: to | and |…|–|\.\.\.?)\s*(.+)", re.IGNORECASE)
_ABOUT = re.compile(r"(.+?)\s*(?:±|\+/-|\+-)\s*(.+)")
_NUMBER_END = re.compile(r"[0-9]$")


@dataclass(frozen=True)
class Bounds:
    """A lower and an upper limit; None where there is none on that side."""

    lower: Quantity | None
    upper: Quantity | None


def read_bounds(text: str, kind: str, unit: str) -> Bounds:
    """Return the limits of a text: “at most 120 s”, “at least 12 V”, “15 to 16 bar”, “15 ± 1 bar”.

    A bare number stands in `unit`. Refused: a number alone, since nobody knows on which side it limits.
    """
    written = " ".join(text.split())
    if match := _ABOUT.fullmatch(written):
        return _about(*_with_one_unit(match[1], match[2]), kind, unit)
    if match := _MOST.fullmatch(written):
        return Bounds(None, read_quantity(match[1], kind, default_unit=unit))
    if match := _LEAST.fullmatch(written):
        return Bounds(read_quantity(match[1], kind, default_unit=unit), None)
    if match := _BETWEEN.fullmatch(written):
        first, last = (read_quantity(part, kind, default_unit=unit) for part in _with_one_unit(match[1], match[2]))
        return _in_order(first, last, written)
    raise Refused(f"The limit “{written[:24]}” says no side: write at most, at least, 15 to 16, or 15 ± 1.")


def _with_one_unit(first: str, last: str) -> tuple[str, str]:
    """“15 to 16 bar” has its unit once and means both."""
    unit = re.sub(r"^[+\-−0-9.,/ ]+", "", last)
    return (f"{first} {unit}" if _NUMBER_END.search(first) and unit else first), last


def _about(middle: str, apart: str, kind: str, unit: str) -> Bounds:
    centre = read_quantity(middle, kind, default_unit=unit)
    if kind == "temperature":
        raise Refused("A tolerance of a temperature was not taken: write it as 15 to 25 °C.")
    width = _width(apart, centre, kind)
    if width < 0:
        raise Refused(f"The tolerance “{apart[:24]}” is below nought; look at the limit again.")
    ends = (Quantity(kind, Fraction(centre.amount) + sign * width, centre.unit) for sign in (-1, 1))
    return Bounds(*ends)


def _width(apart: str, centre: Quantity, kind: str) -> Fraction:
    if apart.rstrip().endswith("%") and kind != "ratio":
        return read_quantity(apart, "ratio").in_unit("1") * Fraction(centre.amount)
    return read_quantity(apart, kind, default_unit=centre.unit).in_unit(centre.unit)


def _in_order(first: Quantity, last: Quantity, written: str) -> Bounds:
    if first.in_unit(last.unit) > Fraction(last.amount):
        raise Refused(f"The limit “{written[:24]}” is upside down: write the smaller one first.")
    return Bounds(first, last)


def judged(reading: Quantity, bounds: Bounds) -> str:
    """Return inside or outside; on a limit is inside. No doubt of the instrument is taken into it."""
    below = bounds.lower is not None and reading.in_unit(bounds.lower.unit) < Fraction(bounds.lower.amount)
    above = bounds.upper is not None and reading.in_unit(bounds.upper.unit) > Fraction(bounds.upper.amount)
    return OUTSIDE if below or above else INSIDE
