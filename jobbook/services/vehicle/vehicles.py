"""Vehicles: what is known of one, and the doubts that a typed VIN or odometer raises."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from types import MappingProxyType

from jobbook.core.errors import Conflict, Refused
from jobbook.core.figures import vin as vins
from jobbook.core.jobs import JobRow
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.record.pages import Page
from jobbook.core.vehicle.odometers import doubt
from jobbook.core.vehicle.vehicles import OLDER_NUMBER, Customer, Odometer, Vehicle
from jobbook.core.work.model import CORNERS
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

AIR: Mapping[str, tuple[str, ...]] = {"all": CORNERS, "front": CORNERS[:2], "rear": CORNERS[2:]}
NO_DAYS: Mapping[str, str] = MappingProxyType({})


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
    """One vehicle, also by a number that was merged into it."""
    with book.store.read() as reading:
        found = reading.vehicles.get(number)
        customer = reading.customers.get(found.customer_id) if found.customer_id else None
        odometers, jobs = reading.vehicles.odometers(found.id), reading.jobs.of_vehicle(found.id)
        return VehicleSheet(found, customer, tuple(odometers), tuple(jobs))


def keep_vehicle(book: OpenBook, who: Person, changed: Vehicle, reason: str = "") -> Vehicle:
    """Keep a vehicle's facts. The VIN must not be another vehicle's; one that was known changes only with a reason."""
    tidy = replace(changed, vin=clean_vin(changed.vin), plate=changed.plate.strip())
    look_at_air(tidy, "Nothing was changed")
    with writing(book, who, "desk") as tx:
        before = still_itself(tx, tidy.id)
        look_at_vin(tx, tidy, "Nothing was changed")
        if before.vin not in ("", tidy.vin) and not reason.strip():
            raise Refused(
                f"Nothing was changed: the VIN {before.vin} is the vehicle's identity. A slip in it is put right "
                "with its reason, by “VIN typed wrong…” under its plates; papers that left with it keep it."
            )
        tx.keep(replace(vehicle_draft(tidy), reason=reason.strip()))
    return tidy


def still_itself(reading: Book, number: int) -> Vehicle:
    """The vehicle of this number. Refused with a Conflict where it was merged with another one meanwhile."""
    there: Vehicle = reading.vehicles.get(number)
    if there.id != number:
        raise Conflict(
            f"Nothing was kept: vehicle {number} was found to be vehicle {there.id}, {there.title}, and its history is "
            "there now. Open that one."
        )
    return there


def look_at_vin(reading: Book, vehicle: Vehicle, what_was_kept: str, *, any_length: bool = False) -> None:
    """Refused where the VIN is that of another vehicle of the book, since two histories of one vehicle help nobody; and
    where a VIN that is new here cannot be one. A shorter number is taken where it was ticked as an older one."""
    before = reading.vehicles.get(vehicle.id).vin if vehicle.id else ""
    if vehicle.vin not in ("", before):
        _look_at_characters(vehicle, what_was_kept, any_length)
    other = reading.vehicles.by_vin(vehicle.vin) if vehicle.vin else None
    if other is not None and other.id != vehicle.id:
        there = f"{other.title}, {other.plate or 'no plate'}"
        raise Refused(
            f"{what_was_kept}: the VIN {vehicle.vin} belongs to another vehicle, {there}. "
            "Take that vehicle, so that its history stays in one place."
        )


def _look_at_characters(vehicle: Vehicle, what_was_kept: str, any_length: bool) -> None:
    fault = vins.fault_of(vehicle.vin)
    if len(vehicle.vin) != vins.LENGTH:
        taken = any_length or OLDER_NUMBER in vehicle.vin_from
        way_on = "Read it again; of a vehicle whose own number is shorter, tick that it is an older number."
    else:
        taken, way_on = not fault, "Read it from the vehicle again."
    if not taken:
        raise Refused(f"{what_was_kept}: {fault[:1].lower()}{fault[1:]} {way_on}")


def look_at_air(vehicle: Vehicle, what_was_kept: str) -> None:
    if vehicle.air not in AIR:
        raise Refused(f"{what_was_kept}: say where the vehicle has air springs: {', '.join(AIR)}.")


def vehicle_draft(changed: Vehicle, since: Mapping[str, str] = NO_DAYS) -> Draft:
    """A vehicle's facts as they are kept. `since`: the days, by `plate_since` and `owner_since`, where not today."""
    facts = asdict(changed) | dict(since)
    facts["vehicle"], facts["customer"] = facts.pop("id"), facts.pop("customer_id")
    if not changed.elsewhere:
        del facts["elsewhere"]
    return Draft("vehicle/1", f"vehicle/{changed.id}", facts)


def find_by_vin(book: OpenBook, vin: str) -> Vehicle | None:
    with book.store.read() as reading:
        found: Vehicle | None = reading.vehicles.by_vin(clean_vin(vin))
        return found


def clean_vin(typed: str) -> str:
    """A VIN as it is kept: capitals, without spaces and dashes."""
    return vins.tidy_vin(typed)


def clean_plate(typed: str) -> str:
    """A plate as it is kept: in capitals, as it stands on the plate; its blanks and dashes stay."""
    return " ".join(typed.split()).upper()


def vin_findings(vin: str) -> tuple[str, ...]:
    """What looks wrong with a VIN, as sentences. They warn; none of them refuses."""
    return vins.look_at_vin(vin).findings


def odometer_question(book: OpenBook, number: int, value: int, unit: str) -> str:
    """The question that an odometer reading raises against the last one, or nothing."""
    with book.store.read() as reading:
        return doubt(next(iter(reading.vehicles.odometers(number)), None), value, unit)
