"""How the price of a job stands against what was allowed, followed entry by entry.

Every line that is neither declined nor struck counts as going to be billed; those marked done are what was used so
far. The last limit that was given by somebody who may, is signed where it was to be signed, and was not withdrawn, is
the one in force, with the tolerance that the shop's country profile gave on that day.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from types import MappingProxyType
from typing import Any

from jobbook.core.desk.estimate import CUSTOMER, Line, Totals, done, standing, totals
from jobbook.core.desk.money import Money, money_or_none
from jobbook.core.desk.permission import CHANGED, COUNTING, DISMANTLING, LIMITING, MOVED, ON_SCREEN, WITHDRAWN

KINDS = ("permission/1", "permission-changed/1", "signature/1", "line/1")


@dataclass(frozen=True)
class Given:
    """One permission as far as money goes. `total` is None where it names none that can be read."""

    scope: str
    total: Money | None
    tolerance: Money | None = None
    valid_until: str = ""
    waits: bool = False  # for a signature on the screen
    profile: str = ""  # the country profile that gave the tolerance

    @property
    def most(self) -> Money | None:
        """The highest price that it covers."""
        if self.total is None or self.tolerance is None:
            return self.total
        return Money(self.total.units + self.tolerance.units, self.total.currency)


@dataclass(frozen=True)
class Priced:
    """The lines by their number, and the permissions that stand by their entry, in the order in which they came."""

    lines: Mapping[int, Line] = field(default_factory=dict)
    given: Mapping[int, Given] = field(default_factory=dict)
    ended: Given | None = None  # the highest limit that the customer withdrew: what was done under it is still owed

    @property
    def limit(self) -> Given | None:
        """The customer's limit that is in force."""
        return self._last(LIMITING)

    @property
    def authority(self) -> Given | None:
        return self._last(("authority",))

    @property
    def dismantling(self) -> frozenset[int]:
        """The entries of the permissions to take apart that stand."""
        return frozenset(n for n, one in self.given.items() if one.scope in DISMANTLING and not one.waits)

    def _last(self, scopes: tuple[str, ...]) -> Given | None:
        counting = [one for one in self.given.values() if one.scope in scopes and not one.waits]
        with_total = [one for one in counting if one.total is not None]
        return next(reversed(with_total or counting), None)


def followed(priced: Priced, kind: str, number: int, facts: Mapping[str, Any]) -> Priced:
    """How it stands after one entry; entries of other kinds change nothing."""
    change = _CHANGES.get(kind)
    return change(priced, number, facts) if change else priced


def _permission(priced: Priced, number: int, facts: Mapping[str, Any]) -> Priced:
    if facts.get("may", "") not in COUNTING:
        return priced
    currency = facts.get("currency", "")
    money = [money_or_none(facts.get(key, ""), currency) for key in ("total", "tolerance")]
    waits, profile = facts.get("how") == ON_SCREEN, facts.get("profile", "")
    given = Given(facts["scope"], money[0], money[1], facts.get("valid_until", ""), waits, profile)
    ended = None if given.scope in LIMITING else priced.ended
    return replace(priced, given={**priced.given, number: given}, ended=ended)


def _changed(priced: Priced, _: int, facts: Mapping[str, Any]) -> Priced:
    of = facts["of"]
    was = priced.given.get(of)
    if was is None:
        return priced
    if facts["what"] in (WITHDRAWN, MOVED):
        left = {number: one for number, one in priced.given.items() if number != of}
        owed = facts["what"] == WITHDRAWN and was.scope in LIMITING and not was.waits
        ended = max((one for one in (priced.ended, was if owed else None) if one), key=_reach, default=None)
        return replace(priced, given=left, ended=ended)
    assert facts["what"] == CHANGED
    currency = was.total.currency if was.total else facts.get("currency", "")
    now = replace(
        was,
        total=money_or_none(facts.get("total", ""), currency) or was.total,
        valid_until=facts.get("valid_until") or was.valid_until,
    )
    return replace(priced, given={**priced.given, of: now})


def _signed(priced: Priced, _: int, facts: Mapping[str, Any]) -> Priced:
    was = priced.given.get(facts["of"])
    if was is None:
        return priced
    return replace(priced, given={**priced.given, facts["of"]: replace(was, waits=False)})


def _line(priced: Priced, number: int, facts: Mapping[str, Any]) -> Priced:
    line = line_of(number, facts)
    return replace(priced, lines={**priced.lines, line.number: line})


_CHANGES: Mapping[str, Callable[[Priced, int, Mapping[str, Any]], Priced]] = MappingProxyType(
    {"permission/1": _permission, "permission-changed/1": _changed, "signature/1": _signed, "line/1": _line}
)
_LINE_FACTS = tuple(one.name for one in fields(Line) if one.name not in ("number", "entry"))


def line_of(entry: int, facts: Mapping[str, Any]) -> Line:
    """A line as its entry tells of it."""
    return Line(number=facts["line"], entry=entry, **{key: facts[key] for key in _LINE_FACTS if key in facts})


def line_facts(line: Line) -> dict[str, Any]:
    """What an entry says of a line."""
    return {"line": line.number} | {key: getattr(line, key) for key in _LINE_FACTS}


def customers(priced: Priced, currency: str) -> Totals:
    """What the customer's standing lines come to."""
    return totals(standing(_of(priced, True)), currency)


def used(priced: Priced, currency: str) -> Totals:
    """What the customer's lines come to that are done."""
    return totals(done(_of(priced, True)), currency)


def _of(priced: Priced, customer: bool) -> list[Line]:
    return [line for line in priced.lines.values() if (line.payer == CUSTOMER) is customer]


def above(priced: Priced) -> str:
    """Why the price is not covered by what was allowed, and what is to be done; empty where it is."""
    return " ".join(_sentence(one) for one in _beyond(priced))


def not_covered(priced: Priced) -> tuple[str, ...]:
    """The same for papers: the facts alone."""
    return tuple(fact for fact, _ in _beyond(priced))


def used_up(priced: Priced) -> str:
    """Why nothing more may be taken apart: what is done costs more than was allowed; empty where it does not."""
    said = "".join(_sentence(one) for one in _customers_part(priced, done, "used so far"))
    return f"{said} Nothing more is taken apart before the customer has said yes." if said else ""


Beyond = tuple[str, str]  # what is not covered, and what is to be done


def _sentence(one: Beyond) -> str:
    return f"{one[0]}: {one[1]}"


def _beyond(priced: Priced) -> tuple[Beyond, ...]:
    return (*_customers_part(priced, standing, "in the lines"), *_payers_part(priced))


def _customers_part(priced: Priced, which: Callable[[list[Line]], list[Line]], are: str) -> Iterator[Beyond]:
    """Putting together again is left out: it was announced by itself, and its line is held to that."""
    lines = [line for line in which(_of(priced, True)) if line.kind != "reassembly"]
    if not lines:
        return
    price = totals(lines, lines[-1].currency).gross
    limit = priced.limit
    if priced.ended is not None and len(done(lines)) == len(lines):
        limit = max((one for one in (limit, priced.ended) if one is not None), key=_reach)
    elif priced.ended is not None and limit is None:
        yield "The customer withdrew the permission", "strike the lines that were not done."
        return
    if limit is None or limit.total is None or limit.total.currency not in ("", price.currency):
        if price.units > 0:
            yield f"{price.shown} {are} and no limit is allowed", "keep the customer's permission."
    elif limit.most is not None and price.units > limit.most.units:
        over = limit.tolerance
        more = f" and {over.figures} tolerance" if over is not None and over.units else ""
        fact = f"Price above permission, {price.shown} {are}, {limit.total.figures} allowed{more}"
        yield fact, "ask the customer, or strike what is not to be done."


def _reach(given: Given) -> int:
    return given.most.units if given.most is not None else 0


def _payers_part(priced: Priced) -> Iterator[Beyond]:
    lines = standing(_of(priced, False))
    if not lines:
        return
    price, given = totals(lines, lines[-1].currency).gross, priced.authority
    payers = ", ".join(sorted({line.payer for line in lines}))
    who = payers[:1].upper() + payers[1:]
    if given is None:
        yield f"{who} is to pay {price.shown} and has given no authority", "get it, or let the customer allow it."
    elif given.total is not None and given.total.currency == price.currency and given.total.units < price.units:
        fact = f"{who} is to pay {price.shown} and allowed {given.total.figures}"
        yield fact, "get authority for the rest, or let the customer allow it."
