"""Figures of the four corners over the visits of years: one field for each corner, side by side, to one scale.

A ring is the first reading of a visit, a full disc the last one where there was another; between visits a line runs
from the last to the next first. Limits are a hatched band, a further limit is a dashed line.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import pairwise

from jobbook.core.drawing.shapes import SMALL, TEXT, Circle, Drawing, Label, Line, Point, Shape, hatch
from jobbook.core.written import month_and_year

_LEFT, _GAP, _TOP = 28.0, 12.0, 22.0
_STEPS = (Decimal(1), Decimal(2), Decimal(5), Decimal(10), Decimal(20), Decimal(50), Decimal(100), Decimal(200))
_MOST_STEPS = 5
_DOT = 2.0
_INSET = 5.0  # between the edge of a field and the first and last visit


@dataclass(frozen=True)
class VisitPoint:
    """What was read at one visit; `last` is None where it was read once."""

    day: date
    first: Decimal
    last: Decimal | None = None

    @property
    def left_with(self) -> Decimal:
        return self.first if self.last is None else self.last


@dataclass(frozen=True)
class Panel:
    """One corner: its points by day, the ends of the band that is in order, and a further limit where there is one."""

    corner: str
    points: tuple[VisitPoint, ...] = ()
    lower: Decimal | None = None
    upper: Decimal | None = None
    beyond: Decimal | None = None

    @property
    def values(self) -> list[Decimal]:
        ends = [end for end in (self.lower, self.upper, self.beyond) if end is not None]
        return [*ends, *(value for one in self.points for value in (one.first, one.left_with))]


@dataclass(frozen=True)
class _Field:
    left: float
    width: float
    bottom: float
    low: Decimal
    high: Decimal
    begins: int
    ends: int

    def y(self, value: Decimal) -> float:
        return self.bottom - float((value - self.low) / (self.high - self.low)) * (self.bottom - _TOP)

    def x(self, day: date) -> float:
        span = self.ends - self.begins
        share = (day.toordinal() - self.begins) / span if span else 0.5
        return self.left + _INSET + share * (self.width - 2 * _INSET)


def over_visits(
    panels: Sequence[Panel], unit: str, about: str, level: bool = False, width: float = 470.0, plot: float = 74.0
) -> Drawing:
    """The fields of the corners in a row. `about` says in words what the figures are; `unit` stands at the axis.

    `level`: the axes of all fields show the same figures; otherwise each shows its own, at the same scale."""
    days = [one.day.toordinal() for panel in panels for one in panel.points]
    together = Panel("", tuple(one for panel in panels for one in panel.points), *_ends(panels))
    step, span = _scale([together] if level else panels)
    each = (width - _LEFT * len(panels) - _GAP * (len(panels) - 1)) / max(1, len(panels))
    shapes: list[Shape] = []
    for place, panel in enumerate(panels):
        left = place * (each + _LEFT + _GAP) + _LEFT
        low = _low(together if level else panel, step, span)
        field = _Field(left, each, _TOP + plot, low, low + span, min(days, default=0), max(days, default=0))
        shapes += [*_axes(panel, field, step, unit), *_band(panel, field), *_points(panel, field)]
    return Drawing(width, _TOP + plot + SMALL * 2.4, tuple(shapes), _words(panels, unit, about))


def _ends(panels: Sequence[Panel]) -> tuple[Decimal | None, Decimal | None, Decimal | None]:
    """The limits of the first field, which are those of all where the axes are alike."""
    return (panels[0].lower, panels[0].upper, panels[0].beyond) if panels else (None, None, None)


def _scale(panels: Sequence[Panel]) -> tuple[Decimal, Decimal]:
    """The step of the axis and how much every field spans: as much as the widest of them needs."""
    widest = max((max(p.values) - min(p.values) for p in panels if p.values), default=Decimal(0))
    step = next((one for one in _STEPS if widest / one <= _MOST_STEPS - 1), _STEPS[-1])
    count = max(2, int(widest / step) + 2)
    return step, step * count


def _low(panel: Panel, step: Decimal, span: Decimal) -> Decimal:
    """The lowest figure of a field, on a step, so that its figures lie in the middle."""
    if not panel.values:
        return Decimal(0)
    middle = (min(panel.values) + max(panel.values)) / 2
    low = ((middle - span / 2) / step).to_integral_value() * step
    low = min(low, (min(panel.values) // step) * step)
    return max(low, max(panel.values) - span) if low + span < max(panel.values) else low


def _axes(panel: Panel, field: _Field, step: Decimal, unit: str) -> list[Shape]:
    right = field.left + field.width
    shapes: list[Shape] = [Label((field.left, _TOP - 10), panel.corner, "ink", TEXT, "semibold")]
    shapes.append(Label((right, _TOP - 10), unit, "soft", SMALL, "regular", "end"))
    value = (field.low / step).to_integral_value(rounding="ROUND_CEILING") * step
    while value <= field.high and panel.values:
        y = field.y(value)
        shapes.append(Line((field.left, y), (right, y), "rule", 0.4))
        shapes.append(Label((field.left - 4, y + SMALL * 0.35), _figure(value), "soft", SMALL, "regular", "end"))
        value += step
    shapes.append(Line((field.left, field.bottom), (right, field.bottom), "ink", 0.7))
    shapes.append(Line((field.left, field.bottom), (field.left, _TOP), "ink", 0.7))
    if not panel.points:
        return [*shapes, Label((field.left + 6, (field.bottom + _TOP) / 2), "no readings", "soft", SMALL)]
    return shapes + _days(field)


def _figure(value: Decimal) -> str:
    return f"{value.normalize():f}".replace("-", "−")


def _days(field: _Field) -> list[Shape]:
    """Strokes at the turns of the years; where there are none, the days of the first and the last visit."""
    first, last = date.fromordinal(field.begins), date.fromordinal(field.ends)
    years = [date(year, 1, 1) for year in range(first.year + 1, last.year + 1)]
    base = field.bottom + 4 + SMALL
    if len(years) < 2:
        if first == last:
            return [Label((field.x(first), base), month_and_year(first), "soft", SMALL, "regular", "middle")]
        right = Label((field.left + field.width, base), month_and_year(last), "soft", SMALL, "regular", "end")
        return [Label((field.left, base), month_and_year(first), "soft", SMALL), right]
    shown = years[:: -(-len(years) // 3)]
    shapes: list[Shape] = []
    for day in years:
        x = field.x(day)
        shapes.append(Line((x, field.bottom), (x, field.bottom + 3), "ink", 0.6))
        if day in shown:
            shapes.append(Label((x, base), str(day.year), "soft", SMALL, "regular", "middle"))
    return shapes


def _band(panel: Panel, field: _Field) -> list[Shape]:
    shapes: list[Shape] = []
    right = field.left + field.width
    if panel.lower is not None and panel.upper is not None:
        top, bottom = field.y(panel.upper), field.y(panel.lower)
        shapes += hatch(field.left, top, field.width, bottom - top)
        shapes += [Line((field.left, y), (right, y), "soft", 0.4) for y in (top, bottom)]
    if panel.beyond is not None:
        y = field.y(panel.beyond)
        shapes.append(Line((field.left, y), (right, y), "soft", 0.6, True))
    return shapes


def _points(panel: Panel, field: _Field) -> list[Shape]:
    shapes: list[Shape] = []
    for one, after in pairwise(panel.points):
        shapes.append(Line(_at(field, one.day, one.left_with), _at(field, after.day, after.first), "ink", 0.9))
    for one in panel.points:
        start = _at(field, one.day, one.first)
        if one.last is not None:
            end = _at(field, one.day, one.last)
            shapes += [Line(start, end, "ink", 0.6, True), Circle(end, _DOT, "ink", "ink", 0.6)]
        shapes.append(Circle(start, _DOT, "sheet", "ink", 0.9))
    return shapes


def _at(field: _Field, day: date, value: Decimal) -> Point:
    return field.x(day), field.y(value)


def _words(panels: Sequence[Panel], unit: str, about: str) -> str:
    told = []
    for panel in panels:
        listed = [f"{month_and_year(one.day)} {_figure(one.left_with)}" for one in panel.points]
        told.append(f"{panel.corner}: {', '.join(listed) or 'no readings'}")
    return f"{about}, {unit}. {'; '.join(told)}"
