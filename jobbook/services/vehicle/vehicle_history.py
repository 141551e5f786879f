"""The history of one vehicle: parts by place, declined work, joiners, and its years as drawings."""

from dataclasses import dataclass
from datetime import date

from jobbook.core.desk.retorque import VisitThen
from jobbook.core.people import Shop
from jobbook.core.vehicle.history import DeclinedThen, Joiner, PlaceParts, places
from jobbook.core.vehicle.part_lives import FittedPart
from jobbook.core.vehicle.vehicles import Vehicle
from jobbook.db.store import Book
from jobbook.services.agreed.declined_work import declined_work
from jobbook.services.office.visits_then import visits_of_vehicle
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle import warranty_words
from jobbook.services.vehicle.joiners import JOINER, joiners_from
from jobbook.services.vehicle.vehicle_charts import Drawn, heights_drawn, losses_drawn
from jobbook.services.vehicle.warranty_words import Readings

MAY_NOT_GO_OVER = "The vehicle has another owner since: a supplier's warranty may not go over, ask them."


@dataclass(frozen=True)
class PartNow:
    """A place with its parts, and what is said of the one that is there now: how its warranties stand."""

    parts: PlaceParts
    warranty: tuple[str, ...]
    runs: bool


@dataclass(frozen=True)
class History:
    """What is on a vehicle, what was declined on it, and the joiners in its lines."""

    places: tuple[PartNow, ...]
    declined: tuple[DeclinedThen, ...]
    joiners: tuple[Joiner, ...]
    visits: tuple[VisitThen, ...] = ()  # after wheels were off


@dataclass(frozen=True)
class Charts:
    """The drawings of a vehicle's years."""

    heights: Drawn
    losses: Drawn


def history(book: OpenBook, number: int) -> History:
    """The history of a vehicle, in one reading."""
    with book.store.read() as reading:
        vehicle = reading.vehicles.get(number)
        parts = parts_now(reading, vehicle, book.today())
        joiners = joiners_from(reading.history.entries(vehicle.id, JOINER))
        return History(parts, declined_work(reading, vehicle.id), joiners, visits_of_vehicle(reading, vehicle.id))


def charts(book: OpenBook, number: int) -> Charts:
    """The heights and the parked loss of a vehicle over its visits, drawn."""
    with book.store.read() as reading:
        vehicle = reading.vehicles.get(number)
        return Charts(heights_drawn(reading, vehicle), losses_drawn(reading, vehicle))


def parts_now(reading: Book, vehicle: Vehicle, today: date) -> tuple[PartNow, ...]:
    readings, shop = reading.part_lives.readings_of(vehicle.id), reading.shop()
    return tuple(
        _with_terms(shop, one, vehicle, today, readings) for one in places(reading.part_lives.on_vehicle(vehicle.id))
    )


def _with_terms(shop: Shop, one: PlaceParts, vehicle: Vehicle, today: date, readings: Readings) -> PartNow:
    if one.now is None:
        return PartNow(one, (), False)
    supplier = warranty_words.suppliers(one.now, today, readings)
    own = warranty_words.shops(one.now, shop, today, readings)
    unit = vehicle.distance_unit
    said = [warranty_words.term_words("the supplier's", supplier, unit)]
    if shop.warranty_months or shop.warranty_distance:
        said.append(
            warranty_words.term_words("our", own, unit) if own else "the customer's own part: no warranty of ours"
        )
    if _sold_since(one.now, vehicle) and supplier is not None and supplier.inside is not False:
        said.append(MAY_NOT_GO_OVER)
    runs = any(term is not None and term.inside is not False for term in (supplier, own))
    return PartNow(one, tuple(said), runs)


def _sold_since(part: FittedPart, vehicle: Vehicle) -> bool:
    return bool(part.customer and vehicle.customer_id and part.customer != vehicle.customer_id)
