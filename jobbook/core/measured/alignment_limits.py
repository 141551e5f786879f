"""Limits of wheel geometry as a document gives them, and what may be said of a figure against them."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.doubt import decide
from jobbook.core.measured.alignment import ANGLES, FOLLOWS, Measured, degrees_of, read_angle
from jobbook.core.quantities import Quantity, read_quantity
from jobbook.core.quantities.typed import tidy

PREFIX = "geometry "
_AT = re.compile(r"(.+?)\s+(?:at|@)\s+(.+)")
_UNEVEN = re.compile(r"\+\s*([^+-]+?)\s*[/,;]?\s*-\s*(.+)")


def _keys() -> dict[str, str]:
    """Every figure that a limit can be given for: its key, and what people call it."""
    wheels = [angle for angle in ANGLES if angle.wheels[0]]
    both = {f"{a.key} {axle}": f"{a.title} {axle}, each wheel" for a in wheels for axle in _axles(len(a.wheels))}
    return {f"{PREFIX}{name}": title for name, title in (both | {n: row[0] for n, row in FOLLOWS.items()}).items()}


def _axles(wheels: int) -> tuple[str, ...]:
    return ("front", "rear") if wheels == 4 else ("front",)


KEYS = _keys()


def key_of(name: str) -> str:
    """The key of the limit that a figure is judged by: that of its axle, or its own."""
    key, _, wheel = name.partition(" ")
    axle = {"F": "front", "R": "rear"}.get(wheel[:1], "") if wheel in ("FL", "FR", "RL", "RR") else ""
    return f"{PREFIX}{key} {axle}" if axle else f"{PREFIX}{name}"


@dataclass(frozen=True)
class Limits:
    """Target and limits as angles, or for toe as distances `across` a diameter. Without tolerance there are none."""

    target: Quantity
    lower: Quantity | None = None
    upper: Quantity | None = None
    across: Quantity | None = None


def read_limits(key: str, text: str, tolerance: str = "") -> Limits:
    """Return the limits of a figure: “−0°45′” with “± 30′” or “+20′ −30′”; toe also “1.5 mm at 16 in”.

    Refused: a bare number, toe in mm without its diameter, a tolerance in another kind of unit.
    """
    tidied = tidy(text)
    apart = _AT.fullmatch(tidied)
    figure, diameter = (apart[1], apart[2]) if apart else (tidied, "")
    target = read_angle(figure, distance="toe" in key, bare=None)
    across = read_quantity(diameter, "length") if diameter else None
    if target.kind == "length" and across is None:
        raise Refused(
            "The figure was not kept: toe in mm means nothing without its diameter. Write it like 1.5 mm at 16 in."
        )
    if not tolerance.strip():
        return Limits(target, across=across)
    down, up = (_part(one, target) for one in _parts(tolerance))
    unit = target.unit
    lower, upper = (Quantity(target.kind, target.in_unit(unit) + by, unit) for by in (-down, up))
    return Limits(target, lower, upper, across)


def _parts(tolerance: str) -> tuple[str, str]:
    """How far down and how far up, as typed."""
    tidied = tidy(tolerance)
    uneven = _UNEVEN.fullmatch(tidied)
    even = tidied.lstrip("±+-/ ")
    return (uneven[2], uneven[1]) if uneven else (even, even)


def _part(typed: str, target: Quantity) -> Fraction:
    """One side of a tolerance in the unit of its target; a bare nought needs no unit."""
    bare = target.unit if typed.strip() == "0" else None
    if target.kind == "angle":
        found = read_angle(typed, bare=bare)
    else:
        found = read_quantity(typed, target.kind, default_unit=bare)
    if found.amount < 0:
        raise Refused(f"The figure was not kept: “{typed}” as a tolerance runs backwards. Write it like +20′ −30′.")
    return found.in_unit(target.unit)


@dataclass(frozen=True)
class JudgedAngle:
    """A figure against its limits. `verdict` is conform, undecided or not conform; empty where no limit is known."""

    measured: Measured
    limits: Limits | None = None
    verdict: str = ""
    expanded: Quantity | None = None


def judge_angle(one: Measured, limits: Limits | None, expanded: Quantity | None = None) -> JudgedAngle:
    """Return the figure judged; `expanded` is how far one reading may be off (k = 2), where that is known.

    Two readings by one instrument may be off the same way, so a figure of both is guarded by the plain sum (GUM 5.2.2,
    fully correlated): it is never called conform too early.
    """
    if limits is None or limits.lower is None or limits.upper is None:
        return JudgedAngle(one, limits)
    guard = Quantity(expanded.kind, expanded.in_unit(expanded.unit) * one.readings, expanded.unit) if expanded else None
    said = decide(*_alike(one, (limits.lower, limits.upper), limits.across, guard))
    return JudgedAngle(one, limits, said, guard)


def _alike(
    one: Measured, ends: Iterable[Quantity], across: Quantity | None, guard: Quantity | None
) -> tuple[Quantity, Quantity, Quantity, Quantity]:
    """Figure, limits and guard in one unit: in mm where all of them are, across the same diameter; else in degrees."""
    lower, upper = ends
    in_mm = one.value.kind == lower.kind == "length" and one.across is not None and _same(one.across, across)
    if in_mm and (guard is None or guard.kind == "length"):
        width = guard or Quantity("length", Fraction(0), "mm")
        return one.value.given_in("mm"), lower.given_in("mm"), upper.given_in("mm"), width.given_in("mm")
    width_deg = degrees_of("guard", guard, one.across or across) if guard else Fraction(0)
    degrees = (one.degrees, *(degrees_of(one.name, end, across) for end in (lower, upper)), width_deg)
    value, low, high, wide = (Quantity("angle", figure, "deg") for figure in degrees)
    return value, low, high, wide


def _same(one: Quantity, other: Quantity | None) -> bool:
    return other is not None and one.in_unit("mm") == other.in_unit("mm")
