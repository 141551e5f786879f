"""Toe, seen from above: an axle whose wheels stand in or out, far more than they do, and what is measured."""

from math import cos, radians, sin

from jobbook.core.drawing.shapes import SMALL, TEXT, Drawing, Label, Line, Point, Polygon, Shape

_SHOWN = 9.0  # degrees that a wheel is drawn turned, whatever the true angle
_LONG, _WIDE = 54.0, 15.0


def toe_drawing(inward: int, each: str, single: str, width: float = 248.0) -> Drawing:
    """The axle with the front of the vehicle on top. `inward` is 1 for toe-in, −1 for toe-out, 0 for neither; `each` is
    the angle of one wheel as written, `single` its distance at the rim."""
    y, left, right = _LONG / 2 + 14, width * 0.24, width * 0.76
    shapes: list[Shape] = [Line((left, y), (right, y), "ink", 1.6)]
    for x, side in ((left, 1), (right, -1)):
        shapes.append(Line((x, y - _LONG / 2 - 6), (x, y + _LONG / 2 + 4), "soft", 0.5, True))
        shapes.append(Polygon(_wheel((x, y), inward * side * _SHOWN), "rule", "ink", 0.9))
    foot = y + _LONG / 2 + TEXT * 1.6
    shapes.append(Label((width / 2, y - 8), "front", "soft", SMALL, "regular", "middle"))
    shapes.append(Polygon(((width / 2, y - 28), (width / 2 - 4, y - 18), (width / 2 + 4, y - 18)), "soft", "soft", 0.5))
    shapes.append(Label((left, foot), f"{each}, {single}", "ink", TEXT, "semibold", "middle"))
    shapes.append(Label((right, foot), "each wheel alike; drawn larger", "soft", SMALL, "regular", "middle"))
    word = {1: "toe-in", -1: "toe-out", 0: "neither toe-in nor toe-out"}[inward]
    return Drawing(width, foot + SMALL, tuple(shapes), f"An axle from above, {word}: each wheel {each}, {single}")


def _wheel(centre: Point, degrees: float) -> tuple[Point, ...]:
    """A wheel whose front is turned to the right by that many degrees."""
    across, along = _WIDE / 2, _LONG / 2
    turn = radians(degrees)
    corners = ((-across, -along), (across, -along), (across, along), (-across, along))
    return tuple(
        (centre[0] + x * cos(turn) - y * sin(turn), centre[1] + x * sin(turn) + y * cos(turn)) for x, y in corners
    )
