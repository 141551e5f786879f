"""What a book knows already, so that a row of a list finds the customer, vehicle or part that it means.

A row that could mean several is not guessed at. What a row leaves empty stays as it is."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import islice
from typing import Any

from jobbook.core.lists.columns import CUSTOMERS, PARTS, VEHICLES
from jobbook.core.lists.mapping import folded
from jobbook.core.lists.rows import same
from jobbook.core.vehicle.parts import KnownPart
from jobbook.core.vehicle.vehicles import Customer, Vehicle

NEW, CHANGED, SAME = "new", "changed", "same"
Record = Customer | Vehicle | KnownPart
Facts = dict[str, str]
REACHED = {"phone": same, "email": folded}  # what tells two customers of one name apart, as it is compared
MOST_NAMED = 4  # customers that a row could mean
OF_VEHICLE = ("vin", "plate", "make", "model", "year", "variant", "air", "distance_unit", "elsewhere")
OF_CUSTOMER = ("name", "address", "phone", "email", "elsewhere")
OF_PART = ("number", "title", "supplier", "kind", "warranty_months", "note")


@dataclass(frozen=True)
class Decision:
    """What a row comes to: a record to be kept (id 0: a new one), and before it a new owner, where it names one.

    `note` says what else happens because of it."""

    what: str
    record: Record
    owner: Customer | None = None
    note: str = ""


class Known:
    """The customers, vehicles and parts of a book, as far as one kind of list needs them. `learn` keeps it up to date;
    it holds no more than it was told."""

    def __init__(self) -> None:
        self._records: dict[tuple[str, int], Record] = {}
        self._by_key: dict[tuple[str, str], dict[int, None]] = {}

    def learn(self, record: Record) -> None:
        """This is how it stands now."""
        place = (type(record).__name__, record.id)
        before = self._records.get(place)
        if before is not None:
            for key in _keys(before):
                self._by_key[key].pop(record.id, None)
        self._records[place] = record
        for key in _keys(record):
            self._by_key.setdefault(key, {})[record.id] = None
        if isinstance(record, Vehicle) and record.plate:
            self._take_plate_from_others(record)

    def _take_plate_from_others(self, bearer: Vehicle) -> None:
        for other in self.vehicles("plate", bearer.plate):
            if other.id != bearer.id:
                self.learn(replace(other, plate=""))

    def vehicles(self, name: str, value: str) -> list[Vehicle]:
        return [found for found in self._found(name, same(value)) if isinstance(found, Vehicle)]

    def customers(self, facts: Facts) -> Iterator[Customer]:
        """Those of that name whose telephone, or else mail, is the same or not known; thousands may share a name."""
        name = folded(facts["name"])
        by = next((by for by, compared in REACHED.items() if compared(facts.get(by, ""))), "")
        wanted = {f"{name} {REACHED[by](facts[by])}", f"{name} "} if by else {name}
        found = (one for value in wanted for one in self._found(by or "name", value))
        return (one for one in found if isinstance(one, Customer))

    def parts(self, number: str) -> list[KnownPart]:
        return [found for found in self._found("number", same(number)) if isinstance(found, KnownPart)]

    def _found(self, name: str, value: str) -> list[Record]:
        kind = "Customer" if name in ("name", *REACHED) else "KnownPart" if name == "number" else "Vehicle"
        return [self._records[kind, one] for one in self._by_key.get((name, value), ())] if value else []

    def vehicle(self, number: str) -> Vehicle:
        """The vehicle of that number. Raises ValueError."""
        found = self._records.get(("Vehicle", int(number)))
        if not isinstance(found, Vehicle):
            raise ValueError(f"there is no vehicle {number} in this book; leave the number empty for a new one")
        return found

    def customer(self, number: str) -> Customer:
        """The customer of that number. Raises ValueError."""
        found = self._records.get(("Customer", int(number)))
        if not isinstance(found, Customer):
            raise ValueError(f"there is no customer {number} in this book; leave the number empty for a new one")
        return found


def _keys(record: Record) -> Iterator[tuple[str, str]]:
    told: tuple[tuple[str, str], ...] = ()
    if isinstance(record, Vehicle):
        told = (("vin", same(record.vin)), ("plate", same(record.plate)))
    elif isinstance(record, Customer):
        name = folded(record.name or "")
        reached = tuple((by, f"{name} {compared(getattr(record, by) or '')}") for by, compared in REACHED.items())
        told = (("name", name), *reached) if name else ()
    else:
        told = (("number", same(record.number)),)
    return (key for key in told if key[1])


def decide(known: Known, kind: str, facts: Facts) -> Decision:
    """What becomes of a row. Raises ValueError with the words of a finding where nobody can tell."""
    return {CUSTOMERS: _customer, VEHICLES: _vehicle, PARTS: _part}[kind](known, facts)


def _part(known: Known, facts: Facts) -> Decision:
    there = known.parts(facts["number"])
    return _merged(there[0] if there else None, KnownPart(0, "", ""), _only(facts, OF_PART))


def _customer(known: Known, facts: Facts) -> Decision:
    if "number_here" in facts:
        meant = known.customer(facts["number_here"])
        if folded(meant.name or "") != folded(facts["name"]):
            raise ValueError(
                f"number {meant.id} is another customer in this book; leave the number empty, or change the name there"
            )
        return _merged(meant, meant, _only(facts, OF_CUSTOMER))
    return _merged(_alike(known, facts), Customer(0, ""), _only(facts, OF_CUSTOMER))


def _alike(known: Known, facts: Facts) -> Customer | None:
    """The customer of that name whom nothing in the row contradicts."""
    there = list(islice((one for one in known.customers(facts) if _may_be(one, facts)), MOST_NAMED))
    if len(there) > 1:
        numbers = ", ".join(str(number) for number in sorted(one.id for one in there) if number > 0)
        which = f" ({numbers})" if numbers else ""
        raise ValueError(
            f"several customers of that name could be meant{which}; add the telephone, or take the row out"
        )
    return there[0] if there else None


def _may_be(there: Customer, facts: Facts) -> bool:
    """Telephone, then mail decide where both are known; else the address must not be another."""
    for name, as_compared in REACHED.items():
        here, before = as_compared(facts.get(name, "")), as_compared(getattr(there, name) or "")
        if here and before:
            return here == before
    here, before = folded(facts.get("address", "")), folded(there.address or "")
    return not here or not before or here == before


def _vehicle(known: Known, facts: Facts) -> Decision:
    meant = _meant(known, facts)
    owner = _owner(known, facts)
    told: dict[str, Any] = dict(_only(facts, OF_VEHICLE))
    if owner is not None and owner.id:
        told["customer_id"] = owner.id
    decided = _merged(meant, Vehicle(0, ""), told)
    if owner is not None and not owner.id:
        decided = replace(decided, owner=owner, what=NEW if meant is None else CHANGED)
    return replace(decided, note=_moved(known, meant, facts))


def _meant(known: Known, facts: Facts) -> Vehicle | None:
    """The vehicle of a row: by its number here, its VIN, or by its plate where no VIN says otherwise."""
    vin, plate = facts.get("vin", ""), facts.get("plate", "")
    of_vin = next(iter(known.vehicles("vin", vin)), None)
    if "number_here" in facts:
        meant = known.vehicle(facts["number_here"])
        if (vin and meant.vin and same(vin) != same(meant.vin)) or (of_vin is not None and of_vin.id != meant.id):
            raise ValueError(
                f"number {meant.id} is another vehicle in this book, with another VIN; leave the number empty"
            )
        return meant
    if of_vin is not None:
        return of_vin
    of_plate = next(iter(known.vehicles("plate", plate)), None)
    return of_plate if of_plate is not None and not (vin and of_plate.vin) else None


def _moved(known: Known, meant: Vehicle | None, facts: Facts) -> str:
    others = [one for one in known.vehicles("plate", facts.get("plate", "")) if meant is None or one.id != meant.id]
    return (
        f"the plate {facts['plate']} moves here from {others[0].title}, {others[0].vin or 'no VIN'}" if others else ""
    )


def _owner(known: Known, facts: Facts) -> Customer | None:
    if "owner_here" in facts:
        return known.customer(facts["owner_here"])
    if "owner" not in facts:
        return None
    told = {"name": facts["owner"], "phone": facts.get("owner_phone", "")}
    return _alike(known, told) or Customer(0, told["name"], "", told["phone"])


def _only(facts: Facts, names: tuple[str, ...]) -> Facts:
    return {name: facts[name] for name in names if name in facts}


def _merged(meant: Record | None, new: Record, told: Mapping[str, Any]) -> Decision:
    """The record as it is to stand: what is told over what was there."""
    if meant is None:
        return Decision(NEW, replace(new, **told))
    # A cell is one line: a text that has the same words in several lines stays as it is.
    news = {name: value for name, value in told.items() if " ".join(str(getattr(meant, name)).split()) != str(value)}
    after = replace(meant, **news)
    return Decision(SAME if after == meant else CHANGED, after)
