"""Taking in: customer, vehicle, odometer, concerns, and the vehicle as it stands."""

from dataclasses import dataclass, field, replace

from jobbook.core.errors import Refused
from jobbook.core.jobs import ARRIVALS
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.odometers import NO_RESET, Reset
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import CORNERS, Act
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.measured.heights import pairs_of, rule_used
from jobbook.services.office.calls import keep_close, promised_for
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.customers import customer_told
from jobbook.services.vehicle.odometers import keep_odometer, question_of, read_or_unknown
from jobbook.services.vehicle.vehicles import (
    AIR,
    clean_plate,
    clean_vin,
    look_at_air,
    look_at_vin,
    still_itself,
    vehicle_draft,
)

SEALED = ("brought_by", "condition", "may_authorise", "payer_name")
ON_STOPS = "arrived with no air, on its stops: no ride height, no leak-down stand"


@dataclass(frozen=True)
class Arrival:
    """All that is asked when a vehicle is taken in. A vehicle or customer with id 0 is a new one.

    `odometer` is as typed, “?” where it could not be read; the note then says why. A note answers the question that a
    doubtful reading raises, too. `heights` by corner as typed with its unit or in mm; `on_stops` the corners that stand
    with no air; `call` the number of the call that announced it."""

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
    owner: str = "customer"  # whose the vehicle is: "customer", "as before", or "other" with `owner_name`
    owner_name: str = ""
    may_authorise: str = ""  # who may allow work, where it is not the customer
    payer_name: str = ""  # who pays, by name, where it is not the customer
    reset: Reset = NO_RESET  # why the odometer begins anew, where it does
    call: int = 0  # the call that it was announced by, which ends with this job


def take_in(book: OpenBook, who: Person, arrival: Arrival, *, attempt: str = "") -> int:
    """Open a job for a vehicle that has come. Everything is kept, or nothing is.

    Refused when there is no concern, no odometer reading, or a reading that raises a doubt and has no note.
    `attempt` names this doing: given again after a broken connection, the job that it opened comes back."""
    concerns = tuple(words.strip() for words in arrival.concerns if words.strip())
    _look_at(arrival, concerns)
    arrival = replace(arrival, promised=promised_for(arrival.promised, book.clock()).replace("T", " "))
    value = read_or_unknown(arrival.odometer)
    with writing(book, who, "desk") as tx:
        before = tx.journal.by_act(attempt) if attempt else None
        if before is not None:
            return int(before.payload["job"])
        customer = customer_told(tx, arrival.customer)
        came = replace(_tidy(arrival.vehicle), customer_id=_owner(tx, arrival, customer))
        vehicle = _keep_vehicle(tx, came)
        note, unit = arrival.odometer_note.strip(), arrival.odometer_unit
        if question := question_of(tx, vehicle.id, value, unit, note, arrival.reset):
            raise Refused(f"The vehicle was not taken in yet. {question}")
        job = int(tx.next_job_number())
        _keep_job(tx, job, vehicle, customer, arrival, attempt)
        _keep_concerns(tx, job, concerns)
        keep_odometer(tx, vehicle.id, job, value, unit, "in", note, arrival.reset)
        _keep_as_it_stands(tx, job, vehicle, arrival)
        if arrival.call:
            keep_close(tx, arrival.call, "arrived", job=job)
    return job


def _tidy(vehicle: Vehicle) -> Vehicle:
    return replace(vehicle, vin=clean_vin(vehicle.vin), plate=clean_plate(vehicle.plate))


def _look_at(arrival: Arrival, concerns: tuple[str, ...]) -> None:
    if not concerns:
        raise Refused("The vehicle was not taken in: write the concern, in the customer's words.")
    if not (arrival.customer.name or "").strip() and not arrival.customer.id:
        raise Refused("The vehicle was not taken in: the customer's name is missing.")
    if arrival.arrival not in ARRIVALS:
        raise Refused("The vehicle was not taken in: say whether it was driven in, recovered, or has no air.")
    look_at_air(arrival.vehicle, "The vehicle was not taken in")


def _owner(tx: WritingBook, arrival: Arrival, customer: int) -> int:
    """Whose the vehicle is from now on: the customer's, still somebody else's, or that of somebody who is named."""
    if arrival.owner == "other":
        if not arrival.owner_name.strip():
            raise Refused("The vehicle was not taken in: write whose it is, or say that it is the customer's.")
        return customer_told(tx, Customer(0, arrival.owner_name))
    if arrival.owner == "as before" and arrival.vehicle.id:
        return int(tx.vehicles.get(arrival.vehicle.id).customer_id) or customer
    return customer


def _keep_concerns(tx: WritingBook, job: int, concerns: tuple[str, ...]) -> None:
    for number, words in enumerate(concerns, 1):
        facts = {"job": job, "number": number, "words": tx.seal(words)}
        facts |= {"cause": "", "confidence": "", "correction": ""}
        tx.keep(Draft("concern/1", f"job/{job}", facts, job=job))


def read_height(corner: str, typed: str, unit: str = "mm") -> str:
    """A height in mm as exact text, of several readings their mean. Refused outside what a road vehicle can stand at (a
    typing slip)."""
    return pairs_of(corner, typed, unit)[0][1]


def _keep_vehicle(tx: WritingBook, vehicle: Vehicle) -> Vehicle:
    """Keep a new vehicle, or the facts of a known one where they changed."""
    look_at_vin(tx, vehicle, "The vehicle was not taken in")
    if vehicle.id and still_itself(tx, vehicle.id) == vehicle:
        return vehicle
    kept = vehicle if vehicle.id else replace(vehicle, id=int(tx.next_vehicle_id()))
    tx.keep(vehicle_draft(kept))
    return kept


def _keep_job(tx: WritingBook, job: int, vehicle: Vehicle, customer: int, arrival: Arrival, attempt: str) -> None:
    plain = ("arrival", "payer", "promised", "fuel", "load", "parts_back")
    facts: dict[str, object] = {"job": job, "vehicle": vehicle.id, "customer": customer, "owner": vehicle.customer_id}
    facts |= {key: getattr(arrival, key) for key in plain}
    facts |= {key: tx.seal(getattr(arrival, key).strip()) for key in SEALED}
    tx.keep(Draft("job-opened/1", f"job/{job}", facts, job=job, act=attempt))


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
