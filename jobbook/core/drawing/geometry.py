"""Wheel geometry as lines: an angle of an axle on each, limits hatched, the left wheel above, the right one below.

An open mark is how a wheel was found, a full one how it was set.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from jobbook.core.drawing.shapes import SMALL, TEXT, Drawing, Label, Line, Polygon, Shape, hatch, moved

_ROW, _GAP = 30.0, 20.0
_TITLE, _VALUES = 78.0, 94.0  # widths of what stands before and behind the line
_BAND, _MARK = 7.0, 3.6


@dataclass(frozen=True)
class Wheel:
    """One wheel, or the vehicle where `name` is empty. None is "not read". `verdict` is that of the newest figure."""

    name: str
    before: float | None = None
    after: float | None = None
    before_words: str = ""
    after_words: str = ""
    verdict: str = ""


@dataclass(frozen=True)
class GeometryRow:
    """One angle of one axle, in one unit, with the words that stand beside it."""

    title: str
    wheels: tuple[Wheel, ...]
    limits_words: str = ""
    lower: float | None = None
    upper: float | None = None


def geometry_drawing(rows: Sequence[GeometryRow], width: float = 400.0, columns: int = 1) -> Drawing:
    """The lines, one under the other in `columns`. Figures far outside lie at the end of their line."""
    each = (width - _GAP * (columns - 1)) / columns
    high = -(-len(rows) // columns)
    shapes: list[Shape] = []
    for number, row in enumerate(rows):
        column, place = divmod(number, high)
        shapes += moved(_row(row, each), column * (each + _GAP), place * _ROW)
    return Drawing(width, high * _ROW, tuple(shapes), ". ".join(map(_words, rows)))


def _words(row: GeometryRow) -> str:
    """What a row says to whoever cannot see it."""
    told = [f"{row.title}, {row.limits_words}"]
    for wheel in row.wheels:
        parts = [f"before {wheel.before_words}"] if wheel.before_words else []
        parts += [f"after {wheel.after_words}"] if wheel.after_words else []
        told.append(" ".join(filter(None, (wheel.name, ", ".join(parts) or "not read", wheel.verdict))))
    return "; ".join(told)


def _row(row: GeometryRow, width: float) -> list[Shape]:
    middle = _ROW / 2
    left, right = _TITLE, width - _VALUES
    shapes: list[Shape] = [
        Label((0, middle - 1), row.title, "ink", TEXT, "semibold"),
        Label((0, middle + SMALL + 1), row.limits_words, "soft", SMALL),
    ]
    scale = _Scale(row, left, right)
    shapes += _band(row, scale, middle)
    shapes.append(Line((left, middle), (right, middle), "ink", 0.8))
    for side, wheel in zip((-1, 1), row.wheels, strict=False):
        shapes += _marks(wheel, scale, middle, side)
    return [*shapes, *_values(row, right + 8, middle)]


class _Scale:
    """Where a figure lies on its line; a margin is left on either side of everything."""

    def __init__(self, row: GeometryRow, left: float, right: float) -> None:
        figures = [one for wheel in row.wheels for one in (wheel.before, wheel.after) if one is not None]
        limits = [one for one in (row.lower, row.upper) if one is not None]
        span = (max(limits) - min(limits)) if limits else 0.0
        kept = [min(max(one, min(limits) - span), max(limits) + span) for one in figures] if span else figures
        ends = [*kept, *limits] or [0.0]
        margin = (max(ends) - min(ends)) * 0.15 or 1.0
        self._from, self._to, self._left, self._right = min(ends) - margin, max(ends) + margin, left, right

    def x(self, figure: float) -> float:
        share = (figure - self._from) / (self._to - self._from)
        return self._left + min(max(share, 0.0), 1.0) * (self._right - self._left)


def _band(row: GeometryRow, scale: _Scale, middle: float) -> list[Shape]:
    if row.lower is None or row.upper is None:
        return []
    low, high = scale.x(row.lower), scale.x(row.upper)
    edges = [Line((x, middle - _BAND), (x, middle + _BAND), "ink", 0.8) for x in (low, high)]
    return [*hatch(low, middle - _BAND, high - low, 2 * _BAND), *edges]


def _marks(wheel: Wheel, scale: _Scale, middle: float, side: int) -> list[Shape]:
    """The marks of a wheel stand on the line: from above for the first, from below for the second."""
    shapes: list[Shape] = []
    for figure, fill in ((wheel.before, ""), (wheel.after, "ink")):
        if figure is not None:
            x, foot = scale.x(figure), middle + side * (_MARK * 2.4 + 1)
            tip = (x, middle + side)
            shapes.append(Polygon((tip, (x - _MARK, foot), (x + _MARK, foot)), fill or "sheet", "ink", 0.8))
    return shapes


def _values(row: GeometryRow, x: float, middle: float) -> list[Shape]:
    """Behind the line: each wheel with its newest figure, what it was before, and a verdict that is not the best."""
    apart = TEXT * 1.25
    base = middle + TEXT * 0.35 - apart * (len(row.wheels) - 1) / 2
    shapes: list[Shape] = []
    for number, wheel in enumerate(row.wheels):
        figure, was = wheel.after_words or wheel.before_words, wheel.before_words if wheel.after_words else ""
        y = base + number * apart
        shapes.append(Label((x, y), f"{wheel.name} {figure or 'not read'}".strip(), "ink", TEXT, "semibold"))
        before = f"was {was}" if was not in ("", figure) else ""
        said = wheel.verdict if wheel.verdict not in ("", "conform") else before
        at = x + (len(wheel.name) + len(figure)) * TEXT * 0.52 + 12
        shapes.append(Label((at, y), said, _role(wheel), SMALL, "semibold" if _role(wheel) != "soft" else "regular"))
    return shapes


def _role(wheel: Wheel) -> str:
    return {"not conform": "oxide", "undecided": "ochre"}.get(wheel.verdict, "soft")
