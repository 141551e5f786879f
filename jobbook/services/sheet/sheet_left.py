"""The left page: identity, odometer, promise, money and variant."""

from collections.abc import Sequence
from datetime import date

from jobbook.core.days import spoken
from jobbook.core.jobs import Job
from jobbook.core.vehicle.vehicles import Odometer, Vehicle
from jobbook.core.written import thousands
from jobbook.services.measured.readings import read_when
from jobbook.services.sheet.sheets import Fact


def facts(job: Job, vehicle: Vehicle, odometers: Sequence[Odometer], money: str, today: date) -> tuple[Fact, ...]:
    """`money` says what was allowed and what was used so far."""
    came, left = (_odometer(read_when(odometers, what)) for what in ("in", "out"))
    return (
        Fact("VIN", vehicle.vin or "not known", strong=True),
        Fact("Odometer", f"{came} in", f"· out {left}"),
        Fact("Promised", spoken(job.promised, today) if job.promised else "no promise"),
        Fact("Allowed", money),
        Fact("Variant", vehicle.variant or "not known: no figures for it"),
    )


def _odometer(reading: Odometer | None) -> str:
    return f"{thousands(reading.value)} {reading.unit}" if reading else "not read yet"
