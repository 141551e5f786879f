"""The closed set of shapes, and the few operations on them that every drawing needs. Lengths in points, y downward."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Weight = Literal["regular", "semibold"]

ROLES = ("ground", "sheet", "ink", "soft", "rule", "bluing", "ochre", "oxide", "patina")
TEXT = 8.0  # size of a drawing's ordinary labels; painters scale the whole drawing to their own text size
SMALL = 6.6


@dataclass(frozen=True)
class Line:
    """A straight stroke. `dashed` is a 3 on, 2 off pattern."""

    start: Point
    end: Point
    role: str = "ink"
    width: float = 0.8
    dashed: bool = False


@dataclass(frozen=True)
class Polygon:
    """A closed outline. `fill` and `stroke` are roles, or empty for none."""

    points: tuple[Point, ...]
    fill: str = ""
    stroke: str = "ink"
    width: float = 0.8


@dataclass(frozen=True)
class Circle:
    """A full circle round `centre`. `fill` and `stroke` are roles, or empty for none."""

    centre: Point
    radius: float
    fill: str = ""
    stroke: str = "ink"
    width: float = 0.8


@dataclass(frozen=True)
class Sector:
    """A filled slice of a circle: `from_degrees` counts anticlockwise from the right as one looks at it."""

    centre: Point
    radius: float
    from_degrees: float
    sweep_degrees: float
    fill: str = "ink"


@dataclass(frozen=True)
class Label:
    """One line of text; `at` is on its baseline, at its start, middle or end."""

    at: Point
    text: str
    role: str = "ink"
    size: float = TEXT
    weight: Weight = "regular"
    anchor: Anchor = "start"


Shape = Line | Polygon | Circle | Sector | Label


@dataclass(frozen=True)
class Drawing:
    """A size in points, its shapes in painting order, and the same content in words for whoever cannot see it."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    words: str


def hatch(left: float, top: float, width: float, height: float, gap: float = 5.0) -> tuple[Line, ...]:
    """Thin rising strokes that fill the rectangle and end exactly at its edges."""
    lines = []
    for i in range(1, int((width + height) / gap) + 1):
        reach = i * gap  # every point of the stroke is as far right of the left edge and below the top, summed
        left_x, right_x = max(0.0, reach - height), min(width, reach)
        start = (left + left_x, top + reach - left_x)
        end = (left + right_x, top + reach - right_x)
        lines.append(Line(start, end, "rule", 0.45))
    return tuple(lines)


def spread(wanted: Sequence[float], gap: float, top: float, bottom: float) -> tuple[float, ...]:
    """Positions in the order given, at least `gap` apart and as near to those wanted as one pass each way brings them.

    `wanted` must not fall. Where there is no room for all between `top` and `bottom` they run on past the bottom.
    """
    placed = [min(max(y, top), bottom) for y in wanted]
    for _ in range(len(placed)):
        for i in range(1, len(placed)):
            overlap = placed[i - 1] + gap - placed[i]
            if overlap > 0:
                placed[i - 1] -= overlap / 2
                placed[i] += overlap / 2
    floor = bottom
    for i in reversed(range(len(placed))):
        placed[i] = min(placed[i], floor)
        floor = placed[i] - gap
    ceiling = top
    for i in range(len(placed)):
        placed[i] = max(placed[i], ceiling)
        ceiling = placed[i] + gap
    return tuple(placed)


def _shifted(point: Point, dx: float, dy: float, factor: float) -> Point:
    return (point[0] * factor + dx, point[1] * factor + dy)


def _placed(shape: Shape, dx: float, dy: float, factor: float) -> Shape:
    match shape:
        case Line():
            ends = (_shifted(shape.start, dx, dy, factor), _shifted(shape.end, dx, dy, factor))
            return replace(shape, start=ends[0], end=ends[1], width=shape.width * factor)
        case Polygon():
            points = tuple(_shifted(p, dx, dy, factor) for p in shape.points)
            return replace(shape, points=points, width=shape.width * factor)
        case Circle():
            centre = _shifted(shape.centre, dx, dy, factor)
            return replace(shape, centre=centre, radius=shape.radius * factor, width=shape.width * factor)
        case Sector():
            return replace(shape, centre=_shifted(shape.centre, dx, dy, factor), radius=shape.radius * factor)
        case Label():
            return replace(shape, at=_shifted(shape.at, dx, dy, factor), size=shape.size * factor)


def moved(shapes: Iterable[Shape], dx: float, dy: float) -> tuple[Shape, ...]:
    """The shapes, moved right by `dx` and down by `dy` points."""
    return tuple(_placed(s, dx, dy, 1.0) for s in shapes)


def scaled(drawing: Drawing, factor: float) -> Drawing:
    """The drawing at another size, with its strokes and texts in proportion."""
    shapes = tuple(_placed(s, 0.0, 0.0, factor) for s in drawing.shapes)
    return replace(drawing, width=drawing.width * factor, height=drawing.height * factor, shapes=shapes)
