"""The left page: identity, the cry that saves money, heights, how it stands."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from jobbook.core.errors import Refused
from jobbook.core.jobs import Job, JobRow, Permission
from jobbook.core.quantities import read_quantity
from jobbook.core.specifications import Specification
from jobbook.core.vehicles import Odometer, Vehicle
from jobbook.core.work.model import CORNERS, Act
from jobbook.core.work.words import WORK_WORDS
from jobbook.db.store import Book
from jobbook.services.readings import read_when
from jobbook.services.replay import Kept
from jobbook.services.sheets import Fact, Staff

HEIGHTS_FROM = "hub centre to arch edge, mm"
LIMITING = ("diagnosis", "dismantle", "repair", "extra")


def facts(
    job: Job, vehicle: Vehicle, odometers: Sequence[Odometer], permissions: Sequence[Permission]
) -> tuple[Fact, ...]:
    allowed = next((p for p in reversed(permissions) if p.scope in LIMITING and p.total), None)
    money = f"allowed {allowed.total} {allowed.currency}".strip() if allowed else "nothing allowed yet"
    came, left = (_odometer(read_when(odometers, what)) for what in ("in", "out"))
    return (
        Fact("VIN", vehicle.vin or "not known", strong=True),
        Fact("Odometer", f"{came} in", f"· out {left}"),
        Fact("Promised", job.promised or "no promise", f"· {money}"),
        Fact("Variant", vehicle.variant or "not known: no figures for it"),
    )


def _odometer(reading: Odometer | None) -> str:
    return f"{reading.value:,} {reading.unit}".replace(",", "\u202f") if reading else "not read yet"


def cry(reading: Book, job: Job, today: date) -> str:
    """What the person at the vehicle must know now: this job was released already, another one is open, or a part was
    fitted here before."""
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


@dataclass(frozen=True)
class Read:
    """One reading of the heights: by corner in mm, the act and when it counts from."""

    heights: dict[str, str]
    act: Act
    entry: int


def height_readings(kept: Sequence[Kept]) -> tuple[Read, ...]:
    """Every reading of the heights that counts, in order."""
    return tuple(
        Read({name: value for name, value in k.act.readings if name in CORNERS}, k.act, k.entry.number)
        for k in kept
        if k.act.do == "measure" and k.act.what == "heights" and k.act.answer == "done"
    )


def before_and_after(kept: Sequence[Kept]) -> tuple[Read | None, Read | None]:
    """The last reading before anything was lifted, vented or undone, and the last one after that."""
    read = height_readings(kept)
    begun = next((k.entry.number for k in kept if _begins_work(k.act)), None)
    before = [one for one in read if begun is None or one.entry < begun]
    after = [one for one in read if one not in before]
    return (before[-1] if before else None), (after[-1] if after else None)


def _begins_work(act: Act) -> bool:
    return act.do in ("vent", *WORK_WORDS) or (act.what == "support" and act.to in ("lift", "propped"))


def staffs(kept: Sequence[Kept], specifications: Sequence[Specification]) -> tuple[Staff, ...]:
    before, after = before_and_after(kept)
    limits = {spec.key: spec for spec in specifications if spec.key.startswith("height ")}
    return tuple(
        Staff(
            corner,
            *height_limits(limits.get(f"height {corner}")),
            before.heights.get(corner, "") if before else "",
            after.heights.get(corner, "") if after else "",
        )
        for corner in CORNERS
    )


def height_limits(spec: Specification | None) -> tuple[str, str, str]:
    """Lower limit, target and upper limit in mm as text; empty where they are not entered."""
    if spec is None:
        return "", "", ""
    target = read_quantity(spec.text, "length", default_unit="mm").to("mm")
    apart = tolerance_mm(spec.tolerance)
    if apart is None:
        return "", plain(target), ""
    return plain(target - apart), plain(target), plain(target + apart)


def tolerance_mm(text: str) -> Decimal | None:
    """A tolerance such as "± 10 mm" in mm, or None where there is none that can be read."""
    try:
        return read_quantity(text.lstrip("±+-/ "), "length", default_unit="mm").to("mm") if text else None
    except Refused:
        return None


def plain(value: Decimal) -> str:
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
