"""Taking in: customer, vehicle, odometer, concerns, and the vehicle as it stands."""

from dataclasses import dataclass, field, replace

from jobbook.core.errors import Refused
from jobbook.core.jobs import ARRIVALS
from jobbook.core.journal import Draft
from jobbook.core.odometers import doubt
from jobbook.core.people import Person
from jobbook.core.vehicles import Customer, Vehicle
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import CORNERS, Act
from jobbook.db.store import WritingBook
from jobbook.services.heights import pairs_of, rule_used
from jobbook.services.opened import OpenBook
from jobbook.services.people import writing
from jobbook.services.vehicles import AIR, clean_vin, look_at_air, look_at_vin, vehicle_draft

LARGEST_ODOMETER = 9_999_999
ON_STOPS = "arrived with no air, on its stops: no ride height, no leak-down stand"


@dataclass(frozen=True)
class Arrival:
    """All that is asked when a vehicle is taken in. A vehicle or customer with id 0 is a new one.

    `odometer` is as typed; `heights` by corner as typed with its unit or in mm; `on_stops` the corners that stand with
    no air; `odometer_note` answers the question that a doubtful reading raises."""

    vehicle: Vehicle
    customer: Customer
    odometer: str
    concerns: tuple[str, ...]
    odometer_unit: str = "km"
    odometer_note: str = ""
    arrival: str = "driven"
    brought_by: str = ""
    payer: str = "customer"
    promised: str = ""
    condition: str = ""
    fuel: str = ""
    load: str = ""
    parts_back: str = ""
    heights: dict[str, str] = field(default_factory=dict)
    instrument: str = ""
    on_stops: tuple[str, ...] = ()


def take_in(book: OpenBook, who: Person, arrival: Arrival, *, attempt: str = "") -> int:
    """Open a job for a vehicle that has come. Everything is kept, or nothing is.

    Refused when there is no concern, no odometer reading, or a reading that raises a doubt and has no note.
    `attempt` names this doing: given again after a broken connection, the job that it opened comes back."""
    concerns = tuple(words.strip() for words in arrival.concerns if words.strip())
    _look_at(arrival, concerns)
    value = read_odometer(arrival.odometer)
    with writing(book, who, "desk") as tx:
        before = tx.journal.by_act(attempt) if attempt else None
        if before is not None:
            return int(before.payload["job"])
        customer = _keep_customer(tx, arrival.customer)
        vehicle = _keep_vehicle(tx, replace(arrival.vehicle, vin=clean_vin(arrival.vehicle.vin), customer_id=customer))
        note = arrival.odometer_note.strip()
        question = doubt(next(iter(tx.vehicles.odometers(vehicle.id)), None), value, arrival.odometer_unit)
        if question and not note:
            raise Refused(f"The vehicle was not taken in yet. {question}")
        job = int(tx.next_job_number())
        _keep_job(tx, job, vehicle.id, customer, arrival, attempt)
        _keep_concerns(tx, job, concerns)
        keep_odometer(tx, vehicle.id, job, value, arrival.odometer_unit, "in", note)
        _keep_as_it_stands(tx, job, vehicle, arrival)
    return job


def _look_at(arrival: Arrival, concerns: tuple[str, ...]) -> None:
    if not concerns:
        raise Refused("The vehicle was not taken in: write the concern, in the customer's words.")
    if not (arrival.customer.name or "").strip() and not arrival.customer.id:
        raise Refused("The vehicle was not taken in: the customer's name is missing.")
    if arrival.arrival not in ARRIVALS:
        raise Refused("The vehicle was not taken in: say whether it was driven in, recovered, or has no air.")
    look_at_air(arrival.vehicle, "The vehicle was not taken in")


def _keep_concerns(tx: WritingBook, job: int, concerns: tuple[str, ...]) -> None:
    for number, words in enumerate(concerns, 1):
        facts = {"job": job, "number": number, "words": tx.seal(words)}
        facts |= {"cause": "", "confidence": "", "correction": ""}
        tx.keep(Draft("concern/1", f"job/{job}", facts, job=job))


def read_odometer(typed: str) -> int:
    """A whole number of km or miles. Thousands may be parted by spaces, points, commas or apostrophes."""
    digits = "".join(character for character in typed if character not in " .,'’\u00a0\u202f\u2009")
    if not digits.isascii() or not digits.isdigit() or int(digits) > LARGEST_ODOMETER:
        raise Refused(f"The odometer “{typed}” is not a whole number up to {LARGEST_ODOMETER}; nothing was kept.")
    return int(digits)


def read_height(corner: str, typed: str, unit: str = "mm") -> str:
    """A height in mm as exact text, of several readings their mean. Refused outside what a road vehicle can stand at (a
    typing slip)."""
    return pairs_of(corner, typed, unit)[0][1]


def _keep_customer(tx: WritingBook, customer: Customer) -> int:
    """Keep a new customer, or what was said anew of a known one; what is left out of a known one stays as it is."""
    known = tx.customers.get(customer.id) if customer.id else Customer(int(tx.next_customer_id()), "")
    before = {key: getattr(known, key) or "" for key in ("name", "address", "phone", "email")}
    told = {key: (getattr(customer, key) or "").strip() or before[key] for key in before}
    if customer.id and told == before:
        return known.id
    sealed = {key: tx.seal(text) for key, text in told.items()}
    tx.keep(Draft("customer/1", f"customer/{known.id}", {"customer": known.id} | sealed))
    return known.id


def _keep_vehicle(tx: WritingBook, vehicle: Vehicle) -> Vehicle:
    """Keep a new vehicle, or the facts of a known one where they changed."""
    look_at_vin(tx, vehicle, "The vehicle was not taken in")
    if vehicle.id and tx.vehicles.get(vehicle.id) == vehicle:
        return vehicle
    kept = vehicle if vehicle.id else replace(vehicle, id=int(tx.next_vehicle_id()))
    tx.keep(vehicle_draft(kept))
    return kept


def _keep_job(tx: WritingBook, job: int, vehicle: int, customer: int, arrival: Arrival, attempt: str) -> None:
    plain = ("arrival", "payer", "promised", "fuel", "load", "parts_back")
    facts = {"job": job, "vehicle": vehicle, "customer": customer} | {key: getattr(arrival, key) for key in plain}
    facts |= {key: tx.seal(getattr(arrival, key).strip()) for key in ("brought_by", "condition")}
    tx.keep(Draft("job-opened/1", f"job/{job}", facts, job=job, act=attempt))


def keep_odometer(tx: WritingBook, vehicle: int, job: int, value: int, unit: str, what: str, note: str = "") -> None:
    """Keep one odometer reading as read."""
    if unit not in ("km", "mi"):
        raise Refused(f"“{unit}” is no unit of an odometer: km or mi; nothing was kept.")
    facts = {"vehicle": vehicle, "job": job, "value": value, "unit": unit, "what": what, "note": note}
    tx.keep(Draft("odometer/1", f"vehicle/{vehicle}", facts, job=job))


def _keep_as_it_stands(tx: WritingBook, job: int, vehicle: Vehicle, arrival: Arrival) -> None:
    """The first acts of the job: which corners have air, and the heights before anybody touched the system."""
    acts = [Act("arrive", conditions=_air(vehicle, arrival)), *_heights(tx, arrival)]
    kept = [tx.keep(Draft("act/1", f"job/{job}", {"job": job, "act": act_to_plain(act)}, job=job)) for act in acts]
    facts = {"job": job, "acts": [entry.act for entry in kept], "joint": "", "meaning": "did"}
    tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning="did"))


def _air(vehicle: Vehicle, arrival: Arrival) -> dict[str, str]:
    flat = CORNERS if arrival.arrival == "no air" else arrival.on_stops
    there = {corner: "vented" if corner in flat else "charged" for corner in AIR[vehicle.air]}
    return {f"air {corner}": there.get(corner, "none") for corner in CORNERS}


def _heights(tx: WritingBook, arrival: Arrival) -> tuple[Act, ...]:
    """The heights as typed, with the load and the fuel that the vehicle came with."""
    unit, typed = tx.shop().height_unit, arrival.heights
    pairs = [
        pair for corner in CORNERS if typed.get(corner, "").strip() for pair in pairs_of(corner, typed[corner], unit)
    ]
    if pairs:
        told = [(name, said) for name, said in (("load", arrival.load), ("fuel", arrival.fuel)) if said.strip()]
        how = arrival.instrument.strip()
        tool = rule_used(how, tx.tools.all())
        return (Act("measure", what="heights", readings=(*pairs, *told), how=how, tool=tool),)
    if arrival.arrival == "no air":
        return (Act("measure", what="heights", answer="not possible", reason=ON_STOPS),)
    return ()
