"""People of the shop. Permissions belong to a person; every record names the person."""

from collections.abc import Mapping
from dataclasses import dataclass, field

PERMISSIONS = {
    "work": "do and sign work on vehicles",
    "check": "make second checks",
    "release": "release a vehicle, also with loose ends and a reason",
    "allow": "allow beforehand what a rule refuses, with a reason",
    "desk": "take in vehicles, customers and permissions, print papers",
    "specifications": "enter figures and their sources",
    "tools": "keep the tool crib",
    "people": "keep people, permissions and the shop's settings",
}


@dataclass(frozen=True)
class Person:
    """One person. `id` is a short word of the book's own; `active` is false once somebody has left; what a
    person tightens who is `learning` another one countersigns."""

    id: str
    name: str
    permissions: frozenset[str] = field(default_factory=frozenset)
    active: bool = True
    has_pin: bool = False
    has_badge: bool = False
    learning: bool = False

    def may(self, permission: str) -> bool:
        return self.active and permission in self.permissions


@dataclass(frozen=True)
class Shop:
    """The workshop as it prints on its papers, and how it works: `height_unit` is mm or in; `practice` holds its own
    rules for judging heights and stands where they are not common practice (core/measured/practice.py). A backup is
    asked for after `backup_days` days (common practice: a week). `profile` names its country profile; `tax_rate`
    (per cent) and `labour_rate` (an hour) stand in new lines; without what `no_release_without` names
    (core/desk/declined.py) a vehicle is not released, even where the customer declined it.

    `warranty_months` and `warranty_distance` are the shop's own term, empty where it names none. A visit within
    `comeback_months` and `comeback_km` of a release is looked at as a comeback (common practice: a year, 20 000 km)."""

    name: str
    address: str = ""
    phone: str = ""
    distance_unit: str = "km"
    currency: str = "EUR"
    paper: str = "A4"
    warranty_text: str = ""
    retorque_km: int = 100
    retorque_days: int = 14
    book_id: str = ""
    height_unit: str = "mm"
    practice: Mapping[str, str] = field(default_factory=dict)
    backup_days: int = 7
    profile: str = "neutral"
    tax_rate: str = ""
    labour_rate: str = ""
    no_release_without: tuple[str, ...] = ()
    warranty_months: str = ""
    warranty_distance: str = ""
    comeback_months: int = 12
    comeback_km: int = 20_000
