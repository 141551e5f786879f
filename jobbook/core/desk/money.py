"""Money: whole smallest units of one currency. Shares of it are rounded to them, half upwards (common practice)."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.quantities.numbers import readings
from jobbook.core.quantities.typed import shown, tidy

USUAL_DECIMALS = 2
# Currencies with another number of decimals (ISO 4217, column "minor unit"; from memory).
DECIMALS = {
    **dict.fromkeys(("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW"), 0),
    **dict.fromkeys(("PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
}
MOST = 10**13  # smallest units; what is above is a typing slip
HUNDRED = Decimal(100)


@dataclass(frozen=True)
class Money:
    """An amount in smallest units (cents, pence, yen) of a currency, named by its three letters."""

    units: int
    currency: str

    @property
    def text(self) -> str:
        """The amount as it stands in entries: 1480.00."""
        return f"{Decimal(self.units).scaleb(-decimals(self.currency)):f}"

    @property
    def shown(self) -> str:
        """The amount for people, thousands parted by a narrow space: 1 480.00 EUR."""
        return f"{self.figures} {self.currency}".strip()

    @property
    def figures(self) -> str:
        """The amount for people without its currency, for columns."""
        return f"{Decimal(self.text):,f}".replace(",", "\u202f").replace("-", "\u2212")


def decimals(currency: str) -> int:
    return DECIMALS.get(currency.upper(), USUAL_DECIMALS)


def total(amounts: Iterable[Money], currency: str) -> Money:
    """The sum of amounts of one currency. ValueError where another one is among them: a defect of the caller."""
    listed = list(amounts)
    if strange := {one.currency for one in listed} - {currency}:
        raise ValueError(f"{sorted(strange)} cannot be added to {currency}")
    return Money(sum(one.units for one in listed), currency)


def times(money: Money, factor: Decimal) -> Money:
    """So many times the amount, rounded to the smallest unit, half away from nought."""
    exact = Fraction(money.units) * Fraction(factor)
    return Money(_rounded(exact), money.currency)


def percent(money: Money, rate: Decimal) -> Money:
    """So many per cent of the amount, rounded to the smallest unit."""
    return times(money, rate / HUNDRED)


def _rounded(exact: Fraction) -> int:
    doubled = abs(exact) * 2
    whole = (doubled.numerator // doubled.denominator + 1) // 2
    return whole if exact >= 0 else -whole


def read_money(typed: str, currency: str) -> Money:
    """An amount as typed. Refused where it cannot be read for certain (1.480 may be one or a thousand), or is finer
    than the currency's smallest unit."""
    said = tidy(typed).removesuffix(currency).strip()
    found = readings(said)
    if len(found) > 1:
        raise Refused(f"“{shown(typed)}” can be read in two ways, so nothing was kept: write it like 1480 or 1480.00.")
    units = Fraction(found[0]) * 10 ** decimals(currency)
    if units.denominator != 1 or abs(units) > MOST:
        raise Refused(
            f"“{shown(typed)}” is no amount in {currency or 'this currency'}, so nothing was kept: "
            f"it has at most {decimals(currency)} decimals."
        )
    return Money(int(units), currency)


def money_or_none(text: str, currency: str) -> Money | None:
    """The amount that an entry holds as text, or None where it holds none that can be read."""
    try:
        return read_money(text, currency) if text.strip() else None
    except Refused:
        return None
