"""The part-life plot: the share that still works over time or distance, with its 95 % limits and the numbers at risk.

The first curve is solid with its limits as a shaded band, a second one dashed with its limits as thin dashed lines, so
that they are told apart without colour. A small stroke across a curve is a part that was last seen alive there.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import floor, log10

from jobbook.core.drawing.shapes import SMALL, TEXT, Drawing, Label, Line, Point, Polygon, Shape, Weight

_LEFT, _RIGHT, _TOP = 34.0, 14.0, 16.0
_SHARES = (0, 25, 50, 75, 100)
_MOST_TICKS = 6
_LABEL = 26  # letters of a name in the legend


@dataclass(frozen=True)
class Step:
    """From this length on, the share that still works with its limits; a limit is None where there is none."""

    at: float
    share: float
    low: float | None = 1.0
    high: float | None = 1.0


@dataclass(frozen=True)
class LifeCurve:
    """One kind of part. `steps` begin at nought with a share of one; `until` is the longest watched, `alive` are the
    lengths at which parts were last seen alive, and `watched` is every length, for the numbers at risk."""

    label: str
    steps: tuple[Step, ...]
    until: float
    alive: tuple[float, ...] = ()
    watched: tuple[float, ...] = ()


@dataclass(frozen=True)
class _Field:
    longest: float
    right: float
    bottom: float

    def at(self, length: float, share: float) -> Point:
        across = length / self.longest * (self.right - _LEFT)
        return _LEFT + across, self.bottom - share * (self.bottom - _TOP)


def tick_step(longest: float) -> float:
    """1, 2 or 5 times a power of ten, so that at most six steps reach the end."""
    rough = max(longest, 1e-9) / _MOST_TICKS
    power = 10.0 ** floor(log10(rough))
    return next((step * power for step in (1, 2, 5) if step * power >= rough), 10 * power)


def survival_plot(curves: Sequence[LifeCurve], across: str, width: float = 336.0, plot: float = 120.0) -> Drawing:
    """The plot of one or two curves; `across` names the axis with its unit (“years since fitting”)."""
    longest = max((curve.until for curve in curves), default=0.0) or 1.0
    field = _Field(longest, width - _RIGHT, _TOP + plot)
    ticks = _ticks(longest)
    shapes: list[Shape] = []
    for place, curve in enumerate(curves):
        shapes += _limits(curve, field, place)
    shapes += _axes(field, ticks, across)
    for place, curve in enumerate(curves):
        shapes += _curve(curve, field, place)
    shapes += _legend(curves, field) if len(curves) > 1 else []
    below, height = _at_risk(curves, ticks, field)
    return Drawing(width, height, (*shapes, *below), _words(curves, across))


def _ticks(longest: float) -> list[float]:
    step = tick_step(longest)
    return [place * step for place in range(int(longest / step + 1e-9) + 1)]


def _axes(field: _Field, ticks: Sequence[float], across: str) -> list[Shape]:
    shapes: list[Shape] = [Label((2, _TOP - 7), "still working, %", "soft", SMALL)]
    for share in _SHARES:
        left = field.at(0, share / 100)
        shapes.append(Line(left, (field.right, left[1]), "rule", 0.4))
        shapes.append(Label((_LEFT - 4, left[1] + SMALL * 0.35), str(share), "soft", SMALL, "regular", "end"))
    for tick in ticks:
        x, y = field.at(tick, 0)
        shapes.append(Line((x, y), (x, y + 3), "ink", 0.6))
        shapes.append(Label((x, y + 4 + SMALL), _number(tick), "ink", SMALL, "regular", "middle"))
    shapes.append(Line(field.at(0, 0), (field.right, field.bottom), "ink", 0.8))
    shapes.append(Line(field.at(0, 0), field.at(0, 1), "ink", 0.8))
    foot = field.bottom + 6 + SMALL * 2.1
    return [*shapes, Label((field.right, foot), across, "soft", SMALL, "regular", "end")]


def _number(value: float) -> str:
    return f"{value:,.10g}".replace(",", "\u202f")


def _corners(curve: LifeCurve, which: str, field: _Field) -> list[Point]:
    """The corners of a line of steps, up to where it is known."""
    points: list[Point] = []
    share = 1.0
    for step in curve.steps:
        value = getattr(step, which)
        if value is None:
            return [*points, field.at(step.at, share)]
        points += [field.at(step.at, share), field.at(step.at, value)] if points else [field.at(step.at, value)]
        share = value
    return [*points, field.at(curve.until, share)]


def _limits(curve: LifeCurve, field: _Field, place: int) -> list[Shape]:
    low, high = _corners(curve, "low", field), _corners(curve, "high", field)
    if place == 0:
        return [Polygon((*low, *reversed(high)), "rule", "", 0)]
    return [Line(a, b, "soft", 0.5, True) for side in (low, high) for a, b in pairwise(side)]


def _curve(curve: LifeCurve, field: _Field, place: int) -> list[Shape]:
    shapes: list[Shape] = [Line(a, b, "ink", 1.3, place > 0) for a, b in pairwise(_corners(curve, "share", field))]
    for length in sorted(set(curve.alive)):
        share = next((step.share for step in reversed(curve.steps) if step.at <= length), 1.0)
        x, y = field.at(length, share)
        shapes.append(Line((x, y - 2.4), (x, y + 2.4), "ink", 0.6))
    return shapes


def _legend(curves: Sequence[LifeCurve], field: _Field) -> list[Shape]:
    """Which line is whose, above the field at the right."""
    shapes: list[Shape] = []
    x = field.right
    for place, curve in reversed(list(enumerate(curves))):
        words = curve.label if len(curve.label) <= _LABEL else f"{curve.label[: _LABEL - 1]}…"
        x -= len(words) * TEXT * 0.5
        weight: Weight = "semibold" if place == 0 else "regular"
        shapes.append(Label((x, _TOP - 6), words, "ink", TEXT, weight))
        shapes.append(Line((x - 20, _TOP - 9), (x - 4, _TOP - 9), "ink", 1.3, place > 0))
        x -= 34
    return shapes


def _at_risk(curves: Sequence[LifeCurve], ticks: Sequence[float], field: _Field) -> tuple[list[Shape], float]:
    """Under the axis, how many parts of each curve were still watched at each tick."""
    base = field.bottom + 10 + SMALL * 3.6
    shapes: list[Shape] = [Label((2, base), "still watched", "soft", SMALL)]
    for place, curve in enumerate(curves):
        base += SMALL * 1.5
        for tick in ticks:
            count = sum(length >= tick for length in curve.watched)
            x = field.at(tick, 0)[0]
            shapes.append(Label((x, base), str(count), "ink", SMALL, "regular", "middle"))
        x = 2.0
        shapes.append(Line((x, base - 2), (x + 14, base - 2), "ink", 1.3, place > 0))
    return shapes, base + SMALL


def _words(curves: Sequence[LifeCurve], across: str) -> str:
    if not curves:
        return "Part life: no parts"
    told = (
        f"{curve.label or 'they'}: {len(curve.watched)} parts, "
        f"{curve.steps[-1].share * 100:.0f} % still work at the end"
        for curve in curves
    )
    return f"Share of parts that still work, {across}; {'; '.join(told)}"
