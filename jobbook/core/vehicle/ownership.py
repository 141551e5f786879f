"""Who a vehicle belongs to, which plate it bears and since when; and what was changed on it by others.

A day is an ISO date; `until` is empty while it holds. What comes next holds from the day until which the one before it
held.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from jobbook.core.days import day_of, read_day
from jobbook.core.errors import Refused
from jobbook.core.written import day

# What may have been changed on a vehicle before it came, and what it touches. Common practice of the trade.
MODIFICATIONS = {
    "lowering links": "Heights are no longer the maker's: take those of whoever changed it, or leave them plain.",
    "height module": "The level control is told other heights than there are: read what it shows beside the rule.",
    "other tyres": "Heights to the arch change with the rolling radius: measure from the hub centre.",
    "steel springs on an axle": "This axle has no air: no leak-down, no filling, and codes that will not go away.",
    "other springs or dampers": "Load, height and part numbers are not the maker's: claims ask for this.",
    "tow bar or body work": "The load on the rear axle is another: write it beside the heights.",
    "something else": "Say what it changes for heights, figures and claims.",
}


@dataclass(frozen=True)
class Plate:
    """A plate that a vehicle bears or bore."""

    plate: str
    since: str
    until: str = ""
    vehicle_id: int = 0
    entry: int = 0


@dataclass(frozen=True)
class Owner:
    """Somebody whom a vehicle belongs or belonged to. `name` is None where it was erased."""

    customer_id: int
    since: str
    until: str = ""
    name: str | None = ""
    vehicle_id: int = 0
    entry: int = 0


@dataclass(frozen=True)
class Contact:
    """A person at a customer who is spoken to, a fleet's driver or clerk. Name and telephone are sealed."""

    number: int
    name: str | None
    phone: str | None = ""
    role: str = ""
    may_authorise: bool = False


@dataclass(frozen=True)
class Modification:
    """What was found changed on a vehicle: when, by whom found, where, and what it does to the heights."""

    what: str
    where: str = ""
    effect: str = ""
    found_on: str = ""
    by: str = ""
    changed_by: str = ""  # whoever did it, as the customer said
    gone_on: str = ""
    job: int = 0
    entry: int = 0


def modification_words(found: Modification) -> str:
    """A modification in a few words: lowering links, front (25 mm lower)."""
    return f"{', '.join(filter(None, (found.what, found.where)))} ({found.effect})"


def day_words(iso: str) -> str:
    """A day as people write it: 25 Nov 2026."""
    return day(day_of(iso))


def look_at_since(since: str, today: date, held: Sequence[Plate | Owner], what: str) -> str:
    """The day from which something holds. Refused when it is no date, lies ahead, or before what held until now."""
    day = read_day(since, today) if since.strip() else today
    if day is None:
        raise Refused(f"Nothing was changed: “{since}” is not a date. Write {what} like 25 Nov 2026.")
    said = day.isoformat()
    if day > today:
        raise Refused(f"Nothing was changed: {what} lies ahead, {day_words(said)}. Write it down on the day.")
    before = max((one.since for one in held if not one.until), default="")
    if said < before:
        raise Refused(
            f"Nothing was changed: {what}, {day_words(said)}, lies before that of the one that "
            f"holds, {day_words(before)}."
        )
    return said
