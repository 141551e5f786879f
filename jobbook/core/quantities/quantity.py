"""A quantity: what was typed, its exact amount and unit, its conversion, and how it is written for people."""

from dataclasses import dataclass, field, replace
from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from jobbook.core.errors import Refused
from jobbook.core.quantities.compound import write_compound
from jobbook.core.quantities.numbers import Number, exact
from jobbook.core.quantities.units import UNIT

if TYPE_CHECKING:
    from pint import UnitRegistry

NARROW = "\u202f"  # the narrow space that does not break: between thousands, and between figure and unit

SHOWN_DIGITS = 4

_CAREFUL = Context(prec=28, rounding=ROUND_HALF_EVEN)


@dataclass(frozen=True)
class Quantity:
    """An exact amount in one unit of the closed list. `typed` is the text it was read from, as it stood."""

    kind: str
    amount: Number
    unit: str
    typed: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        if isinstance(self.amount, Fraction):
            object.__setattr__(self, "amount", exact(self.amount))

    @property
    def exact(self) -> str:
        """The amount as it is kept: a decimal without exponent, or n/d where no decimal ends."""
        return f"{self.amount:f}" if isinstance(self.amount, Decimal) else str(self.amount)

    def in_unit(self, unit: str) -> Fraction:
        """Return the amount in another unit of the same kind, with nothing rounded."""
        if UNIT[self.unit].kind != UNIT[unit].kind:
            raise Refused(
                f"A {UNIT[self.unit].kind} in {self.unit} cannot be given in {unit}, which is a {UNIT[unit].kind}."
            )
        if unit == self.unit:
            return Fraction(self.amount)
        factor, offset = _scale(self.unit, unit)
        return Fraction(self.amount) * factor + offset

    def to(self, unit: str) -> Decimal:
        """Return the amount in another unit: exact where the decimal ends, else to 28 digits."""
        value = exact(self.in_unit(unit))
        return value if isinstance(value, Decimal) else _CAREFUL.divide(value.numerator, value.denominator)

    def given_in(self, unit: str) -> "Quantity":
        """Return the same quantity with its amount in another unit; what was typed stays."""
        return self if unit == self.unit else replace(self, amount=self.in_unit(unit), unit=unit)

    def text(self, unit: str | None = None, places: int | None = None) -> str:
        """Return it written for people.

        In its own unit every digit stands, in another one four digits or the whole number; `places` fixes
        how many decimals stand.
        """
        unit = unit or self.unit
        if places is not None or unit != self.unit:
            return _with_unit(_figure(_rounded(self.to(unit), places)), unit)
        if isinstance(self.amount, Decimal):
            return _with_unit(_figure(self.amount), unit)
        return write_compound(self.amount, unit) or _with_unit(_mixed(self.amount), unit)


def kept(kind: str, exact_text: str, unit: str, typed: str = "") -> Quantity:
    """Return the quantity that was kept as `exact`, unit and typed text: the way back from the book."""
    amount = Fraction(exact_text) if "/" in exact_text else Decimal(exact_text)
    return Quantity(kind, amount, UNIT[unit].name, typed)


@cache
def _scale(start: str, end: str) -> tuple[Fraction, Fraction]:
    """Return factor and offset between two units: every scale of the list is straight, and two points settle it."""
    of = _registry().Quantity
    nought, one = (Fraction(of(Fraction(n), UNIT[start].pint).to(UNIT[end].pint).magnitude) for n in (0, 1))
    return one - nought, nought


@cache
def _registry() -> "UnitRegistry[Fraction]":
    # A quarter of a second, so it is paid at the first conversion and not at the start of the program.
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction, cache_folder=None)


def _rounded(value: Decimal, places: int | None) -> Decimal:
    whole_digits = max(value.adjusted() + 1, 1) if value else 1
    wanted = places if places is not None else max(SHOWN_DIGITS - whole_digits, 0)
    if places is None and value.adjusted() < 0:
        wanted = SHOWN_DIGITS - 1 - value.adjusted()
    rounded = value.quantize(Decimal(1).scaleb(-wanted), context=Context(prec=60, rounding=ROUND_HALF_EVEN))
    return rounded if places is not None else _without_noughts(rounded, value)


def _without_noughts(rounded: Decimal, value: Decimal) -> Decimal:
    # An exact result shows no digits that rounding made up: 16 in is 406.4 mm. A rounded one keeps them.
    return Decimal(f"{rounded.normalize():f}") if rounded == value else rounded


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    return ("\u2212" if value < 0 else "") + (f"{whole} {rest}" if whole else str(rest))


def _with_unit(figure: str, unit: str) -> str:
    label = UNIT[unit].label
    return figure + ("" if UNIT[unit].glued or not label else NARROW) + label


def _figure(value: Decimal) -> str:
    whole, _, part = f"{value.copy_abs():f}".partition(".")
    if len(part) == 3 and len(whole) <= 3 and whole != "0":
        # 1.234 is read as one thousand two hundred by half of its readers; a further nought settles it.
        part += "0"
    sign = "\u2212" if value < 0 else ""
    return sign + f"{int(whole):,}".replace(",", NARROW) + (f".{part}" if part else "")
