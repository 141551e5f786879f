"""Old jobs keyed in from paper: marked so for good, with what the paper does not say left unknown."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time, tzinfo

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.record.old_papers import UNKNOWN, PaperDay, read_day
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.job.late import NOBODY_KNOWN
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.customers import customer_told
from jobbook.services.vehicle.odometers import read_odometer
from jobbook.services.vehicle.vehicles import clean_vin, look_at_vin, vehicle_draft
from jobbook.services.work.written import Written, written

NOTED = "paper"
FEW_OF_A_NAME = 20


@dataclass(frozen=True)
class PaperJob:
    """What the paper says, as typed; empty where it says nothing. A `vehicle` or `customer` with id 0 is a new one.

    `done_by` is the short word of a person, or empty where the paper names nobody of the book."""

    day: str
    vehicle: Vehicle
    customer: Customer
    concern: str
    number: str = ""
    odometer: str = ""
    odometer_unit: str = "km"
    cause: str = ""
    correction: str = ""
    done_by: str = ""


def key_in(book: OpenBook, who: Person, paper: PaperJob, *, attempt: str = "") -> Written:
    """Keep an old job as its paper has it, released on its day. Nothing of it is signed and nothing is loose.

    Refused: neither VIN nor plate, a plate that several vehicles bore, no day, no word of what it was about."""
    now = book.clock()
    day = read_day(paper.day, now.date())
    if not any(text.strip() for text in (paper.concern, paper.cause, paper.correction)):
        raise Refused("The paper was not kept: write what it was about: the concern, what was found, or what was done.")
    value = read_odometer(paper.odometer) if paper.odometer.strip() else None
    with writing(book, who, "desk") as tx:
        before = tx.journal.by_act(attempt) if attempt else None
        if before is not None:
            return written(before, f"Job {before.payload['job']} was keyed in already")
        at = _at(day.latest, now)
        known = _known(tx, paper.vehicle)
        customer = _customer(tx, paper.customer, known)
        vehicle = known or _made(tx, paper.vehicle, customer, at)
        job = int(tx.next_job_number())
        entry = tx.keep(_opened(paper, day, job, vehicle, customer, at, attempt))
        _keep_facts(tx, paper, job, vehicle, value, at)
    return written(entry, f"Job {job} keyed in from paper, {day.words}")


def _at(day: date, now: datetime) -> str:
    """The day of the paper as a time of the shop's zone; the hour stands on no paper, and is that of its beginning."""
    zone: tzinfo | None = now.tzinfo
    return datetime.combine(day, time(), zone).isoformat()


def _customer(tx: WritingBook, told: Customer, vehicle: int) -> int:
    """Whoever is named: an owner of the vehicle where one has that name, else a new customer; 0 where nobody is."""
    name = (told.name or "").strip()
    if not name and not told.id:
        return 0
    owners = tx.vehicles.owners(vehicle) if vehicle and not told.id else []
    same = (one.customer_id for one in owners if same_name(one.name, name))
    return next(same, 0) or customer_told(tx, told)


def same_name(one: str | None, other: str) -> bool:
    """Whether two names are written alike, capitals and gaps aside."""
    return bool(other.strip()) and " ".join((one or "").casefold().split()) == " ".join(other.casefold().split())


def _known(tx: Book, told: Vehicle) -> int:
    """The vehicle that the paper means, known by its VIN or by a plate that one vehicle alone bore; 0 for a new one.

    Of a known vehicle nothing changes: what an old paper says of plate and owner is not what holds now."""
    if told.id:
        return int(tx.vehicles.get(told.id).id)
    vin, plate = clean_vin(told.vin), told.plate.strip()
    if not vin and not plate:
        raise Refused("The paper was not kept: it takes the VIN or the plate to know which vehicle it is about.")
    known = tx.vehicles.by_vin(vin) if vin else None
    bearers = {one.vehicle_id for one in tx.vehicles.bearers(plate)} if plate and not vin else set()
    if len(bearers) > 1:
        raise Refused(f"The paper was not kept: {len(bearers)} vehicles bore the plate {plate}; give the VIN.")
    return int(known.id) if known is not None else bearers.pop() if bearers else 0


def _made(tx: WritingBook, told: Vehicle, customer: int, at: str) -> int:
    said = replace(told, vin=clean_vin(told.vin), plate=told.plate.strip())
    look_at_vin(tx, said, "The paper was not kept", any_length=True)
    made = replace(said, id=int(tx.next_vehicle_id()), customer_id=customer)
    tx.keep(replace(vehicle_draft(made, {"plate_since": at[:10], "owner_since": at[:10]}), done_at=at))
    return made.id


def known_vehicle(book: OpenBook, vin: str, plate: str) -> Vehicle | None:
    """The vehicle of the book that a paper with this VIN or plate is about, or None."""
    with book.store.read() as reading:
        try:
            number = _known(reading, Vehicle(0, vin, plate))
        except Refused:
            return None
        return reading.vehicles.get(number) if number else None


def customer_words(book: OpenBook, name: str, vehicle: Vehicle | None) -> str:
    """What keeping a paper in this customer's name comes to, where the book knows the name; "" where it does not."""
    with book.store.read() as reading:
        owners = reading.vehicles.owners(vehicle.id) if vehicle is not None else []
        if any(same_name(one.name, name) for one in owners):
            return "Owner of the vehicle in the book: kept as one more visit of theirs."
        named = reading.customers.page(text=name.strip(), limit=FEW_OF_A_NAME) if name.strip() else []
    if not any(same_name(one.name, name) for one in named):
        return ""
    return "The book knows somebody of this name. Another is made; if they are one, bring them together on their page."


def _opened(paper: PaperJob, day: PaperDay, job: int, vehicle: int, customer: int, at: str, attempt: str) -> Draft:
    told = " ".join(filter(None, (f"number {paper.number.strip()}," if paper.number.strip() else "", day.words)))
    facts = {"job": job, "vehicle": vehicle, "customer": customer, "noted": NOTED, "from_paper": told}
    facts |= dict.fromkeys(("arrival", "payer", "parts_back"), UNKNOWN)
    facts |= dict.fromkeys(("promised", "fuel", "load", "brought_by", "condition"), "")
    return Draft("job-opened/1", f"job/{job}", facts, job=job, act=attempt, done_at=at, done_by=_doer(paper))


def _keep_facts(tx: WritingBook, paper: PaperJob, job: int, vehicle: int, value: int | None, at: str) -> None:
    concern = {"job": job, "number": 1, "words": tx.seal(paper.concern.strip()), "confidence": ""}
    concern |= {"cause": paper.cause.strip(), "correction": paper.correction.strip()}
    _keep(tx, "concern/1", f"job/{job}", concern, job, paper, at)
    of_vehicle: dict[str, object] = {"vehicle": vehicle, "job": job, "what": "in"}
    if value is None:
        _keep(tx, "odometer-unknown/1", f"vehicle/{vehicle}", of_vehicle | {"why": "not on the paper"}, job, paper, at)
    else:
        read = of_vehicle | {"value": value, "unit": paper.odometer_unit, "note": "taken from paper"}
        _keep(tx, "odometer/1", f"vehicle/{vehicle}", read, job, paper, at)
    gone: dict[str, object] = {"job": job, "restriction": "", "let_go": [], "parts_back": UNKNOWN}
    _keep(tx, "released/1", f"job/{job}", gone, job, paper, at)


def _keep(
    tx: WritingBook, kind: str, subject: str, facts: Mapping[str, object], job: int, paper: PaperJob, at: str
) -> None:
    tx.keep(Draft(kind, subject, {**facts, "noted": NOTED}, job=job, done_at=at, done_by=_doer(paper)))


def _doer(paper: PaperJob) -> str:
    return paper.done_by.strip() or NOBODY_KNOWN
