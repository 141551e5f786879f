"""Plates and owners of a vehicle with their days.

A plate that moves leaves the vehicle that bore it. A vehicle that is sold keeps its technical history; who it belonged
to before is named on nobody else's page and paper.
"""

from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.jobs import IssuedPaper
from jobbook.core.people import Person
from jobbook.core.vehicle.ownership import Modification, Owner, Plate, day_words, look_at_since
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.apart import Together, together
from jobbook.services.vehicle.customers import customer_told
from jobbook.services.vehicle.odometers import Distances, distances_of
from jobbook.services.vehicle.vehicles import clean_plate, clean_vin, look_at_vin, still_itself, vehicle_draft

TRANSFER = (
    "A supplier's or maker's warranty may not pass to a new owner: look at its terms before a claim is promised. "
    "The history of the work stays; the owner before is not named to the new one."
)


@dataclass(frozen=True)
class Belongings:
    """What is known of a vehicle beside its facts; each list has the newest first."""

    vehicle: Vehicle
    plates: tuple[Plate, ...]
    owners: tuple[Owner, ...]
    modifications: tuple[Modification, ...]
    distances: Distances
    merged: tuple[int, ...]  # the numbers that were found to be this vehicle
    together: tuple[Together, ...]


def belongings(book: OpenBook, number: int) -> Belongings:
    with book.store.read() as reading:
        there = reading.vehicles.get(number)
        return Belongings(
            there,
            tuple(reading.vehicles.plates(there.id)),
            tuple(reading.vehicles.owners(there.id)),
            tuple(reading.vehicles.modifications(there.id)),
            distances_of(reading, there.id),
            tuple(reading.vehicles.numbers(there.id)[1:]),
            together(reading, "vehicle", there.id),
        )


def plate_words(book: OpenBook, plate: str, vehicle: int = 0) -> str:
    """What must be said of a plate while it is typed: who bears it or bore it. Empty: nobody else did."""
    with book.store.read() as reading:
        others = [one for one in reading.vehicles.bearers(plate) if one.vehicle_id != vehicle]
        now = next((one for one in others if not one.until), None)
        shown = now or next(iter(others), None)
        if shown is None:
            return ""
        title = reading.vehicles.get(shown.vehicle_id).title
    if now is not None:
        return (
            f"This plate is on another vehicle, {title}, since {day_words(now.since)}. Once this is kept it leaves "
            "that one: the VIN says which vehicle it is."
        )
    return f"This plate was on another vehicle, {title}, until {day_words(shown.until)}."


def new_plate(book: OpenBook, who: Person, number: int, plate: str, since: str = "") -> None:
    """Keep that a vehicle bears another plate, or none, since that day; today where none is named."""
    with writing(book, who, "desk") as tx:
        there, held = still_itself(tx, number), tx.vehicles.plates(number)
        day = look_at_since(since, book.today(), held, "the day of the plate")
        if there.plate == clean_plate(plate):
            raise Refused("Nothing was changed: the vehicle bears this plate already.")
        tx.keep(vehicle_draft(replace(there, plate=clean_plate(plate)), {"plate_since": day}))


def correct_plate(book: OpenBook, who: Person, number: int, plate: str, reason: str) -> None:
    """Keep that the plate was typed wrong: it never was another. What it took from another vehicle goes back."""
    _correct(book, who, number, reason, plate=clean_plate(plate))


def correct_vin(book: OpenBook, who: Person, number: int, vin: str, reason: str) -> tuple[IssuedPaper, ...]:
    """Keep that the VIN was typed wrong. Returns the papers that left with the wrong one."""
    _correct(book, who, number, reason, vin=clean_vin(vin))
    return papers_with_another_vin(book, number)


def correct_owner(book: OpenBook, who: Person, number: int, customer: Customer, reason: str) -> None:
    """Keep that the owner was written down wrong: it always was this one."""
    _correct(book, who, number, reason, owner=customer)


def _correct(
    book: OpenBook, who: Person, number: int, reason: str, owner: Customer | None = None, **facts: str
) -> None:
    if not reason.strip():
        raise Refused("Nothing was changed: say what was wrong; both stay readable.")
    with writing(book, who, "desk") as tx:
        there = still_itself(tx, number)
        right = replace(there, **facts)  # type: ignore[arg-type]
        if owner is not None:
            right = replace(right, customer_id=customer_told(tx, owner))
        look_at_vin(tx, right, "Nothing was changed")
        last = tx.vehicles.entry_of(number)
        tx.keep(replace(vehicle_draft(right), replaces=last, reason=reason.strip()))


def sell(book: OpenBook, who: Person, number: int, buyer: Customer, since: str = "") -> int:
    """Keep that a vehicle belongs to somebody else since that day. Returns the number of the new owner.

    The technical history stays with the vehicle. See TRANSFER for what is said beside it."""
    if not buyer.id and not (buyer.name or "").strip():
        raise Refused("Nothing was changed: write the name of the new owner.")
    with writing(book, who, "desk") as tx:
        there = still_itself(tx, number)
        day = look_at_since(since, book.today(), tx.vehicles.owners(number), "the day of the sale")
        owner = customer_told(tx, buyer)
        if owner == there.customer_id:
            raise Refused("Nothing was changed: the vehicle belongs to this customer already.")
        tx.keep(vehicle_draft(replace(there, customer_id=owner), {"owner_since": day}))
    return owner


def papers_with_another_vin(book: OpenBook, number: int) -> tuple[IssuedPaper, ...]:
    """The papers that left while the vehicle stood in the book with another VIN than now, to be sent anew."""
    with book.store.read() as reading:
        there = reading.vehicles.get(number)
        said = reading.vehicles.vins_said(there.id)
        if all(vin in ("", there.vin) for _, vin in said):
            return ()
        papers = [p for row in reading.jobs.of_vehicle(there.id) for p in reading.papers.of_job(row.number)]
        return tuple(one for one in papers if _vin_at(said, one.entry) != there.vin)


def _vin_at(said: list[tuple[int, str]], entry: int) -> str:
    return next((vin for number, vin in reversed(said) if number < entry), "")
