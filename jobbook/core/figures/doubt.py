"""How sure a reading is, and what may be said of it against its limits. Decimals throughout: limits decide."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction

from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity

_FINE = Context(prec=28)

CONFORM, UNDECIDED, NOT_CONFORM = "conform", "undecided", "not conform"


@dataclass(frozen=True)
class Readings:
    """Mean, spread and uncertainty of repeated readings, in the unit of the first. `freedom` is None if without end."""

    mean: Decimal
    deviation: Decimal
    uncertainty: Decimal
    combined: Decimal
    freedom: Decimal | None
    expanded: Decimal
    unit: str | None


def readings(
    values: Sequence[Quantity], resolution: Quantity | None = None, gauge_expanded: Quantity | None = None
) -> Readings:
    """Return mean, deviation (n − 1), uncertainty s/√n, combined and expanded (k = 2) uncertainty of readings.

    values [one kind, the unit of the first], resolution of the display [the same], gauge_expanded the uncertainty of
    the certificate with k = 2 [the same]. Range: two readings or more by one person at one place; it says nothing of
    other persons. Errors: fewer readings, another kind. Source: GUM (JCGM 100) 4.2, 4.3.7, 5.1 and G.4.
    """
    n = len(values)
    if n < 2:
        raise unfit("values", "a spread takes two readings", "measure again")
    amounts = [_alike(value, values[0], "values") for value in values]
    step, gauge = _optional(resolution, values[0], "resolution"), _optional(gauge_expanded, values[0], "gauge_expanded")
    mean, spread = _mean_and_variance(amounts)
    own = spread / n
    combined = own + step**2 / 12 + gauge**2 / 4
    freedom = _decimal(combined**2 * (n - 1) / own**2) if own else None
    root, unit = _root(combined), values[0].unit
    expanded = _FINE.multiply(2, root)
    return Readings(_decimal(mean), _root(spread), _root(own), root, freedom, expanded, None if unit == "1" else unit)


def decide(value: Quantity, lower: Quantity, upper: Quantity, expanded: Quantity) -> str:
    """Return conform, undecided or not conform, with the expanded uncertainty as guard band on either side.

    value, lower, upper, expanded [one kind, the unit of value]. Conform from lower + U to upper − U, both included;
    not conform beyond lower − U or upper + U; undecided between. Range: U from a certificate or from repeated
    readings, k = 2. Errors: limits upside down, another kind. Source: ISO 14253-1, JCGM 106, ILAC-G8 (guard band
    w = U).
    """
    low, high = _alike(lower, value, "lower"), _alike(upper, value, "upper")
    found, guard = Fraction(value.amount), _alike(expanded, value, "expanded")
    if low > high:
        raise unfit("lower", "it lies above upper", "look at the limits again")
    if low + guard <= found <= high - guard:
        return CONFORM
    return NOT_CONFORM if found < low - guard or found > high + guard else UNDECIDED


def _mean_and_variance(amounts: Sequence[Fraction]) -> tuple[Fraction, Fraction]:
    """Return the mean and the variance (n − 1), exactly: summed as whole numbers of the amounts' common step."""
    scale, n = math.lcm(*(amount.denominator for amount in amounts)), len(amounts)
    steps = [amount.numerator * (scale // amount.denominator) for amount in amounts]
    total, squares = sum(steps), sum(step * step for step in steps)
    return Fraction(total, n * scale), Fraction(n * squares - total * total, n * (n - 1) * scale * scale)


def _optional(value: Quantity | None, other: Quantity, key: str) -> Fraction:
    return _alike(value, other, key) if value else Fraction(0)


def _alike(value: Quantity, other: Quantity, key: str) -> Fraction:
    """Return a figure in the unit of another one."""
    # A difference of temperatures has no zero point, so it is never carried from one scale to another.
    if value.kind != other.kind or (value.kind == "temperature" and value.unit != other.unit):
        said = f"{value.text()} and {other.text()} are not in the same unit"
        raise unfit(key, said, "give all of them in one unit, or all without")
    return value.in_unit(other.unit)


def _decimal(value: Fraction) -> Decimal:
    return _FINE.divide(Decimal(value.numerator), Decimal(value.denominator))


def _root(value: Fraction) -> Decimal:
    return _FINE.sqrt(_decimal(value))
