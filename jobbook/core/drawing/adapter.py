"""A wrench with an adapter on its drive: what L, E and the angle are measured between, drawn to scale."""

from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, radians, sin

from jobbook.core.drawing.shapes import SMALL, TEXT, Circle, Drawing, Label, Line, Point, Polygon, Shape

_LEFT, _RIGHT, _ABOVE, _BELOW = 26.0, 52.0, 20.0, 20.0  # room for grip, words and hexagon round the three centres
_HANDLE = 3.2  # half the thickness of the handle
_SHORTEST = 20.0  # a shorter adapter is drawn this long, so that it can still be seen
_ARC = 17.0
_HEAD = 7.0


@dataclass(frozen=True)
class _Place:
    """Where the three centres lie: the middle of the grip, the drive, the fastener; `turn` in degrees."""

    grip: Point
    drive: Point
    fastener: Point
    turn: float


def adapter_drawing(
    lever: float,
    extension: float,
    angle: float,
    labels: tuple[str, str, str] = ("L", "E", "angle"),
    setting: str = "",
    width: float = 248.0,
    height: float = 112.0,
) -> Drawing:
    """The wrench with its grip at the left and the fastener at the adapter's end, seen from above.

    `lever` and `extension` in one unit, `angle` in degrees between the adapter and the line of the handle; a negative
    extension points back. `labels` are written at lever, extension and angle, `setting` beside the drive.
    """
    place = _placed(lever, extension, angle, width, height)
    shapes = [*_lever(place, labels[0]), *_extension(place, labels[1]), *_turn(place, labels[2])]
    shapes += _bodies(place)
    if setting:
        shapes.append(Label((_LEFT, TEXT * 1.4), setting, "ink", TEXT * 1.25, "semibold"))
    words = f"A wrench with an adapter: lever {labels[0]}, extension {labels[1]}, angle {labels[2]}"
    return Drawing(width, height, tuple(shapes), f"{words}; {setting}" if setting else words)


def _placed(lever: float, extension: float, angle: float, width: float, height: float) -> _Place:
    """The three centres, at a scale at which grip, adapter and the line beyond the drive are in sight."""
    turn = angle if extension >= 0 else angle + 180
    reach, rise = abs(extension) * cos(radians(turn)), abs(extension) * sin(radians(turn))
    behind, ahead, middle = max(lever, -reach), max(reach, 0.0), height * 0.52
    scale = min(
        (width - _LEFT - _RIGHT) / (behind + ahead),
        (middle - _ABOVE) / max(rise, lever * 1e-6),
        (height - middle - _BELOW) / max(-rise, lever * 1e-6),
    )
    drive = (_LEFT + behind * scale, middle)
    drawn = max(abs(extension) * scale, _SHORTEST if extension else 0.0)
    end = (drive[0] + drawn * cos(radians(turn)), drive[1] - drawn * sin(radians(turn)))
    return _Place((drive[0] - lever * scale, drive[1]), drive, end, turn)


def _bodies(place: _Place) -> list[Shape]:
    (grip, y), (drive, _) = place.grip, place.drive
    bar = ((grip, y - _HANDLE), (drive, y - _HANDLE), (drive, y + _HANDLE), (grip, y + _HANDLE))
    hand = tuple(
        (x, y + side * _HANDLE * 1.7) for x, side in ((grip - 9, -1), (grip + 9, -1), (grip + 9, 1), (grip - 9, 1))
    )
    return [
        Polygon(bar, "sheet", "ink", 0.9),
        Polygon(hand, "rule", "ink", 0.9),
        Line(place.drive, place.fastener, "ink", 4.6),
        Line(place.drive, place.fastener, "sheet", 3.0),
        Circle(place.drive, 6.4, "sheet", "ink", 1.0),
        Polygon(_square(place.drive, 2.6), "ink", "ink", 0.5),
        Circle(place.fastener, _HEAD, "sheet", "ink", 1.0),
        Polygon(_hexagon(place.fastener, 4.4), "bluing", "bluing", 0.5),
        *_pull(place),
    ]


def _pull(place: _Place) -> list[Shape]:
    """The hand's pull: at the middle of the grip and square to the handle."""
    x, y = place.grip
    top, tip = y + _HANDLE * 2, y + 25
    head = ((x, tip + 5), (x - 3, tip - 1), (x + 3, tip - 1))
    return [
        Line((x, top), (x, tip), "bluing", 1.2),
        Polygon(head, "bluing", "bluing", 0.5),
        Label((x + 6, tip + 4), "hand", "bluing", SMALL),
    ]


def _lever(place: _Place, text: str) -> list[Shape]:
    (left, y), (right, _) = place.grip, place.drive
    base = y + 16
    return [
        *(Line((x, y), (x, base + 3), "soft", 0.4) for x in (left, right)),
        Line((left, base), (right, base), "soft", 0.5),
        Label(((left + right) / 2, base + TEXT * 1.1), text, "ink", TEXT, "regular", "middle"),
    ]


def _extension(place: _Place, text: str) -> list[Shape]:
    """The extension's label stands beyond the fastener, away from the handle's line."""
    x, y = place.fastener
    above = place.fastener[1] <= place.drive[1]
    base = y - _HEAD - 4 if above else y + _HEAD + TEXT
    return [Label((x, base), text, "ink", TEXT, "regular", "middle")]


def _turn(place: _Place, text: str) -> list[Shape]:
    """The line that the handle would go on in, and the arc from it to the adapter."""
    x, y = place.drive
    straight = Line((x, y), (x + 44, y), "soft", 0.5, True)
    turn = place.turn % 360
    turn = turn - 360 if turn > 180 else turn
    words = Label((x + 26, y + TEXT * 1.5), text, "soft", SMALL)
    if not turn:
        return [straight, words]
    steps = max(2, round(abs(turn) / 6))
    points = [_round_the(place.drive, _ARC, turn * step / steps) for step in range(steps + 1)]
    arc = [Line(a, b, "soft", 0.6) for a, b in pairwise(points)]
    return [straight, *arc, words]


def _round_the(centre: Point, radius: float, degrees: float) -> Point:
    return centre[0] + radius * cos(radians(degrees)), centre[1] - radius * sin(radians(degrees))


def _square(centre: Point, half: float) -> tuple[Point, ...]:
    x, y = centre
    return ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))


def _hexagon(centre: Point, radius: float) -> tuple[Point, ...]:
    x, y = centre
    return tuple((x + radius * cos(k * pi / 3), y + radius * sin(k * pi / 3)) for k in range(6))
