"""Lines of an estimate, and what they come to. Every sum is of whole smallest units; tax is reckoned on the sum of each
rate and not on each line (common practice)."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from jobbook.core.desk.money import Money, money_or_none, percent, times, total
from jobbook.core.errors import Refused
from jobbook.core.quantities.numbers import readings
from jobbook.core.quantities.typed import shown, tidy

KINDS = {"part": "Part", "labour": "Labour", "other": "Other", "reassembly": "Putting together again"}
CONDITIONS = {
    "new": "new",
    "maker": "new, from the vehicle's maker",
    "reconditioned": "reconditioned",
    "used": "used",
    "customer": "the customer's own",
}
STATES = {"to do": "ring", "done": "disc", "declined": "bar", "struck": "bar"}  # with its mark
STANDING = ("to do", "done")
CUSTOMER = "customer"


@dataclass(frozen=True)
class Line:
    """One line. `quantity`, `price` (each, before tax) and `tax` (per cent) are exact texts; an empty price is one that
    is not known yet, which is not nought."""

    number: int
    kind: str
    words: str
    quantity: str
    price: str
    currency: str
    tax: str = ""
    part: str = ""  # its part number
    condition: str = ""
    payer: str = CUSTOMER
    state: str = "to do"
    finding: int = 0
    entry: int = 0

    @property
    def net(self) -> Money | None:
        each = money_or_none(self.price, self.currency)
        return times(each, Decimal(self.quantity)) if each is not None else None


@dataclass(frozen=True)
class Terms:
    """What stands round the lines of an estimate. `valid_until` is an ISO day."""

    word: str = "estimate"
    valid_until: str = ""
    exclusions: str | None = ""
    entry: int = 0


@dataclass(frozen=True)
class Totals:
    """What lines come to: `taxes` by rate; `unpriced` counts the lines whose price is not known yet."""

    net: Money
    taxes: Mapping[str, Money]
    gross: Money
    unpriced: int = 0


def totals(lines: Iterable[Line], currency: str) -> Totals:
    """What these lines come to, whatever their state."""
    listed = list(lines)
    priced = [(line, net) for line in listed if (net := line.net) is not None and net.currency == currency]
    rates = sorted({line.tax or "0" for line, _ in priced}, key=Decimal)
    sums = {rate: total((net for line, net in priced if (line.tax or "0") == rate), currency) for rate in rates}
    taxes = {rate: percent(base, Decimal(rate)) for rate, base in sums.items() if Decimal(rate)}
    net = total(sums.values(), currency)
    return Totals(net, taxes, total((net, *taxes.values()), currency), len(listed) - len(priced))


def standing(lines: Iterable[Line]) -> list[Line]:
    """The lines that will be billed: neither declined nor struck."""
    return [line for line in lines if line.state in STANDING]


def done(lines: Iterable[Line]) -> list[Line]:
    return [line for line in lines if line.state == "done"]


def read_figure(typed: str, what: str, least: Decimal, most: Decimal) -> str:
    """A plain figure (a quantity, a rate) as exact text. Refused where it is unclear or outside its bounds."""
    found = readings(tidy(typed))
    if len(found) != 1 or not isinstance(found[0], Decimal) or not least <= found[0] <= most:
        raise Refused(f"The line was not kept: {what} “{shown(typed)}” is not a figure from {least} to {most}.")
    return f"{found[0].normalize():f}"
