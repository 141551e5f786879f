"""The cries on an open job: what whoever stands at the vehicle must know before anything is thrown away or charged."""

from collections.abc import Sequence
from datetime import date

from jobbook.core.days import day_of
from jobbook.core.figures.wear import months_after
from jobbook.core.jobs import Job, JobRow
from jobbook.core.people import Shop
from jobbook.core.vehicle.odometers import in_unit
from jobbook.core.vehicle.ownership import modification_words
from jobbook.core.vehicle.part_lives import FittedPart, km_between
from jobbook.core.vehicle.vehicles import Vehicle
from jobbook.core.written import thousands
from jobbook.db.store import Book
from jobbook.services.agreed.declined_work import declined_work
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.warranty_words import Readings, suppliers

MOST_CRIES = 4


def cry(reading: Book, job: Job, vehicle: Vehicle, shop: Shop, today: date) -> str:
    """The cries of one job, a line each. On a job that is released only wrong times are told of: the others are of no
    use any more."""
    wrong = _wrong_times(reading, job.number)
    if job.stage == "released":
        return "\n".join(wrong)
    reopened = reading.journal.entries(job=job.number, kind="reopened/1")
    again = (f"Open again after its release: {reopened[-1].facts['reason']}",) if reopened else ()
    return "\n".join((wrong + again + cries(reading, vehicle, shop, today, job.number))[:MOST_CRIES])


def _wrong_times(reading: Book, job: int) -> tuple[str, ...]:
    """Where entries of this job bear the times of a clock that ran ahead."""
    parts = [(one, reading.journal.entries(job=job, after=one.first - 1, limit=1)) for one in reading.ahead()]
    return tuple(
        f"Times of this job are not right. {one.sentence}"
        for one, found in parts
        if found and found[0].number <= one.last
    )


def cries_at_arrival(book: OpenBook, vehicle: int) -> tuple[str, ...]:
    """What a vehicle's history cries while it is being taken in."""
    with book.store.read() as reading:
        return cries(reading, reading.vehicles.get(vehicle), reading.shop(), book.today())[:MOST_CRIES]


def cries(reading: Book, vehicle: Vehicle, shop: Shop, today: date, job: int = 0) -> tuple[str, ...]:
    """What a vehicle's history cries on its open job, or before the job is opened; what weighs most comes first."""
    others = [row for row in reading.jobs.of_vehicle(vehicle.id) if row.number != job]
    earlier = [row for row in others if row.stage == "released" and (not job or row.number < job)]
    said = [_open_too(row, today) for row in others if row.stage != "released"]
    if not earlier:
        return tuple(said)
    readings = reading.part_lives.readings_of(vehicle.id)
    ours = reading.part_lives.on_vehicle(vehicle.id)
    parts = [part for part in ours if part.job != job and (not part.off_at or (job and part.off_job == job))]
    said += _in_term(parts, readings, today)
    said += _again([part for part in ours if part.failed and part.off_job != job])
    said += _comeback(reading, earlier[0], vehicle, shop, readings, today)
    said += _declined(reading, vehicle, earlier[0].number)
    said += _changed(reading, vehicle)
    return tuple(said) or (f"Was here before, job {earlier[0].number}.",)


def _open_too(row: JobRow, today: date) -> str:
    since = " since today" if row.opened_at[:10] == today.isoformat() else ""
    return f"Job {row.number} of this vehicle is open too{since}: keep concerns, parts, times and payer of each apart."


def _in_term(parts: Sequence[FittedPart], readings: Readings, today: date) -> list[str]:
    """Each part of ours that was on it when it came, the newest first, while its supplier may have to pay."""
    said = []
    for part in reversed(parts):
        term = suppliers(part, today, readings)
        fitted = f"{part.title} {part.place}".strip()
        when = f"{fitted}, fitted {ago(day_of(part.fitted_at), today)}, job {part.job}"
        if term is None:
            said.append(f"{when}: its term is not recorded, keep the part that comes off.")
        elif term.inside is not False:
            inside = "inside" if term.inside else "perhaps inside"
            said.append(f"{when}: {inside} the supplier's {_term(part)}, keep the part that comes off.")
    return said


def _term(part: FittedPart) -> str:
    months = f"{part.term.months} months" if part.term.months else ""
    return " and ".join(filter(None, (months, part.term.distance))).replace(" 000 ", "\u202f000\u202f")


def _again(failed: Sequence[FittedPart]) -> list[str]:
    """A place where a part of ours failed before: another one alone may fail as well."""
    at = {(part.title, part.place): part.off_job for part in failed}
    return [
        f"{title} {place}".strip() + f" failed here before, job {job}: look for the cause."
        for (title, place), job in at.items()
    ]


def _comeback(reading: Book, last: JobRow, vehicle: Vehicle, shop: Shop, readings: Readings, today: date) -> list[str]:
    """Whether the visit comes so soon after the last release that it may be a comeback."""
    released = day_of(last.released_at or last.opened_at)
    run = km_between([one for _, one in readings], {one.entry: job for job, one in readings}, last.number)
    if today > months_after(released, shop.comeback_months) or (run is not None and run > shop.comeback_km):
        return []
    far = f"{thousands(in_unit(run, vehicle.distance_unit))} {vehicle.distance_unit} since" if run else ""
    when = ", ".join(filter(None, (f"released {ago(released, today)}", far, f"job {last.number}")))
    if all(one.confidence == "not found" for one in reading.jobs.get(last.number).concerns):
        return [f"No fault was found, {when}: no comeback unless one is proved now."]
    return [f"A comeback? {when[0].upper()}{when[1:]}."]


def _declined(reading: Book, vehicle: Vehicle, last: int) -> list[str]:
    """What was declined at the last visit: a failure of just that is no comeback."""
    declined = [one.what for one in declined_work(reading, vehicle.id) if one.job == last]
    if not declined:
        return []
    more = f" and {len(declined) - 1} more" if len(declined) > 1 else ""
    return [f"Declined then, so no comeback: {declined[0]}{more}."]


def _changed(reading: Book, vehicle: Vehicle) -> list[str]:
    """What others changed bears on heights, figures and claims."""
    found = [modification_words(one) for one in reading.vehicles.modifications(vehicle.id) if not one.gone_on]
    return [f"Changed by others: {'; '.join(found)}. The maker's heights may not hold."] if found else []


def ago(then: date, today: date) -> str:
    """“14 months ago”, “12 days ago”, “yesterday”."""
    months = (today.year - then.year) * 12 + today.month - then.month - (today.day < then.day)
    days = (today - then).days
    recently = {0: "today", 1: "yesterday"}.get(days, f"{days} days ago")
    return f"{months} months ago" if months > 1 else recently
