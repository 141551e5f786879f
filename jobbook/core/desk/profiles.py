"""A country profile: what the law of a place was seen to ask of estimates and permissions, each with its source.

A profile is data. Law changes, and a profile is no advice: whoever chooses one looks at the source first.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from jobbook.core.desk.money import Money, percent, read_money
from jobbook.core.errors import Refused, Unreadable

CAUTION = "Law changes, and this is no advice: look at the source, and at the law of your place, before you rely on it."
PARTS_BACK = {
    "ask": "asked when the work is allowed",
    "return": "given back unless the customer says otherwise",
    "show": "may be looked at, given back when asked for",
}
WAIVERS = {
    "none": "the estimate cannot be waived",
    "signed": "waived by a signature",
    "handwritten": "waived only by the customer's own hand; keep the sheet as a picture",
}
WORDS = ("estimate", "quotation", "evaluation")
PAPERS = ("arrival", "estimate")
FIGURES = (
    "tolerance_percent", "tolerance_amount", "tolerance_most", "estimate_from", "warranty_days", "warranty_km",
    "retention_years",
)  # fmt: skip
CHOICES: Mapping[str, tuple[str, ...]] = {"parts_back": tuple(PARTS_BACK), "waiver": tuple(WAIVERS), "word": WORDS}
TITLES = {
    "tolerance_percent": "Over the estimate without asking, in %",
    "tolerance_amount": "or by this amount, whichever is more",
    "tolerance_most": "but by no more than",
    "estimate_from": "A written estimate is due above",
    "warranty_days": "Least warranty of the shop, days",
    "warranty_km": "Least warranty of the shop, km",
    "retention_years": "Invoices are kept for years",
    "parts_back": "Old parts",
    "waiver": "The estimate",
    "word": "Word on the paper",
}


@dataclass(frozen=True)
class Told:
    """One value of a profile: empty where none was found, which is not nought. `read` is when the source was read."""

    value: str
    source: str
    read: str


@dataclass(frozen=True)
class Notice:
    """A sentence that the customer is told on a paper."""

    text: str
    papers: tuple[str, ...]
    source: str
    read: str


@dataclass(frozen=True)
class Profile:
    """One place. `told` holds a value for every key of TITLES."""

    key: str
    title: str
    told: Mapping[str, Told]
    notices: tuple[Notice, ...] = ()

    def value(self, key: str) -> str:
        return self.told[key].value

    def notices_on(self, paper: str) -> tuple[Notice, ...]:
        return tuple(notice for notice in self.notices if paper in notice.papers)


def tolerance(profile: Profile, limit: Money) -> Money:
    """How far a price may go over the limit without asking again: the larger of share and amount, up to the most."""
    currency = limit.currency
    share = percent(limit, Decimal(profile.value("tolerance_percent") or "0"))
    fixed, most = (_amount(profile, key, currency) for key in ("tolerance_amount", "tolerance_most"))
    units = max(share.units, fixed.units if fixed else 0)
    return Money(min(units, most.units) if most else units, currency)


def wants_estimate(profile: Profile, limit: Money) -> bool:
    """Whether a written estimate is due for work of this price, as far as the profile knows."""
    above = _amount(profile, "estimate_from", limit.currency)
    return above is not None and limit.units > above.units


def least_warranty(profile: Profile) -> str:
    """The least warranty of the place in words; empty where none was found."""
    days, km = profile.value("warranty_days"), profile.value("warranty_km")
    said = " or ".join(filter(None, (f"{days} days" if days else "", f"{km} km" if km else "")))
    return f"At least {said}, whichever comes first, by the law of {profile.title}." if said else ""


def _amount(profile: Profile, key: str, currency: str) -> Money | None:
    return read_money(profile.value(key), currency) if profile.value(key) else None


def read_profile(key: str, plain: Mapping[str, Any]) -> Profile:
    """A profile from its file. Unreadable, with the place, where a value is missing, strange or without a source."""
    try:
        told = {name: _told(key, name, plain["values"][name]) for name in TITLES}
        notices = tuple(_notice(key, one) for one in plain.get("notice", ()))
        title = str(plain["title"])
    except (KeyError, TypeError) as error:
        raise Unreadable(f"The country profile “{key}” lacks {error}; choose another, and tell who made it.") from error
    if strange := set(plain["values"]) - set(TITLES):
        raise Unreadable(f"The country profile “{key}” says {min(strange)}, which nothing reads.")
    return Profile(key, title, told, notices)


def _told(key: str, name: str, plain: Mapping[str, Any]) -> Told:
    value, source, read = str(plain["value"]), str(plain["source"]), str(plain["read"])
    if not source or not read:
        raise Unreadable(f"The country profile “{key}” gives {name} without its source and date.")
    if name in CHOICES and value not in CHOICES[name]:
        raise Unreadable(f"The country profile “{key}” gives {name} as “{value}”: {', '.join(CHOICES[name])}.")
    if name in FIGURES and value:
        _look_at_figure(key, name, value)
    return Told(value, source, read)


def _look_at_figure(key: str, name: str, value: str) -> None:
    try:
        fine = read_money(value, "").units >= 0
    except Refused:
        fine = False
    if not fine:
        raise Unreadable(f"The country profile “{key}” gives {name} as “{value}”, which is no figure.")


def _notice(key: str, plain: Mapping[str, Any]) -> Notice:
    papers = tuple(str(paper) for paper in plain["papers"])
    if set(papers) - set(PAPERS) or not plain["source"] or not plain["read"]:
        raise Unreadable(f"The country profile “{key}” has a notice without its paper, source or date.")
    return Notice(str(plain["text"]), papers, str(plain["source"]), str(plain["read"]))
