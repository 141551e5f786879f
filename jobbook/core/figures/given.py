"""What a figure is given, from typed text or from JSON: each reader takes one value and returns it, or refuses."""

import re
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.degrees import read_minutes
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.figures.partlife import Sample
from jobbook.core.figures.written import as_typed, certain, measured_plainly, pure
from jobbook.core.quantities import KINDS, Quantity

MOST_VALUES = 1000

YES, NO = frozenset({"1", "true", "yes"}), frozenset({"0", "false", "no"})

_DATE = re.compile(r"(?:19|20|21)[0-9]{2}-[0-9]{2}-[0-9]{2}")
_CORNER = re.compile(r"(FL|FR|RL|RR)[ :=]+(.+)", re.IGNORECASE)


def text(value: object) -> str:
    """Return a text that is not empty; a number of JSON stands as it was written."""
    written = str(value).strip() if isinstance(value, (str, int, Decimal)) and not isinstance(value, bool) else ""
    if not written:
        raise Refused("it is no text; write it in quotation marks.")
    return written


def quantity(value: object, kind: str, default_unit: str | None = None) -> Quantity:
    """Return a quantity of that kind. A bare number is refused where the key itself does not name the unit."""
    typed = as_typed(value)
    minutes = read_minutes(typed) if kind == "angle" and re.search("°|deg", typed) else None
    return minutes or certain(typed, kind, default_unit)


def angle(value: object) -> Quantity:
    """Return an angle in whatever form it is typed; a bare number is degrees, two are degrees and minutes."""
    typed = as_typed(value)
    return read_minutes(typed) or certain(typed, "angle", "deg")


def number(value: object) -> Fraction:
    """Return a pure number; 12 % is 0.12."""
    exact = pure(value)
    return certain(as_typed(value), "ratio", "1").in_unit("1") if exact is None else exact


def humidity(value: object) -> Fraction:
    """Return relative humidity as a share of one; a bare number above one can only be meant in per cent."""
    share = number(value)
    return share / 100 if share > 1 and "%" not in as_typed(value) else share


def whole(value: object) -> Fraction:
    """Return a whole number."""
    found = number(value)
    if found.denominator != 1:
        raise Refused("it is no whole number; write one without a fraction.")
    return found


def measured(value: object) -> Quantity:
    """Return a figure of whatever kind its unit says; without a unit it is a pure number."""
    typed, first = as_typed(value), Refused("it is no figure; write a number.")
    plain = measured_plainly(typed)
    if plain is not None:
        return plain
    for kind in ("ratio", *KINDS):
        try:
            return certain(typed, kind, "1" if kind == "ratio" else None)
        except Refused as refused:
            first = refused if kind == "ratio" else first
    raise first


def not_negative(value: object) -> Quantity:
    """Return a figure of whatever kind that is not below nought."""
    found = measured(value)
    if found.amount < 0:
        raise Refused("it is below nought; look at the figure again.")
    return found


def parts(value: object, between: str = r"\s+(?=[+\-−]?[0-9.])") -> list[object]:
    """Return the members of a list of JSON, or of a text parted by semicolons, commas with a space, or spaces."""
    if isinstance(value, list):
        found: list[object] = value
    else:
        listed = text(value)
        found = [part for part in re.split(r"\s*;\s*|,\s+" if re.search(r";|,\s", listed) else between, listed) if part]
    if not 1 <= len(found) <= MOST_VALUES:
        raise Refused(f"it is a list of {len(found)} values; give 1 to {MOST_VALUES}.")
    return found


def numbers(value: object) -> tuple[Fraction, ...]:
    """Return pure numbers of nought or more."""
    found = tuple(map(number, parts(value)))
    if min(found) < 0:
        raise Refused("it holds a number below nought; look at the list again.")
    return found


def answers(value: object) -> tuple[bool, ...]:
    """Return a list of yes (1, true) and no (0, false)."""
    words = [str(part).strip().lower() for part in parts(value, r"[\s,]+")]
    if not {*words} <= YES | NO:
        raise Refused("it holds something that is neither 1 nor 0; write 1 for failed and 0 for still alive.")
    return tuple(word in YES for word in words)


def figures(value: object) -> tuple[Quantity, ...]:
    """Return a list of figures of any one kind."""
    return tuple(map(measured, parts(value)))


def four_heights(value: object) -> dict[str, Quantity]:
    """Return four heights by corner: from a mapping, a text that names the corners, or a list FL FR RL RR."""
    by_name = value if isinstance(value, Mapping) else _named(parts(value))
    named = {str(corner).upper(): height for corner, height in by_name.items()}
    if {*named} != {*CORNERS} or len(by_name) != len(CORNERS):
        raise Refused("it does not hold the four corners FL, FR, RL and RR once each; give four heights.")
    heights = {corner: quantity(named[corner], "length") for corner in CORNERS}
    if min(height.amount for height in heights.values()) < 0:
        raise Refused("it holds a negative height; measure from hub centre to arch edge.")
    return heights


def sample(value: object) -> Sample:
    """Return a sample: an object with durations and failed, or durations with a plus behind those still alive."""
    if isinstance(value, Mapping):
        if {*value} != {"durations", "failed"}:
            raise Refused("it is not an object of durations and failed; give both lists and nothing else.")
        return Sample(numbers(value["durations"]), answers(value["failed"]))
    found = [str(part).strip() for part in parts(value, r"[\s,]+")]
    return Sample(numbers([part.removesuffix("+") for part in found]), tuple(not p.endswith("+") for p in found))


def day(value: object) -> date:
    """Return a date written as year-month-day (ISO 8601)."""
    written = text(value)
    try:
        return date.fromisoformat(written if _DATE.fullmatch(written) else "")
    except ValueError:
        raise Refused(f"“{written[:20]}” is no date; write it like 2024-02-29.") from None


def _named(members: list[object]) -> dict[str, object]:
    matches = [_CORNER.fullmatch(str(member).strip()) for member in members]
    if any(matches):
        return {match[1].upper(): match[2] for match in matches if match}
    return dict(zip(CORNERS, members, strict=False)) if len(members) == len(CORNERS) else {}
