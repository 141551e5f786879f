"""Typed text to a quantity: read for certain, asked about, or refused with what is wrong."""

import re
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.quantities.compound import read_compound
from jobbook.core.quantities.numbers import HEAD, VULGAR, Number, readings
from jobbook.core.quantities.quantity import Quantity
from jobbook.core.quantities.spelled import a_kind, unit_text, units_for
from jobbook.core.quantities.typed import shown, tidy, turned_away
from jobbook.core.quantities.units import KINDS, NEVER_NEGATIVE, SPELLED, kinds_of

HEIGHT_FROM, HEIGHT_TO = Decimal(100), Decimal(1200)  # mm, hub centre to arch edge; common practice, no published limit

COLDEST = Decimal("-273.15")  # °C, by definition of the kelvin (SI brochure)


class Unclear(Refused):
    """The text can mean more than one thing, or only probably one. `readings` are what to ask about."""

    def __init__(self, sentence: str, choices: tuple[Quantity, ...]) -> None:
        super().__init__(sentence)
        self.readings = choices


def read_quantity(text: str, kind: str, *, default_unit: str | None = None) -> Quantity:
    """Return what was typed as an exact quantity of that kind, in the unit that was typed.

    `default_unit` is what a bare number stands in; without it a bare number is refused. Refused: what cannot be read,
    a unit of another kind. Unclear (a Refused too, with `readings`): what two people would read in two ways.
    """
    if kind not in KINDS:
        raise ValueError(f"no kind of quantity is called {kind!r}")
    tidied = tidy(text)
    parts = read_compound(tidied, kind)
    if parts:
        return Quantity(kind, *parts, text.strip())
    numbers, spelling = _split(tidied)
    units, certain = units_for(tidied, spelling, kind, default_unit)
    choices = tuple(Quantity(kind, number, unit, text.strip()) for unit in units for number in numbers)
    fitting = tuple(choice for choice in choices if not _misfit(choice))
    if not fitting:
        raise turned_away(text.strip(), _misfit(choices[0]), "look at the figure again")
    if len(choices) == 1 and certain:
        return choices[0]
    sentence = f"“{shown(text.strip())}” is not certain, so it was not taken; say whether {_either(fitting)} is meant."
    raise Unclear(sentence, fitting)


def convert(text: str, to: str) -> Quantity:
    """Return what was typed, of whatever kind the wanted unit is, given in that unit."""
    kinds = kinds_of(unit_text(tidy(to)))
    if not kinds:
        raise turned_away(to, "it is no unit of the list", "name one such as N*m, bar, mm or deg")
    for kind in kinds[:-1]:
        try:
            return read_quantity(text, kind).given_in(_named(to, kind))
        except Refused:
            continue
    return read_quantity(text, kinds[-1]).given_in(_named(to, kinds[-1]))


def plausible_height(height: Quantity, low: Decimal = HEIGHT_FROM, high: Decimal = HEIGHT_TO) -> Quantity:
    """Return a height (mm) that a road vehicle can stand at, by common practice 100 to 1200 mm.

    Outside it is Unclear where the number fits in another unit, and Refused where it fits in none.
    """
    if low <= height.in_unit("mm") <= high:
        return height
    others = (Quantity("length", height.amount, unit, height.typed) for unit in ("mm", "cm", "in", "m"))
    choices = tuple(other for other in others if low <= other.in_unit("mm") <= high)
    why = f"{height.text()} is no height of a wheel, which lies between {low} and {high} mm"
    if choices:
        raise Unclear(f"{why}; say whether {_either(choices)} is meant, nothing was kept.", choices)
    raise Refused(f"{why}; nothing was kept, measure it again.")


def _named(spelling: str, kind: str) -> str:
    text = unit_text(tidy(spelling))
    return SPELLED[kind][text].name if text in SPELLED[kind] else text


def _split(text: str) -> tuple[tuple[Number, ...], str]:
    if "±" in text or "+-" in text or "+/-" in text:
        raise turned_away(text, "± is a tolerance and not part of a figure", "type the figure alone")
    head = HEAD.match(text)
    if not head or not any(c.isdigit() or c in VULGAR for c in head[0]):
        raise turned_away(text, "it does not begin with a number", "type the number first, then the unit")
    rest = unit_text(text[head.end() :])
    _look_at_rest(text, rest)
    return readings(head[0].strip()), rest


def _look_at_rest(text: str, rest: str) -> None:
    if re.match(r"[eE][+-]?[0-9]|[×x]10|\^|·10", rest.replace(" ", "")) or re.match("[⁰¹²³⁴-⁹]", rest):
        raise turned_away(text, "it is written with a power of ten", "write the number out")
    if re.search(r"[0-9]", re.sub(r"(?<=[cn])m?2\b", "", rest)):
        raise turned_away(text, "it holds more than one figure", "type one figure and its unit")


def _misfit(quantity: Quantity) -> str:
    """Return why no quantity of this kind can have this amount, or nothing."""
    if quantity.kind in NEVER_NEGATIVE and quantity.amount < 0:
        return f"{a_kind(quantity.kind)} is never negative"
    if quantity.kind == "count" and Fraction(quantity.amount).denominator != 1:
        return "a count is a whole number"
    if quantity.kind == "temperature" and quantity.in_unit("degC") < COLDEST:
        return "nothing is colder than −273.15 °C"
    return ""


def _either(choices: tuple[Quantity, ...]) -> str:
    return " or ".join(choice.text() for choice in choices)
