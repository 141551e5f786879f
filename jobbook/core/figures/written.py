"""Figures written by a program or for one: the point is the decimal point, powers of ten are taken."""

import re
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.quantities import KINDS, Quantity, Unclear, read_quantity
from jobbook.core.quantities.spelled import unit_text
from jobbook.core.quantities.typed import shown, tidy
from jobbook.core.quantities.units import SPELLED, UNIT

LARGEST = 18  # powers of ten either way; no figure of the trade is larger or smaller

# What needs no second look: a number with a decimal point at most, and behind it a unit or none.
_PLAIN = re.compile(r"([0-9]{1,12}(?:\.[0-9]{1,6})?)(?: ?([A-Za-z%/]+))?", re.ASCII)
_LOOKED_AT = ("count", "temperature")  # a count is a whole number, and 0 °F or 0 K are asked about by their own rules
_FIRST_KIND = {spelling: kind for kind in reversed(("ratio", *KINDS)) for spelling in SPELLED[kind]} | {"": "ratio"}

_NUMBER = re.compile(r"([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?)(?![0-9.,/eE']| [0-9/])(.*)")


def as_typed(value: object) -> str:
    """Return a value of text or of JSON as the text that is read. Refused: what is neither text nor a finite number."""
    if isinstance(value, str) and value.strip():
        return value
    if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
        amount = Decimal(value)
        if amount.is_finite():
            return str(amount)
    said = "NaN or infinity" if isinstance(value, Decimal) else f"{type(value).__name__}"
    raise Refused(f"it is no figure but {said if value else 'empty'}; write a number with its unit.")


def pure(value: object) -> Fraction | None:
    """Return a number of JSON as it stands, exactly; None for whatever is read as text."""
    if not isinstance(value, (int, Decimal)) or isinstance(value, bool) or not Decimal(value).is_finite():
        return None
    amount = Decimal(value)
    return Fraction(amount) if not amount or -LARGEST <= amount.adjusted() <= LARGEST else None


def certain(text: str, kind: str, default_unit: str | None = None) -> Quantity:
    """Return the quantity of a text; what people would ask about is settled by the decimal point and the unit's name.

    So 1.234 mm is one and a quarter and 1500 m is a length. A comma before three digits, or a unit that is not
    named plainly, stays unclear and is refused.
    """
    return _plainly(text, kind, default_unit) or asked(text, kind, default_unit)


def measured_plainly(text: str) -> Quantity | None:
    """Return a plain number with a plainly named unit of whatever kind, or with none; None for all else."""
    match = _PLAIN.fullmatch(text)
    kind = _FIRST_KIND.get(match[2] or "") if match else None
    return _plainly(text, kind, "1") if kind else None


def _plainly(text: str, kind: str, default_unit: str | None) -> Quantity | None:
    """Return what `asked` would, without its questions: long lists are read ten times as fast by it."""
    match = _PLAIN.fullmatch(text)
    if not match or kind in _LOOKED_AT:
        return None
    unit = SPELLED[kind].get(match[2]) if match[2] else UNIT.get(default_unit or "")
    return Quantity(kind, Decimal(match[1]), unit.name, text) if unit and unit.kind == kind else None


def asked(text: str, kind: str, default_unit: str | None = None) -> Quantity:
    """Return the quantity of a text as `certain` does, whatever way it is written in."""
    written = _written_out(tidy(text))
    try:
        return read_quantity(written, kind, default_unit=default_unit)
    except Unclear as unclear:
        match = _NUMBER.fullmatch(written)
        found = [q for q in unclear.readings if match and _means(q, match[1], match[2], kind)]
        if len(found) != 1:
            raise
        return found[0]


def _means(reading: Quantity, number: str, spelling: str, kind: str) -> bool:
    unit = unit_text(spelling)
    known = SPELLED[kind].get(unit) or UNIT.get(unit.replace("·", "*"))
    return reading.amount == Decimal(number) and (not unit or (known is not None and known.name == reading.unit))


def _written_out(text: str) -> str:
    """Return the text with a power of ten written out, and a decimal cut to the twenty digits that are read."""
    match = _NUMBER.fullmatch(text)
    if not match or ("e" not in match[1].lower() and sum(c.isdigit() for c in match[1]) <= 20):
        return text
    amount = Decimal(match[1])
    if amount and not -LARGEST <= amount.adjusted() <= LARGEST:
        raise Refused(f"“{shown(text)}” was not taken: it is too large or too small for a figure; look at it again.")
    places = 19 - max(amount.adjusted(), 0)
    amount = round(amount, places) if -amount.as_tuple().exponent > places else amount  # type: ignore[operator]
    return f"{amount:f}{match[2]}"
