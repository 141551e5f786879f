"""The left page: identity and the cry that saves money."""

from collections.abc import Sequence
from datetime import date

from jobbook.core.jobs import Job, JobRow
from jobbook.core.vehicles import Odometer, Vehicle
from jobbook.db.store import Book
from jobbook.services.readings import read_when
from jobbook.services.sheets import Fact


def facts(job: Job, vehicle: Vehicle, odometers: Sequence[Odometer], money: str) -> tuple[Fact, ...]:
    """`money` says what was allowed and what was used so far."""
    came, left = (_odometer(read_when(odometers, what)) for what in ("in", "out"))
    return (
        Fact("VIN", vehicle.vin or "not known", strong=True),
        Fact("Odometer", f"{came} in", f"· out {left}"),
        Fact("Promised", job.promised or "no promise"),
        Fact("Allowed", money),
        Fact("Variant", vehicle.variant or "not known: no figures for it"),
    )


def _odometer(reading: Odometer | None) -> str:
    return f"{reading.value:,} {reading.unit}".replace(",", "\u202f") if reading else "not read yet"


def cry(reading: Book, job: Job, today: date) -> str:
    """What the person at the vehicle must know now: this job was released already, another one is open, or a part was
    fitted here before."""
    if job.from_paper:
        return f"Taken from paper, {job.from_paper}: what the paper does not say is unknown."
    if job.from_paper:
        return f"Taken from paper, {job.from_paper}: what the paper does not say is unknown."
    reopened = reading.journal.entries(job=job.number, kind="reopened/1")
    if reopened and job.stage != "released":
        return f"Open again after its release: {reopened[-1].facts['reason']}"
    others = [row for row in reading.jobs.of_vehicle(job.vehicle_id) if row.number != job.number]
    open_ones = [str(row.number) for row in others if row.stage != "released"]
    if open_ones:
        return f"Job {' and '.join(open_ones)} of this vehicle is open too."
    return _fitted_before(reading, [row for row in others if row.number < job.number], today)


def _fitted_before(reading: Book, earlier: Sequence[JobRow], today: date) -> str:
    for row in earlier:
        parts = [p for p in reading.pieces.of_job(row.number) if p.kind == "part" and p.state == "fitted"]
        if parts:
            corner = parts[0].serves.partition("@")[2]
            ago = _months(date.fromisoformat(parts[0].issued_at[:10]), today)
            fitted = f"{parts[0].title} {corner}".strip()
            return f"{fitted} was fitted here {ago}, job {row.number}: keep the part that comes off."
    return f"Was here before, job {earlier[0].number}." if earlier else ""


def _months(then: date, today: date) -> str:
    months = (today.year - then.year) * 12 + today.month - then.month - (today.day < then.day)
    days = (today - then).days
    recently = {0: "today", 1: "yesterday"}.get(days, f"{days} days ago")
    return f"{months} months ago" if months > 1 else recently
