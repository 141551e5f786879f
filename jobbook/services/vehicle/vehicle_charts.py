"""Heights and parked loss of a vehicle over the years, drawn corner by corner."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from itertools import groupby
from typing import Any

from jobbook.core.days import day_of, in_time
from jobbook.core.drawing import Drawing
from jobbook.core.drawing.visits import Panel, VisitPoint, over_visits
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.measured.heights import shown
from jobbook.core.measured.practice import practice_of
from jobbook.core.measured.stand_judging import Judged
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.vehicle.vehicles import Vehicle
from jobbook.db.store import Book
from jobbook.services.measured.heights import limits_mm
from jobbook.services.measured.stand_records import BEGUN, ENDED, judged_stands, stands_from

SHOW_NOTHING = ("void", "too short", "woken")
TWELVE_H = 12


@dataclass(frozen=True)
class Drawn:
    """A drawing with what stands under it: where limits come from, and what was left out. None: nothing to draw."""

    drawing: Drawing | None
    note: str
    visits: int = 0  # at how many there was something to draw


def heights_drawn(reading: Book, vehicle: Vehicle, since: int = 0) -> Drawn:
    """The heights of the four corners over the visits, each visit with its first and its last reading; `since` is the
    first job of them."""
    rows = [row for row in reading.history.heights(vehicle.id) if row["job"] >= since]
    visits = [list(of_job) for _, of_job in groupby(sorted(rows, key=_by_job), key=lambda row: row["job"])]
    visits.sort(key=lambda visit: in_time(str(visit[0]["at"])))
    if not visits:
        return Drawn(None, "No heights were read yet. They are drawn here from the first visit on.")
    specs = {spec.key: spec for spec in reading.specifications.for_variant(vehicle.variant)} if vehicle.variant else {}
    panels = [_height_panel(corner, visits, specs.get(f"height {corner}")) for corner in CORNERS]
    drawing = over_visits(panels, "mm", "Heights over the visits")
    sources = [specs[key] for key in specs if key.startswith("height ")]
    return Drawn(drawing, _limits_note(sources), len(visits))


def _by_job(row: Mapping[str, Any]) -> tuple[int, int]:
    return row["job"], row["entry"]


def _height_panel(corner: str, visits: Sequence[Sequence[Mapping[str, Any]]], spec: Specification | None) -> Panel:
    points = []
    for visit in visits:
        read = [(row["at"], height) for row in visit if (height := _height(row["plain"], corner)) is not None]
        if read:
            last = read[-1][1] if len(read) > 1 else None
            points.append(VisitPoint(day_of(read[0][0]), read[0][1], last))
    lower, _, upper = limits_mm(spec)
    return Panel(corner, tuple(points), lower, upper)


def _height(act: Mapping[str, Any], corner: str) -> Decimal | None:
    """The mean at a corner, or None where it was not read, was not possible, or was declined."""
    if act.get("answer", "done") != "done":
        return None
    told = dict(tuple(pair) for pair in act.get("readings", ()))
    try:
        return Decimal(told[corner]) if corner in told else None
    except InvalidOperation:
        return None


def _limits_note(specs: Sequence[Specification]) -> str:
    sources = sorted({f"{spec.document}, edition {spec.edition}" for spec in specs})
    how = "Ring: as it came. Disc: as it left, where it was read again."
    if not sources:
        return f"{how} No limits are entered for this variant."
    return f"{how} Hatched: within the limits of {' and '.join(sources)}."


def losses_drawn(reading: Book, vehicle: Vehicle, since: int = 0) -> Drawn:
    """What each corner lost beyond the others in stands, brought to twelve hours; `since` is the first job of them."""
    judged, total = _stands(reading, vehicle, since)
    if not total:
        return Drawn(None, "No leak-down stand was made yet. What was lost in each is drawn here.")
    limits = practice_of(reading.shop().practice).stand
    normal, leak = (Decimal(one.numerator) / one.denominator for one in (limits.normal_mm, limits.leak_mm))
    panels = [
        Panel(corner, tuple(_loss(one, corner) for one in judged), Decimal(0), normal, leak) for corner in CORNERS
    ]
    about = "Lost beyond the other corners in 12 h of standing"
    left_out = total - len(judged)
    out = f" {left_out} left out: void, too short, woken, given up or still running." if left_out else ""
    note = (
        f"{about}; a corner that lost less than the others lies below nought. Hatched: up to {shown(normal)} mm is "
        f"normal by the shop's rule; dashed: a leak above {shown(leak)} mm.{out}"
    )
    return Drawn(over_visits(panels, "mm in 12 h", about, level=True) if judged else None, note, len(judged))


def _stands(reading: Book, vehicle: Vehicle, since: int) -> tuple[list[Judged], int]:
    """The stands that show something, and how many there were."""
    entries = [entry for entry in reading.history.entries(vehicle.id, BEGUN, ENDED) if (entry.job or 0) >= since]
    shop = reading.shop()
    found: list[Judged] = []
    total = 0
    for job, of_job in groupby(sorted(entries, key=lambda entry: entry.job or 0), key=lambda entry: entry.job or 0):
        stands = stands_from(list(of_job))
        total += len(stands)
        found += _showing(judged_stands(stands, reading.fault_codes(job), shop))
    return sorted(found, key=lambda one: in_time(one.stand.begun.at)), total


def _showing(judged: Iterable[Judged]) -> list[Judged]:
    return [one for one in judged if one.verdict not in SHOW_NOTHING and one.hours > 0]


def _loss(one: Judged, corner: str) -> VisitPoint:
    loss = one.shows.relative_drop_mm[corner] * TWELVE_H / one.hours
    return VisitPoint(day_of(one.stand.begun.at), Decimal(round(loss * 10)) / 10)
