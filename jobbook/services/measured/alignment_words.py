"""Wheel geometry in words and rows, for the job page and for papers."""

from collections.abc import Mapping, Sequence

from jobbook.core.drawing import GeometryRow, Wheel
from jobbook.core.measured.alignment import (
    ANGLES,
    FOLLOWS,
    OF_NAME,
    Measured,
    angle_text,
    degrees_of,
    in_minutes,
    title_of,
)
from jobbook.core.measured.alignment_limits import JudgedAngle, Limits, key_of
from jobbook.core.quantities import Quantity
from jobbook.core.vehicle.specifications import Specification
from jobbook.services.measured.alignment import GeometryReading, limits_of

AXLES = (("front", ("FL", "FR")), ("rear", ("RL", "RR")))


def rows(
    found: GeometryReading | None, left: GeometryReading | None, specifications: Sequence[Specification]
) -> tuple[GeometryRow, ...]:
    """A row for every angle of an axle that was read before or after, and for what follows where it matters."""
    sources = {spec.key: spec for spec in specifications}
    both = {**(found.measured if found else {}), **(left.measured if left else {})}
    minutes = in_minutes(both)
    made = [_row(names, title, found, left, sources, minutes) for title, names in _shown(both, sources)]
    return tuple(made)


def _shown(both: Mapping[str, Measured], sources: Mapping[str, Specification]) -> list[tuple[str, tuple[str, ...]]]:
    """Titles and figures of the rows in order: wheel by wheel of an axle, then totals, thrust, limited cross values."""
    wheels = [
        (f"{angle.title.replace('Steering-axis i', 'I')}, {axle}", tuple(f"{angle.key} {wheel}" for wheel in corners))
        for angle in ANGLES
        for axle, corners in AXLES
        if any(f"{angle.key} {wheel}" in both for wheel in corners)
    ]
    whole = [name for name in FOLLOWS if name in both and (not name.startswith("cross") or key_of(name) in sources)]
    return [*wheels, *((_short(title_of(name)), (name,)) for name in whole)]


def _short(title: str) -> str:
    return title.replace(", left less right", ", L − R")


def _row(
    names: tuple[str, ...],
    title: str,
    found: GeometryReading | None,
    left: GeometryReading | None,
    sources: Mapping[str, Specification],
    minutes: bool,
) -> GeometryRow:
    limits = limits_of(sources.get(key_of(names[0])))
    lower, upper = (_degrees(names[0], end, limits) for end in (limits.lower, limits.upper)) if limits else (None, None)
    said = limits_words(limits, minutes) if limits else "no limits known"
    return GeometryRow(title, tuple(_wheel(name, found, left, minutes) for name in names), said, lower, upper)


def _degrees(name: str, end: Quantity | None, limits: Limits) -> float | None:
    return float(degrees_of(name, end, limits.across)) if end is not None else None


def _wheel(name: str, found: GeometryReading | None, left: GeometryReading | None, minutes: bool) -> Wheel:
    before, after = ((reading.judged.get(name) if reading else None) for reading in (found, left))
    newest = after or before
    degrees = [float(one.measured.degrees) if one else None for one in (before, after)]
    words = [_figure(one, minutes) if one else "" for one in (before, after)]
    wheel = name.rpartition(" ")[2] if name in OF_NAME and " " in name else ""
    return Wheel(wheel, degrees[0], degrees[1], words[0], words[1], newest.verdict if newest else "")


def _figure(one: JudgedAngle, minutes: bool) -> str:
    return angle_text(one.measured.value, minutes, exact=not one.measured.follows)


def limits_words(limits: Limits, minutes: bool) -> str:
    """“−1°15′ to −0°15′”; a figure without tolerance is a target and no limit."""
    at = f" at {limits.across.text()}" if limits.across is not None else ""
    if limits.lower is None or limits.upper is None:
        return f"target {angle_text(limits.target, minutes)}{at}, no limits"
    return f"{angle_text(limits.lower, minutes)} to {angle_text(limits.upper, minutes)}{at}"


def angles_words(reading: GeometryReading) -> str:
    """Every figure that was read, as it was typed: “Camber FL −0°45′, FR −0°40′ · Toe …”."""
    told, across = dict(reading.act.readings), reading.act.readings
    parts = []
    for angle in ANGLES:
        read = [f"{name[len(angle.key) :]} {told[name]}".strip() for name in angle.names if told.get(name)]
        parts += [f"{angle.title} {', '.join(read)}"] if read else []
    at = dict(across).get("toe diameter", "")
    return " · ".join(parts) + (f" at {at}" if at else "")


def judged_angles(reading: GeometryReading, whole: bool = True) -> str:
    """Every figure that has limits against them; where not `whole`, only those that are not sure to conform."""
    minutes = in_minutes(reading.measured)
    told = [(name, one) for name, one in reading.judged.items() if one.verdict]
    said = [judged_angle(name, one, minutes) for name, one in told if whole or one.verdict != "conform"]
    if not told:
        return "not judged: no limits from a document are known for this variant"
    return "; ".join(said) or "every figure that has limits conforms"


def judged_angle(name: str, one: JudgedAngle, minutes: bool) -> str:
    """“Camber FL −0°45′ in −1°15′ to −0°15′: conform”, with the guard band where the instrument gives one."""
    sure = f" ± {angle_text(one.expanded, minutes).lstrip('+')}" if one.expanded is not None else ""
    limits = limits_words(one.limits, minutes) if one.limits else ""
    return f"{title_of(name)} {_figure(one, minutes)}{sure} in {limits}: {one.verdict}"


def following_words(reading: GeometryReading) -> str:
    """Left against right where no limit is known for it: what has one is judged, and totals are drawn."""
    minutes = in_minutes(reading.measured)
    rest = [(n, one) for n, one in reading.judged.items() if n.startswith("cross") and not one.verdict]
    return "; ".join(f"{title_of(name)} {_figure(one, minutes)}" for name, one in rest)


def verdict_of(reading: GeometryReading) -> str:
    """The worst that is said of any figure; empty where none has limits."""
    said = {one.verdict for one in reading.judged.values()}
    return next((word for word in ("not conform", "undecided", "conform") if word in said), "")
