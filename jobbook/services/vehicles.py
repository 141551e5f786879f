"""Vehicles: what is known of one, and the doubts that a typed VIN or odometer raises."""

from dataclasses import asdict, dataclass
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures import vin as vins
from jobbook.core.jobs import JobRow
from jobbook.core.journal import Draft
from jobbook.core.pages import Page
from jobbook.core.people import Person
from jobbook.core.vehicles import Customer, Odometer, Vehicle
from jobbook.services.opened import OpenBook
from jobbook.services.people import need

KM_PER_MILE = Fraction(1609344, 1000000)  # exact since 1959: 1 mi = 1609.344 m


@dataclass(frozen=True)
class VehicleSheet:
    """A vehicle with its customer, every odometer reading and every visit, the newest first."""

    vehicle: Vehicle
    customer: Customer | None
    odometers: tuple[Odometer, ...]
    jobs: tuple[JobRow, ...]


def vehicles(book: OpenBook, after: int | None = None, text: str = "", limit: int = 100) -> Page[Vehicle]:
    """A page of vehicles, the newest first."""
    with book.store.read() as reading:
        rows = tuple(reading.vehicles.page(after=after, limit=limit, text=text))
    return Page(rows, rows[-1].id if len(rows) == limit else None)


def vehicle(book: OpenBook, number: int) -> VehicleSheet:
    with book.store.read() as reading:
        found = reading.vehicles.get(number)
        customer = reading.customers.get(found.customer_id) if found.customer_id else None
        return VehicleSheet(
            found, customer, tuple(reading.vehicles.odometers(number)), tuple(reading.jobs.of_vehicle(number))
        )


def keep_vehicle(book: OpenBook, who: Person, changed: Vehicle) -> Vehicle:
    """Keep a vehicle's facts. The VIN must not be another vehicle's."""
    need(who, "desk")
    with book.store.write(who.id) as tx:
        other = tx.vehicles.by_vin(changed.vin) if changed.vin else None
        if other is not None and other.id != changed.id:
            raise Refused(f"Nothing was changed: the VIN {changed.vin} belongs to another vehicle, {other.title}.")
        tx.keep(vehicle_draft(changed))
    return changed


def vehicle_draft(changed: Vehicle) -> Draft:
    facts = asdict(changed)
    facts["vehicle"], facts["customer"] = facts.pop("id"), facts.pop("customer_id")
    return Draft("vehicle/1", f"vehicle/{changed.id}", facts)


def find_by_vin(book: OpenBook, vin: str) -> Vehicle | None:
    with book.store.read() as reading:
        found: Vehicle | None = reading.vehicles.by_vin(clean_vin(vin))
        return found


def clean_vin(typed: str) -> str:
    """A VIN as it is kept: capitals, without spaces and dashes."""
    return vins.tidy_vin(typed)


def vin_findings(vin: str) -> tuple[str, ...]:
    """What looks wrong with a VIN, as sentences. They warn; none of them refuses."""
    return vins.look_at_vin(vin).findings


def customers(book: OpenBook, text: str = "", limit: int = 100) -> tuple[Customer, ...]:
    with book.store.read() as reading:
        return tuple(reading.customers.page(after=None, limit=limit, text=text))


def odometer_question(book: OpenBook, number: int, value: int, unit: str) -> str:
    """The question that an odometer reading raises against the last one, or nothing."""
    with book.store.read() as reading:
        before = tuple(reading.vehicles.odometers(number))
    return falling(before[0], value, unit) if before else ""


def falling(last: Odometer, value: int, unit: str) -> str:
    """The question where a reading is lower than the last, or looks like the other unit."""
    here, there = _km(value, unit), _km(last.value, last.unit)
    if here >= there:
        return ""
    other = "mi" if unit == "km" else "km"
    if there <= _km(value, other) <= there * Fraction(3, 2):
        return f"{value} {unit} is less than {last.value} {last.unit} read before; in {other} it fits. Which is it?"
    return (
        f"{value} {unit} is less than {last.value} {last.unit} read before. "
        "Was it a typing slip, was the cluster replaced, or was the unit changed? Say so in the note."
    )


def _km(value: int, unit: str) -> Fraction:
    return Fraction(value) * (KM_PER_MILE if unit == "mi" else 1)
