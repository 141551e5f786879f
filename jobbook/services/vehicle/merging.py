"""Two numbers that are one vehicle, or one customer: the history comes together under one of them, with a trace.

Nothing is lost: the number that goes leads to the one that stays, and every entry stays as it was kept. How they are
taken apart again stands in `apart`.
"""

from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.quantities.whole import whole_number
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicles import still_itself, vehicle_draft

TAKEN_BACK = (
    "They can be taken apart again, with a reason; what is written on the one from now on stays there. Be sure that "
    "they are one."
)
FILLED = ("vin", "plate", "make", "model", "year", "variant", "vin_from", "elsewhere")


@dataclass(frozen=True)
class Both:
    """What is said before two vehicles are brought together: both of them, and what speaks against it."""

    gone: Vehicle
    kept: Vehicle
    warnings: tuple[str, ...]


def look_at_vehicles(book: OpenBook, gone: int, kept: int) -> Both:
    """Both vehicles beside each other, with everything that says they may be two. Refused where they are the same."""
    with book.store.read() as reading:
        return _both(reading, gone, kept)


def _both(reading: Book, gone: int, kept: int) -> Both:
    one, other = reading.vehicles.get(gone), reading.vehicles.get(kept)
    if one.id == other.id:
        raise Refused("Nothing was changed: these two numbers lead to the same vehicle already.")
    return Both(one, other, tuple(_warnings(one, other)))


def _warnings(one: Vehicle, other: Vehicle) -> list[str]:
    found = []
    if one.vin and other.vin and one.vin != other.vin:
        found.append(
            f"The VINs differ: {one.vin} and {other.vin}. Read it at the vehicle: one was mistyped, or they are two."
        )
    if one.title != other.title:
        found.append(f"The makes or models differ: {one.title} and {other.title}.")
    if one.customer_id and other.customer_id and one.customer_id != other.customer_id:
        found.append(
            "They have different owners; the owner of the one that stays is kept, the other as an earlier one."
        )
    return [*found, TAKEN_BACK]


def merge_vehicles(book: OpenBook, who: Person, gone: int, kept: int, reason: str) -> Vehicle:
    """Bring two numbers of one vehicle together under `kept`. What only the other one knew is kept with it."""
    if not reason.strip():
        raise Refused("Nothing was changed: say how it was found that these are one vehicle.")
    with writing(book, who, "desk") as tx:
        both = _both(tx, gone, kept)
        tx.keep(_draft("vehicle", both.gone.id, both.kept.id, reason))
        there = still_itself(tx, both.kept.id)
        lacking = {name: getattr(both.gone, name) for name in FILLED if not getattr(there, name)}
        filled = replace(there, **{name: told for name, told in lacking.items() if told})
        if filled != there:
            tx.keep(vehicle_draft(filled))
        return filled


def merge_customers(book: OpenBook, who: Person, gone: int, kept: int, reason: str) -> Customer:
    """Bring two numbers of one customer together under `kept`; their vehicles, jobs and people go with them."""
    if not reason.strip():
        raise Refused("Nothing was changed: say how it was found that these are one customer.")
    with writing(book, who, "desk") as tx:
        one, other = tx.customers.get(gone), tx.customers.get(kept)
        if one.id == other.id:
            raise Refused("Nothing was changed: these two numbers lead to the same customer already.")
        tx.keep(_draft("customer", one.id, other.id, reason))
        return tx.customers.get(other.id)


def _draft(what: str, gone: int, kept: int, reason: str) -> Draft:
    return Draft("merged/1", f"{what}/{gone}", {"what": what, "gone": gone, "kept": kept}, reason=reason.strip())


def vehicles_alike(book: OpenBook, vin: str, plate: str, besides: int = 0, limit: int = 4) -> tuple[Vehicle, ...]:
    """Vehicles that may be the one that is being typed: a VIN that ends alike, or the plate that one bears or bore."""
    end = "".join(sign for sign in vin if sign.isalnum())
    with book.store.read() as reading:
        found = {one.id: one for one in reading.vehicles.by_vin_end(end[-6:], limit)} if len(end) >= 6 else {}
        if plate.strip():
            bearers = [reading.vehicles.get(one.vehicle_id) for one in reading.vehicles.bearers(plate)]
            found |= {one.id: one for one in bearers}
    return tuple(one for one in found.values() if one.id != besides)[:limit]


def vehicle_meant(book: OpenBook, typed: str, besides: int = 0) -> Vehicle:
    """The vehicle that somebody means by its number in the book, the end of its VIN, or its plate.

    Refused where none or several are meant."""
    text = typed.strip()
    number = whole_number(text, most=99_999)
    if number is not None:
        with book.store.read() as reading:
            return reading.vehicles.get(number)
    found = vehicles_alike(book, text, text, besides)
    if len(found) != 1:
        many = ", ".join(f"{one.id} ({one.title})" for one in found)
        said = f"several vehicles are meant: {many}. Write the number" if found else "no other vehicle is meant by it"
        raise Refused(f"Nothing was changed: {said}.")
    return found[0]
