"""Wheel geometry at work: what was read before and after setting, judged against sourced limits, with the ride heights
that it was taken at and what speaks against trusting it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.measured.alignment import OF_NAME, Measured, read_geometry, turned_sign
from jobbook.core.measured.alignment_limits import JudgedAngle, Limits, judge_angle, key_of, read_limits
from jobbook.core.measured.heights import shown
from jobbook.core.people import Person
from jobbook.core.quantities import Quantity, read_quantity
from jobbook.core.tools import Tool
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.work.model import Act
from jobbook.services import work
from jobbook.services.job.replay import Kept
from jobbook.services.measured.alignment_answers import OUTSIDE, is_about_geometry
from jobbook.services.measured.heights import (
    CALIBRATED,
    CONDITIONS,
    HeightReading,
    Surroundings,
    height_readings,
)
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Choice

FOUND, SET, ELSEWHERE, CHECKED = "before setting", "as set", "as set elsewhere", "measured after setting"
WORK: Mapping[str, Act] = {"set": Act("align"), "measure": Act("measure", what="geometry")}


@dataclass(frozen=True)
class GeometryReading:
    """One reading of the geometry: when in the job, each figure judged, the heights it was taken at, and what speaks
    against trusting it."""

    entry: int
    act: Act
    phase: str
    judged: Mapping[str, JudgedAngle]
    sources: Mapping[str, Specification]
    heights: HeightReading | None = None
    cries: tuple[str, ...] = ()

    @property
    def measured(self) -> dict[str, Measured]:
        return {name: one.measured for name, one in self.judged.items()}

    @property
    def conditions(self) -> tuple[tuple[str, str], ...]:
        """What was recorded of the conditions and of another shop's work, each with its label."""
        told = dict(self.act.readings)
        labels = [(name, label) for name, label in CONDITIONS.items()] + [(one, one) for one in OUTSIDE.values()]
        return tuple((label, told[name]) for name, label in labels if told.get(name))


@dataclass(frozen=True)
class Answered:
    """An answer in place of a reading: declined, not possible, not applicable, sublet without figures."""

    entry: int
    act: Act


def geometry_answers(kept: Sequence[Kept]) -> tuple[Answered, ...]:
    """What was said of the geometry without figures, in order: why not, or where the sheet lies."""
    return tuple(
        Answered(one.entry.number, one.act) for one in kept if is_about_geometry(one.act) and not _has_angles(one.act)
    )


def _has_angles(act: Act) -> bool:
    return any(name in OF_NAME for name, _ in act.readings)


def geometry_readings(kept: Sequence[Kept], around: Surroundings) -> tuple[GeometryReading, ...]:
    """Every reading of the geometry that counts, in order, each judged."""
    heights = height_readings(kept, around)
    places = [n for n, one in enumerate(kept) if is_about_geometry(one.act) and _has_angles(one.act)]
    return tuple(_read(kept, place, heights, around) for place in places)


def _read(kept: Sequence[Kept], place: int, heights: Sequence[HeightReading], around: Surroundings) -> GeometryReading:
    one = kept[place]
    earlier = {k.entry.number for k in kept[:place]}
    at = next((reading for reading in reversed(heights) if reading.entry in earlier), None)
    measured = read_geometry(dict(one.act.readings))
    sources = {spec.key: spec for spec in around.specifications}
    used = {name: sources[key_of(name)] for name in measured if key_of(name) in sources}
    doubt = doubt_of(around.tools, one.act.how)
    judged = {name: judge_angle(m, limits_of(used.get(name)), doubt) for name, m in measured.items()}
    since = [k for k in kept[:place] if at is not None and k.entry.number > at.entry]
    cries = (*_order(kept, place), *_heights(at, heights, since), *_signs(measured))
    return GeometryReading(one.entry.number, one.act, _phase(kept, place), judged, used, at, cries)


def _phase(kept: Sequence[Kept], place: int) -> str:
    act = kept[place].act
    if act.do == "align":
        return ELSEWHERE if act.answer == "sublet" else SET
    return CHECKED if any(k.act.do == "align" for k in kept[:place]) else FOUND


def limits_of(spec: Specification | None) -> Limits | None:
    """The limits of a figure as it was entered; None where there is none."""
    return read_limits(spec.key, spec.text, spec.tolerance) if spec is not None else None


def doubt_of(tools: Sequence[Tool], instrument: str) -> Quantity | None:
    """How far one reading with this instrument may be off (k = 2), where its card says so."""
    card = next((tool for tool in tools if tool.number == instrument and tool.uncertainty), None)
    if card is None:
        return None
    for kind in ("angle", "length"):
        try:
            return read_quantity(f"{card.uncertainty} {card.unit}", kind)
        except Refused:
            continue
    return None


def _order(kept: Sequence[Kept], place: int) -> tuple[str, ...]:
    """Geometry comes after the heights were calibrated: set before it, it counts for other heights."""
    later = any((k.act.do, k.act.what, k.act.answer) == ("calibrate", "heights", "done") for k in kept[place:])
    if not later:
        return ()
    return ("The heights were calibrated after this: geometry is read and set on the calibrated heights.",)


def _heights(at: HeightReading | None, heights: Sequence[HeightReading], since: Sequence[Kept]) -> tuple[str, ...]:
    """Camber and toe change with height on air: it is read first, and it must still be the same at the end."""
    if at is None:
        return ("No heights were read before it. Camber and toe change with the height: read the heights first.",)
    if any(_moves_it(one.act) for one in since):
        return ("Since the heights were read it was lifted, vented or filled. Read the heights right before it.",)
    last = heights[-1]
    calibrated = [one for one in heights if one.phase == CALIBRATED]
    moved = tuple(dict.fromkeys(_moved(at, last) + _moved(at, calibrated[0] if calibrated else at)))
    if not moved:
        return ()
    return (f"It was taken at other heights than those {last.phase}: {', '.join(moved)}. Measure the geometry again.",)


def _moves_it(act: Act) -> bool:
    """Whether the vehicle may stand otherwise after this."""
    return act.do in ("vent", "fill") or (act.what == "support" and act.to in ("lift", "propped"))


def _moved(one: HeightReading, other: HeightReading) -> tuple[str, ...]:
    """The corners that stand further apart in two readings than both readings may be off together."""
    told = []
    for corner in (c for c in one.judged if c in other.judged):
        first, second = one.judged[corner].height, other.judged[corner].height
        apart = second.mean_mm - first.mean_mm
        if abs(apart) > first.expanded_mm + second.expanded_mm:
            told.append(f"{corner} {shown(apart, signed=True)} mm")
    return tuple(told)


def _signs(measured: Mapping[str, Measured]) -> tuple[str, ...]:
    if not turned_sign(measured):
        return ()
    return (
        "The thrust angle points the other way than the rear toes say: look at the sign rule of the sheet. Here it is "
        "positive where the rear axle points to the right.",
    )


def before_and_after(read: Sequence[GeometryReading]) -> tuple[GeometryReading | None, GeometryReading | None]:
    """The last reading before the first setting, and the last of all after that."""
    found = [one for one in read if one.phase == FOUND]
    after = [one for one in read if one.phase != FOUND]
    return (found[-1] if found else None), (after[-1] if after else None)


def keep_geometry(book: OpenBook, who: Person, job: int, what: str, answers: Mapping[str, str]) -> work.Written:
    """Keep a reading of the geometry (`what`: measure) or its setting (set), as the step of a method would. The rules
    of the work judge it like any act."""
    choice = Choice("main", "Geometry", "", WORK[what], main=True)
    return work.keep(book, who, job, choice, answers, signer=who)


def excuse_geometry(book: OpenBook, who: Person, job: int, answers: Mapping[str, str]) -> work.Written:
    """Keep why the geometry was not set here: declined, not possible, not applicable, sublet; with its reason."""
    act = replace(WORK["set"], answer="not possible")
    return work.keep(book, who, job, Choice("not-done", "Not done", "", act), answers, signer=who)
