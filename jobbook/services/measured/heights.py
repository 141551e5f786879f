"""Heights at work: what was typed is kept, the mean is judged against the sourced figure, and each reading has its
place in the job: before the work, as left, after calibration."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from jobbook.core.errors import Refused
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.measured.heights import Difference, Judged, Sure, differences, height_of, judge, kept_text, settled
from jobbook.core.measured.practice import practice_of
from jobbook.core.people import Shop
from jobbook.core.quantities import read_quantity
from jobbook.core.tools import Tool
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.work.model import Act, ToolUse
from jobbook.core.work.words import WORK_WORDS
from jobbook.services.job.replay import Kept

POINTS = "hub centre to arch edge"
TYPED = "typed "
CONDITIONS: Mapping[str, str] = {
    "temperature": "air temperature", "load": "load", "fuel": "fuel", "tyres": "tyres", "mode": "ride mode",
    "points": "measured between", "stood": "read",
}  # fmt: skip
AS_IT_STOOD, LEVELLED = "as it stood", "when it had levelled itself"  # what the condition `stood` says
BEFORE, AS_LEFT, UNCALIBRATED, CALIBRATED = "before the work", "as left", "before calibration", "after calibration"


def pairs_of(corner: str, typed: str, unit: str = "mm") -> tuple[tuple[str, str], ...]:
    """The readings of an act for what was typed at a corner: the mean in mm, and the typed text where it says more.

    Refused: what cannot be read, and what no road vehicle can stand at.
    """
    mean = kept_text(height_of(corner, typed, Sure(Decimal(0)), unit).mean_mm)
    told = settled(typed, unit)
    return ((corner, mean),) if told == mean else ((corner, mean), (TYPED + corner, told))


@dataclass(frozen=True)
class HeightReading:
    """One reading of the heights: when, by whom, with what, at which place of the job, and what is said of it."""

    entry: int
    act: Act
    phase: str
    judged: Mapping[str, Judged]
    specifications: Mapping[str, Specification]
    differences: tuple[Difference, ...]

    @property
    def means(self) -> dict[str, Decimal]:
        return {corner: one.height.mean_mm for corner, one in self.judged.items()}

    @property
    def conditions(self) -> tuple[tuple[str, str], ...]:
        """What was recorded of the conditions, each with its label."""
        told = dict(self.act.readings)
        return tuple((label, told[name]) for name, label in CONDITIONS.items() if told.get(name))

    @property
    def levelled(self) -> bool:
        """Whether it was read after the vehicle had levelled itself; where nobody said, it was not."""
        return dict(self.act.readings).get("stood") == LEVELLED


@dataclass(frozen=True)
class Surroundings:
    """What readings are judged with: figures of the variant, tools of the crib, the shop's rules."""

    specifications: Sequence[Specification]
    tools: Sequence[Tool]
    shop: Shop


def height_readings(kept: Sequence[Kept], around: Surroundings) -> tuple[HeightReading, ...]:
    """Every reading of the heights that counts, in order, each judged."""
    return tuple(
        _judged(one, _phase(kept, place), around)
        for place, one in enumerate(kept)
        if one.act.do == "measure" and one.act.what == "heights" and one.act.answer == "done"
    )


def _judged(one: Kept, phase: str, around: Surroundings) -> HeightReading:
    limits = {spec.key.removeprefix("height "): spec for spec in around.specifications if spec.key[:7] == "height "}
    practice = practice_of(around.shop.practice)
    sure = sure_of(around.tools, one.act.how, practice.single_mm)
    told = dict(one.act.readings)
    judged = {}
    for corner in (corner for corner in CORNERS if told.get(corner)):
        height = height_of(corner, told.get(TYPED + corner) or told[corner], sure)
        lower, _, upper = limits_mm(limits.get(corner))
        judged[corner] = judge(height, lower, upper)
    means = {corner: one_judged.height.mean_mm for corner, one_judged in judged.items()}
    apart = differences(means, practice.side_ask_mm, practice.side_defect_mm)
    sourced = {corner: limits[corner] for corner in judged if corner in limits}
    return HeightReading(one.entry.number, one.act, phase, judged, sourced, apart)


def sure_of(tools: Sequence[Tool], instrument: str, single_mm: Decimal) -> Sure:
    """How sure a reading with this instrument is, as far as its card says."""
    card = next((tool for tool in tools if tool.number == instrument), None)
    if card is None:
        return Sure(single_mm)
    return Sure(single_mm, _length(card.resolution, card.unit), _length(card.uncertainty, card.unit))


def rule_used(number: str, tools: Sequence[Tool]) -> ToolUse | None:
    """The rule as its card says now, so that a later calibration does not change what was read before it."""
    card = next((tool for tool in tools if tool.number == number), None)
    return ToolUse(card.number, card.kind, card.range_text, card.calibrated_on, card.certificate) if card else None


def _length(text: str, unit: str) -> Decimal | None:
    """A figure of a tool's card in mm; None where there is none, or the card is not in a unit of length."""
    try:
        return read_quantity(f"{text} {unit}", "length").to("mm") if text else None
    except Refused:
        return None


def _phase(kept: Sequence[Kept], place: int) -> str:
    """Where in the job the reading at this place stands."""
    if not any(begins_work(k.act) for k in kept[:place]):
        return BEFORE
    calibrations = [n for n, k in enumerate(kept) if (k.act.do, k.act.what) == ("calibrate", "heights")]
    if not calibrations:
        return AS_LEFT
    return CALIBRATED if place > calibrations[-1] else UNCALIBRATED


def begins_work(act: Act) -> bool:
    return act.do in ("vent", *WORK_WORDS) or (act.what == "support" and act.to in ("lift", "propped"))


def before_and_after(read: Sequence[HeightReading]) -> tuple[HeightReading | None, HeightReading | None]:
    """The last reading before anything was lifted, vented or undone, and the last one after that. Before, what it stood
    at by itself goes before what it levelled itself to."""
    before = sorted((one for one in read if one.phase == BEFORE), key=lambda one: not one.levelled)
    after = [one for one in read if one.phase != BEFORE]
    return (before[-1] if before else None), (after[-1] if after else None)


def limits_mm(spec: Specification | None) -> tuple[Decimal | None, Decimal | None, Decimal | None]:
    """Lower limit, target and upper limit in mm; None where they are not entered."""
    if spec is None:
        return None, None, None
    target = read_quantity(spec.text, "length", default_unit="mm").to("mm")
    apart = tolerance_mm(spec.tolerance)
    return (None, target, None) if apart is None else (target - apart, target, target + apart)


def tolerance_mm(text: str) -> Decimal | None:
    """A tolerance such as "± 10 mm" in mm, or None where there is none that can be read."""
    try:
        return read_quantity(text.lstrip("±+-/ "), "length", default_unit="mm").to("mm") if text else None
    except Refused:
        return None
