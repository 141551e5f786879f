"""Heights in words and staffs, for the job page and for papers."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.measured.heights import Difference, Judged, shown
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.work.model import Act
from jobbook.core.written import day
from jobbook.services.measured.heights import POINTS, HeightReading, Surroundings, before_and_after, limits_mm
from jobbook.services.sheet.sheets import Staff


def heights_from(unit: str) -> str:
    """Reference point and unit, as the heights are headed."""
    return f"{POINTS}, {unit}"


def staffs(read: Sequence[HeightReading], around: Surroundings) -> tuple[Staff, ...]:
    """The staffs of the four corners, the newest reading judged."""
    before, after = before_and_after(read)
    specs = {spec.key: spec for spec in around.specifications}
    unit = around.shop.height_unit
    return tuple(_staff(corner, specs.get(f"height {corner}"), before, after, unit) for corner in CORNERS)


def _staff(
    corner: str, spec: Specification | None, before: HeightReading | None, after: HeightReading | None, unit: str
) -> Staff:
    newest = next((one.judged[corner] for one in (after, before) if one and corner in one.judged), None)
    lower, target, upper = (plain(end) if end is not None else "" for end in limits_mm(spec))
    judged = newest is not None and bool(newest.verdict)
    guard = plain(tenth(newest.height.expanded_mm)) if newest is not None and judged else ""
    verdict = newest.verdict if newest is not None else ""
    return Staff(corner, lower, target, upper, _mean(before, corner), _mean(after, corner), guard, verdict, unit)


def _mean(read: HeightReading | None, corner: str) -> str:
    return plain(tenth(read.judged[corner].height.mean_mm)) if read is not None and corner in read.judged else ""


def tenth(value: Decimal) -> Decimal:
    return value.quantize(Decimal("0.1"))


def plain(value: Decimal) -> str:
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def judged_words(one: Judged, unit: str = "mm") -> str:
    """“FL 401.3 ± 0.9 mm in 392 to 412: conform”. Without limits the reading stays plain.

    What stands behind ± is the guard band inside each limit, or outside it."""
    height = one.height
    if not one.verdict or one.lower_mm is None or one.upper_mm is None:
        sure = f" ± {shown(height.expanded_mm, unit)}" if height.repeated else ""
        return f"{height.corner} {shown(height.mean_mm, unit)}{sure} {unit}"
    sure = shown(height.expanded_mm, unit)
    ends = " to ".join(shown(end, unit) for end in (one.lower_mm, one.upper_mm))
    return f"{height.corner} {shown(height.mean_mm, unit)} ± {sure} {unit} in {ends}: {one.verdict}"


def difference_words(one: Difference, unit: str = "mm") -> str:
    said = f"{one.what} {shown(one.mm, unit, signed=True)} {unit}"
    return f"{said}: {one.word}" if one.word else said


def instrument_words(act: Act) -> str:
    """What was measured with, and how it stood then."""
    tool = act.tool
    if tool is None:
        return act.how or "instrument not recorded"
    known = (
        f"calibrated {written_day(tool.calibrated_on)}" if tool.calibrated_on else "calibration not recorded",
        tool.certificate,
    )
    return f"{tool.number} ({', '.join(filter(None, known))})"


def written_day(iso: str) -> str:
    """A day as people write it: 14 Mar 2026."""
    return day(date.fromisoformat(iso))
