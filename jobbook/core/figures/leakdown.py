"""A leak-down stand: what each corner lost, what temperature alone would do, and what may be concluded."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity

CORNERS = ("FL", "FR", "RL", "RR")

ALL_DOWN = "All four went down: switch levelling off and repeat, since some lower the rest too."

GRADES = {
    "at once": "a leak that is heard or seen at once.",
    "plain": "a leak beyond argument.",
    "leak": "a leak.",
    "repeat": "repeat the stand.",
}

Heights = Mapping[str, Quantity]
ByCorner = dict[str, Fraction]


@dataclass(frozen=True)
class StandLimits:
    """When a stand is questioned and what counts as a leak. Common practice, and a setting of each shop."""

    shortest_h: Fraction = Fraction(1)
    longest_h: Fraction = Fraction(72)
    apart_k: Fraction = Fraction(10)  # temperatures further apart than this
    band_mm_k: tuple[Fraction, Fraction] = (Fraction(1, 2), Fraction(7, 10))  # a spring of usual volume and area
    counted_h: Fraction = Fraction(12)  # the stand that the following three are said of
    normal_mm: Fraction = Fraction(5)
    leak_mm: Fraction = Fraction(10)
    plain_mm: Fraction = Fraction(20)
    at_once_mm_h: Fraction = Fraction(10)
    read_to_mm: Fraction = Fraction(1)


USUAL = StandLimits()


@dataclass(frozen=True)
class LeakDown:
    """What a stand shows: by corner the drop, the drop beyond the average of the others, and the drop per hour.

    `grades` has the corners that stand out: repeat, leak, plain or at once. `risen` are those that stand higher."""

    drop_mm: ByCorner
    relative_drop_mm: ByCorner
    per_hour_mm: ByCorner
    findings: tuple[str, ...]
    grades: dict[str, str]
    risen: tuple[str, ...]
    all_down: bool


@dataclass(frozen=True)
class Stand:
    """The figures that a stand is judged by: hours, change of temperature in K where it is known, drops."""

    hours: Fraction
    warmer: Fraction | None
    drop: ByCorner
    relative: ByCorner


def leak_down(
    before: Heights,
    after: Heights,
    hours: Quantity,
    start_temperature: Quantity | None = None,
    end_temperature: Quantity | None = None,
    limits: StandLimits = USUAL,
) -> LeakDown:
    """Return what a stand shows. A drop is before − after; the relative drop takes off the mean of the other three.

    before, after four heights by corner [mm]; hours between them [h]; start_temperature, end_temperature of the air
    [degC], both or neither. Range: engine off, levelling asleep, same floor and load. Errors: one temperature alone.
    Source: common practice for the
    limits; what temperature does follows from the ideal gas at constant pressure.
    """
    drop = {corner: before[corner].in_unit("mm") - after[corner].in_unit("mm") for corner in CORNERS}
    total = sum(drop.values(), Fraction(0))
    relative = {corner: lost - (total - lost) / 3 for corner, lost in drop.items()}
    stand = Stand(hours.in_unit("h"), _warmer(start_temperature, end_temperature), drop, relative)
    per_hour = {corner: lost / stand.hours for corner, lost in drop.items()}
    grades, risen = _grades(stand, limits), _risen(stand, limits)
    findings = stand_findings(stand, limits)
    return LeakDown(drop, relative, per_hour, findings, grades, risen, _all_down(stand, limits))


def _warmer(start: Quantity | None, end: Quantity | None) -> Fraction | None:
    if start is None and end is None:
        return None
    if start is None or end is None:
        key = "start_temperature" if start is None else "end_temperature"
        raise unfit(key, "it is missing beside the other temperature", "give both or neither")
    return end.in_unit("degC") - start.in_unit("degC")


def stand_findings(stand: Stand, limits: StandLimits) -> tuple[str, ...]:
    """Return what is to be said of a stand: what it is too short or too different for first, then what it shows."""
    graded = (_graded(corner, grade, stand) for corner, grade in _grades(stand, limits).items())
    return (*_doubts(stand, limits), *_temperature(stand, limits), *graded)


def _doubts(stand: Stand, limits: StandLimits) -> list[str]:
    risen = _risen(stand, limits)
    doubts = (
        (stand.hours < limits.shortest_h, f"Under {limits.shortest_h} h is too short to conclude from."),
        (stand.hours > limits.longest_h, f"Over {limits.longest_h} h: many systems lose height over such a time."),
        (bool(risen), f"Higher than before: {', '.join(risen)}; the levelling woke, or a reading is wrong."),
        (_all_down(stand, limits), ALL_DOWN),
    )
    return [sentence for holds, sentence in doubts if holds]


def _temperature(stand: Stand, limits: StandLimits) -> list[str]:
    if stand.warmer is None:
        return ["Without both temperatures an even drop proves nothing."]
    if not stand.warmer:
        return []
    low, high = (abs(stand.warmer) * share for share in limits.band_mm_k)
    way = "sink" if stand.warmer < 0 else "rise"
    band = f"{float(low):.1f} mm" if low == high else f"{float(low):.1f} to {float(high):.1f} mm"
    found = [f"Temperature alone lets every corner {way} by about {band}."]
    if abs(stand.warmer) > limits.apart_k:
        found.append(f"The temperatures lie more than {limits.apart_k} °C apart: no leak rate follows from this stand.")
    return found


def _explained(stand: Stand, limits: StandLimits) -> Fraction:
    """Return how many mm temperature moves a corner at most; nothing where it is not known."""
    return abs(stand.warmer or Fraction(0)) * limits.band_mm_k[1]


def _counted(lost: Fraction, stand: Stand, limits: StandLimits) -> Fraction:
    """Return a loss as it would be over the stand that the limits are said of. A shorter stand is not stretched."""
    return lost * limits.counted_h / max(stand.hours, limits.counted_h)


def _all_down(stand: Stand, limits: StandLimits) -> bool:
    least = min(stand.drop.values()) - (_explained(stand, limits) if (stand.warmer or 0) < 0 else 0)
    return _counted(least, stand, limits) > limits.normal_mm


def _risen(stand: Stand, limits: StandLimits) -> tuple[str, ...]:
    return tuple(c for c, lost in stand.drop.items() if -lost > limits.read_to_mm + _explained(stand, limits))


def _grades(stand: Stand, limits: StandLimits) -> dict[str, str]:
    """Return the corners that lost more than the others than is normal, graded; none where the stand was too short."""
    if stand.hours < limits.shortest_h:
        return {}
    graded = ((corner, _grade(stand.relative[corner], stand, limits)) for corner in CORNERS)
    return {corner: grade for corner, grade in graded if grade}


def _grade(lost: Fraction, stand: Stand, limits: StandLimits) -> str:
    counted = _counted(lost, stand, limits)
    table = (
        ("", counted <= limits.normal_mm),
        ("at once", lost / stand.hours > limits.at_once_mm_h),
        ("plain", counted > limits.plain_mm),
        ("leak", counted > limits.leak_mm),
    )
    return next((grade for grade, holds in table if holds), "repeat")


def _graded(corner: str, grade: str, stand: Stand) -> str:
    lost = float(stand.relative[corner])
    return f"{corner} lost {lost:.1f} mm more than the average of the others: {GRADES[grade]}"
