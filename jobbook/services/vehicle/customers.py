"""Customers: their data, the people to speak to there, the vehicles that are and were theirs, and who looks alike."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from jobbook.core.errors import Conflict, Refused
from jobbook.core.jobs import JobRow
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.record.pages import Page
from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.apart import Together, together

DATA = ("name", "address", "phone", "email", "elsewhere")
ENOUGH_OF_A_PHONE = 4


@dataclass(frozen=True)
class Owned:
    """A vehicle that is or was theirs, with the days."""

    vehicle: Vehicle
    since: str
    until: str


@dataclass(frozen=True)
class CustomerSheet:
    """A customer with everything that is theirs, the newest first."""

    customer: Customer
    contacts: tuple[Contact, ...]
    vehicles: tuple[Owned, ...]
    jobs: tuple[JobRow, ...]
    merged: tuple[int, ...]  # the numbers that were found to be theirs
    together: tuple[Together, ...] = ()


def customers(book: OpenBook, text: str = "", limit: int = 100) -> tuple[Customer, ...]:
    with book.store.read() as reading:
        return tuple(reading.customers.page(after=None, limit=limit, text=text))


def customer_page(book: OpenBook, after: int | None = None, text: str = "", limit: int = 100) -> Page[Customer]:
    """A page of customers, the newest first."""
    with book.store.read() as reading:
        rows = tuple(reading.customers.page(after=after, limit=limit, text=text))
    return Page(rows, rows[-1].id if len(rows) == limit else None)


def customer(book: OpenBook, number: int) -> CustomerSheet:
    """One customer, also by a number that was merged into theirs."""
    with book.store.read() as reading:
        found = reading.customers.get(number)
        vehicles = reading.vehicles.of_owner(found.id)
        return CustomerSheet(
            found,
            tuple(reading.customers.contacts(found.id)),
            tuple(Owned(vehicles[o.vehicle_id], o.since, o.until) for o in reading.customers.owned(found.id)),
            tuple(reading.jobs.of_customer(found.id)),
            tuple(reading.customers.numbers(found.id)[1:]),
            together(reading, "customer", found.id),
        )


def keep_customer(book: OpenBook, who: Person, told: Customer, contacts: Sequence[Contact] | None = None) -> Customer:
    """Keep a customer's data as they are said now, a new one where the id is 0.

    `contacts`: the people at a customer, all of them; None leaves them as they are. Refused without a name."""
    if not (told.name or "").strip():
        raise Refused("Nothing was kept: a customer needs a name. To forget somebody, use “Forget this customer”.")
    if any(not (one.name or "").strip() for one in contacts or ()):
        raise Refused("Nothing was kept: somebody to speak to needs a name.")
    with writing(book, who, "desk") as tx:
        if told.id and tx.customers.kept_of(told.id) != told.id:
            raise Conflict(f"Nothing was kept: customer {told.id} was merged meanwhile. Open the customer again.")
        number = told.id or int(tx.next_customer_id())
        facts = _sealed(tx, told) | {"customer": number, "fleet": told.fleet}
        if contacts is not None:
            facts |= {"contacts": [_contact(tx, one) for one in contacts]}
        tx.keep(Draft("customer/1", f"customer/{number}", facts))
    return replace(told, id=number)


def _sealed(tx: WritingBook, told: Customer) -> dict[str, object]:
    return _without_empty({key: tx.seal((getattr(told, key) or "").strip()) for key in DATA})


def _without_empty(facts: dict[str, object]) -> dict[str, object]:
    """A number elsewhere is named in an entry only where there is one."""
    return {key: said for key, said in facts.items() if said or key != "elsewhere"}


def _contact(tx: WritingBook, one: Contact) -> dict[str, object]:
    said = {key: tx.seal((getattr(one, key) or "").strip()) for key in ("name", "phone")}
    return {**said, "role": one.role.strip(), "may_authorise": one.may_authorise}


def customer_told(tx: WritingBook, told: Customer) -> int:
    """Inside a write: a new customer, or what was said anew of a known one; what is left out stays as it is."""
    known = tx.customers.get(told.id) if told.id else Customer(int(tx.next_customer_id()), "")
    before = {key: getattr(known, key) or "" for key in DATA}
    said: dict[str, str] = {key: (getattr(told, key) or "").strip() or before[key] for key in DATA}
    if told.id and said == before:
        return known.id
    sealed = _without_empty({key: tx.seal(text) for key, text in said.items()})
    facts = sealed | {"customer": known.id, "fleet": known.fleet}
    tx.keep(Draft("customer/1", f"customer/{known.id}", facts))
    return known.id


def exactly(found: Sequence[Customer], name: str) -> Customer | None:
    """The one of these who has exactly this name, whatever its capitals."""
    typed = name.strip().casefold()
    return next((one for one in found if typed and (one.name or "").strip().casefold() == typed), None)


def alike(book: OpenBook, name: str, phone: str, besides: int = 0, limit: int = 4) -> tuple[Customer, ...]:
    """Customers who may be the one that is being typed: the same telephone, or a name that begins alike."""
    found: dict[int, Customer] = {}
    with book.store.read() as reading:
        if sum(sign.isdigit() for sign in phone) >= ENOUGH_OF_A_PHONE:
            found |= {one.id: one for one in reading.customers.by_phone(phone, limit=limit)}
        if len(name.strip()) > 1:
            found |= {one.id: one for one in reading.customers.page(text=name.strip(), limit=limit)}
    return tuple(one for one in found.values() if one.id != besides)[:limit]
