"""The leak-down chart: how far the corners dropped over a stand, downward as on the vehicle."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from math import ceil, floor

from jobbook.core.drawing.shapes import SMALL, TEXT, Drawing, Label, Line, Point, Shape, Weight, spread

_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
_LEFT = 26.0
_TOP = 8.0


@dataclass(frozen=True)
class Curve:
    """Drop in millimetres (positive is down) at hours since the stand began, in order of time.

    `label`, a few letters, is written at its end ("FL 36"). `strong` is the corner that the stand is about; the others
    are dashed.
    """

    label: str
    points: tuple[tuple[Decimal, Decimal], ...]
    strong: bool = False


@dataclass(frozen=True)
class _Field:
    """Drops from `low` to `high` mm in steps, over `longest` hours, plotted down to `bottom` and across to `right`."""

    low: int
    high: int
    step: int
    longest: float
    right: float
    bottom: float

    def at(self, hour: Decimal, drop: Decimal) -> Point:
        across = float(hour) / self.longest * (self.right - _LEFT)
        return _LEFT + across, _TOP + float(drop - self.low) / (self.high - self.low) * (self.bottom - _TOP)


def _axis(drops: Sequence[Decimal]) -> tuple[int, int, int]:
    """Lowest and highest drop on the axis and its step, in millimetres: at most five steps."""
    low, high = min(drops, default=Decimal(0)), max(drops, default=Decimal(0))
    low, high = min(low, Decimal(0)), max(high, Decimal(2))
    step = next((s for s in _STEPS if (high - low) / s <= 4), _STEPS[-1])
    return floor(low / step) * step, ceil(high / step) * step, step


def leak_down_chart(
    curves: Sequence[Curve], start: str, end: str, note: str = "", width: float = 248.0, plot: float = 78.0
) -> Drawing:
    """The chart. `start` and `end` say time and temperature of the first and last reading, `note` what the dashes mean.

    `plot` is the height of the plotted field in points. Without curves the field says that there are no readings.
    """
    field = _field(curves, width, plot)
    ends: list[tuple[Curve, Point]] = []
    shapes = _grid(field) if any(curve.points for curve in curves) else _axis_line(field)
    for curve in sorted((c for c in curves if c.points), key=lambda c: c.points[-1][1]):
        places = [field.at(hour, drop) for hour, drop in curve.points]
        shapes += [Line(a, b, "ink", 1.4 if curve.strong else 0.7, not curve.strong) for a, b in pairwise(places)]
        ends.append((curve, places[-1]))
    shapes += _end_labels(ends, field)
    shapes += _foot(start, end, note, field)
    if not ends:
        shapes.append(Label((_LEFT + 8, _TOP + plot / 2), "no readings", "soft"))
    return Drawing(width, field.bottom + TEXT * (3.2 if note else 2), tuple(shapes), _words(curves, start, end))


def _field(curves: Sequence[Curve], width: float, plot: float) -> _Field:
    """The plotted field; at its right is room for the longest label, half its size a letter."""
    points = [point for curve in curves for point in curve.points]
    longest = float(max((hour for hour, _ in points), default=Decimal(0))) or 1.0
    room = max((len(curve.label) for curve in curves), default=0) * TEXT * 0.52 + 8
    return _Field(*_axis([drop for _, drop in points]), longest, width - room, _TOP + plot)


def _grid(field: _Field) -> list[Shape]:
    shapes: list[Shape] = []
    for drop in range(field.low, field.high + 1, field.step):
        y = field.at(Decimal(0), Decimal(drop))[1]
        shapes.append(Line((_LEFT, y), (field.right, y), "rule", 0.5 if drop else 0.9))
        shapes.append(Label((_LEFT - 5, y + TEXT * 0.34), str(drop).replace("-", "−"), "soft", TEXT, "regular", "end"))
    return shapes + _axis_line(field)


def _axis_line(field: _Field) -> list[Shape]:
    return [Line((_LEFT, _TOP - 3), (_LEFT, field.bottom), "ink", 0.7)]


def _end_labels(ends: Sequence[tuple[Curve, Point]], field: _Field) -> list[Shape]:
    placed = spread([place[1] for _, place in ends], TEXT * 1.15, _TOP, field.bottom)
    shapes: list[Shape] = []
    for (curve, place), y in zip(ends, placed, strict=True):
        if abs(place[1] - y) > 1 or field.right - place[0] > 1:
            shapes.append(Line((place[0] + 1, place[1]), (field.right + 4, y), "soft", 0.35))
        weight: Weight = "semibold" if curve.strong else "regular"
        shapes.append(Label((field.right + 5, y + TEXT * 0.34), curve.label, "ink", TEXT, weight))
    return shapes


def _foot(start: str, end: str, note: str, field: _Field) -> list[Shape]:
    base = field.bottom + TEXT * 1.5
    shapes: list[Shape] = [Label((_LEFT, base), start), Label((field.right, base), end, "ink", TEXT, "regular", "end")]
    return [*shapes, Label((_LEFT, base + TEXT * 1.3), note, "soft", SMALL)] if note else shapes


def _words(curves: Sequence[Curve], start: str, end: str) -> str:
    return f"Drop in mm from {start} to {end}: " + (", ".join(curve.label for curve in curves) or "no readings")
