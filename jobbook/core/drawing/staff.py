"""The height staff: a vertical rule per corner, the limits as a hatched band, marks for before, target and after.

Staffs of one row share a scale and stand level at their targets, so that the eye compares departures from target. Those
of one axle without target and limits stand level at its highest reading, so that the eye sees which corner hangs.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from jobbook.core.drawing.shapes import (
    SMALL,
    TEXT,
    Drawing,
    Label,
    Line,
    Point,
    Polygon,
    Shape,
    Weight,
    hatch,
    moved,
    spread,
)

STAFF_X = 8.0
BAND = 15.0
LABEL_X = 27.0
CHANGE_X = 44.0
LEADER_FROM = 10.0  # a label that had to move further than this is tied to its mark by a thin line
TICK_MM = 10
MM_IN_AN_INCH = Decimal("25.4")  # exact by definition (international inch, 1959)
NOTE_LETTERS = 56  # a longer note is cut with an ellipsis; `words` has it whole, and papers write it beside the staff


@dataclass(frozen=True)
class CornerHeights:
    """Heights of one corner in millimetres. None is "no such figure"; the words then say why, never a zero.

    `before_words` and `after_words` are the answers where there is no reading: "not measured", "not possible: no air";
    they are empty where a reading is not due yet, and then nothing is said of it. `guard` is the guard band inside each
    limit, `verdict` what the newest reading was judged to be. `unit` is what figures are written in: mm or in.
    """

    corner: str
    lower: Decimal | None = None
    target: Decimal | None = None
    upper: Decimal | None = None
    before: Decimal | None = None
    as_left: Decimal | None = None
    before_words: str = "not measured"
    after_words: str = "not measured"
    guard: Decimal | None = None
    verdict: str = ""
    unit: str = "mm"


@dataclass(frozen=True)
class _Scale:
    """Where a staff's millimetres lie: `up` and `down` from the anchor are what is drawn."""

    top: float
    bottom: float
    up: float
    down: float

    def y(self, departure: float) -> float:
        return self.top + (self.up - departure) * (self.bottom - self.top) / (self.up + self.down)


def figure(value: Decimal, signed: bool = False) -> str:
    """A height as it is written beside a staff: no exponent, a true minus, a plus where a change is meant."""
    text = f"{value:f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    text = text.replace("-", "−")
    sign = "+" if value > 0 else "±" if value == 0 else ""
    return f"{sign}{text}" if signed else text


def _written(value: Decimal, unit: str, signed: bool = False) -> str:
    """A height in the unit that people read: inches to a hundredth."""
    return figure(value if unit == "mm" else (value / MM_IN_AN_INCH).quantize(Decimal("0.01")), signed)


def _anchor(row: CornerHeights) -> Decimal | None:
    if row.target is None and row.lower is not None and row.upper is not None:
        return (row.lower + row.upper) / 2
    known = (row.target, row.lower, row.upper)
    return next((value for value in known if value is not None), None)


def _anchors(rows: Sequence[CornerHeights]) -> list[Decimal | None]:
    """Where each staff stands level: at its target, or at the highest reading of the axle that has none.

    The axles are not compared: arch edges stand at another height in front than at the rear."""
    own = [_anchor(row) for row in rows]
    read: dict[str, list[Decimal]] = {}
    for row, anchor in zip(rows, own, strict=True):
        if anchor is None:
            read.setdefault(row.corner[:1], []).extend(v for v in (row.before, row.as_left) if v is not None)
    highest = {axle: max(values, default=None) for axle, values in read.items()}
    return [highest[row.corner[:1]] if anchor is None else anchor for row, anchor in zip(rows, own, strict=True)]


def _scale(rows: Sequence[CornerHeights], anchors: Sequence[Decimal | None], top: float, bottom: float) -> _Scale:
    departures = [0.0]
    for row, anchor in zip(rows, anchors, strict=True):
        values = (row.lower, row.target, row.upper, row.before, row.as_left)
        departures += [float(v - anchor) for v in values if v is not None and anchor is not None]
    up = min(max(max(departures) + 4, 16.0), 50.0)
    down = min(max(4 - min(departures), 30.0), 70.0)
    return _Scale(top, bottom, up, down)


def _band(row: CornerHeights, anchor: Decimal, scale: _Scale) -> tuple[Shape, ...]:
    """The hatched band; with one limit only it is open at the other end, with none there is no band."""
    if row.lower is None and row.upper is None:
        return ()
    high = float(row.upper - anchor) if row.upper is not None else scale.up
    low = float(row.lower - anchor) if row.lower is not None else -scale.down
    top, bottom = max(scale.y(high), scale.top), min(scale.y(low), scale.bottom)
    edges = [scale.y(float(v - anchor)) for v in (row.lower, row.upper) if v is not None]
    drawn = [Line((STAFF_X, y), (STAFF_X + BAND, y), "soft", 0.35) for y in edges if scale.top <= y <= scale.bottom]
    drawn += _guards(row, anchor, scale)
    return (*hatch(STAFF_X, top, BAND, bottom - top), *drawn) if bottom > top else tuple(drawn)


def _guards(row: CornerHeights, anchor: Decimal, scale: _Scale) -> list[Line]:
    """A dashed line a guard band inside each limit; none where the bands leave nothing between them."""
    if row.guard is None or row.lower is None or row.upper is None or row.lower + row.guard > row.upper - row.guard:
        return []
    edges = [scale.y(float(end - anchor)) for end in (row.lower + row.guard, row.upper - row.guard)]
    return [Line((STAFF_X, y), (STAFF_X + BAND, y), "ink", 0.6, True) for y in edges if scale.top <= y <= scale.bottom]


def _rule(scale: _Scale, with_target: bool) -> tuple[Shape, ...]:
    ticks = range(-int(scale.down // TICK_MM) * TICK_MM, int(scale.up // TICK_MM) * TICK_MM + 1, TICK_MM)
    lines = [Line((STAFF_X, scale.y(mm)), (STAFF_X + 4, scale.y(mm)), "ink", 0.6) for mm in ticks]
    target = [Line((STAFF_X - 3, scale.y(0)), (STAFF_X + BAND, scale.y(0)), "ink", 0.7)] if with_target else []
    return (Line((STAFF_X, scale.top), (STAFF_X, scale.bottom), "ink", 0.8), *lines, *target)


def _pointer(y: float, scale: _Scale, filled: bool) -> Polygon:
    """A mark that points at the rule; beyond the drawn span it lies at the edge and points out of it."""
    tip, back, half = STAFF_X + 8, STAFF_X + 14, 2.8
    points: tuple[Point, ...] = ((tip, y), (back, y - half), (back, y + half))
    if y < scale.top:
        points = ((tip, scale.top + 5), (back, scale.top + 5), ((tip + back) / 2, scale.top - 1))
    if y > scale.bottom:
        points = ((tip, scale.bottom - 5), (back, scale.bottom - 5), ((tip + back) / 2, scale.bottom + 1))
    return Polygon(points, "ink" if filled else "sheet", "ink", 0.8)


def _readings(row: CornerHeights, anchor: Decimal) -> list[tuple[float, str, str, Weight]]:
    """What is written beside the rule: departure, text, role, weight; highest first."""
    given: list[tuple[Decimal | None, str, Weight]] = [
        (row.target, "soft", "regular"),
        (row.as_left, "ink", "semibold"),
        (row.before, "ink", "regular"),
    ]
    found = [(float(v - anchor), _written(v, row.unit), role, weight) for v, role, weight in given if v is not None]
    return sorted(found, key=lambda reading: -reading[0])


def _labels(row: CornerHeights, anchor: Decimal, scale: _Scale) -> list[Shape]:
    readings = _readings(row, anchor)
    wanted = [min(max(scale.y(r[0]), scale.top), scale.bottom) for r in readings]
    shapes: list[Shape] = []
    placed = spread(wanted, TEXT * 1.12, scale.top, scale.bottom)
    for (_, text, role, weight), exact, y in zip(readings, wanted, placed, strict=True):
        if abs(exact - y) > LEADER_FROM:
            shapes.append(Line((STAFF_X + 15, exact), (LABEL_X - 1.5, y), "soft", 0.35))
        shapes.append(Label((LABEL_X, y + TEXT * 0.34), text, role, TEXT if role == "ink" else SMALL, weight))
        if weight == "semibold" and row.before is not None and row.as_left is not None:
            change = _written(row.as_left - row.before, row.unit, signed=True)
            beside = max(CHANGE_X, LABEL_X + len(text) * TEXT * 0.52 + 2)
            shapes.append(Label((beside, y + TEXT * 0.34), change, "soft", SMALL))
    return shapes


def notes(row: CornerHeights) -> tuple[str, ...]:
    """What the staff cannot draw, in words: readings that are missing, and missing limits."""
    found = []
    if row.before is None and row.before_words:
        found.append(f"before: {row.before_words}")
    if row.as_left is None and row.after_words:
        found.append(f"after: {row.after_words}")
    if row.lower is None and row.upper is None:
        found.append("no limits given")
    if row.verdict:
        found.append(row.verdict)
    return tuple(found)


def _wrapped(text: str, letters: int) -> list[str]:
    lines = [""]
    for word in text.split():
        while len(word) > letters:
            lines, word = [*lines, word[:letters]], word[letters:]
        joined = f"{lines[-1]} {word}".strip()
        lines = [*lines[:-1], joined] if len(joined) <= letters else [*lines, word]
    return [line for line in lines if line]


def _note_lines(row: CornerHeights, width: float) -> list[str]:
    letters = max(8, int((width - STAFF_X) / (SMALL * 0.5)))
    kept = [note if len(note) <= NOTE_LETTERS else note[: NOTE_LETTERS - 1] + "…" for note in notes(row)]
    return [line for note in kept for line in _wrapped(note, letters)]


def _words(row: CornerHeights) -> str:
    figures = (
        ("before", row.before), ("after", row.as_left), ("target", row.target), ("lower limit", row.lower),
        ("upper limit", row.upper), ("guard band", row.guard),
    )  # fmt: skip
    told = [f"{name} {_written(value, row.unit)} {row.unit}" for name, value in figures if value is not None]
    if row.before is None:
        return ", ".join([row.corner, *told, *notes(row)])
    return ", ".join([f"{row.corner}: {told[0]}", *told[1:], *notes(row)])


def _staff(row: CornerHeights, anchor: Decimal | None, scale: _Scale, width: float, height: float) -> Drawing:
    shapes: list[Shape] = []
    if anchor is not None:
        shapes += _band(row, anchor, scale)
    shapes += _rule(scale, row.target is not None)
    if anchor is not None:
        shown = [(row.before, False), (row.as_left, True)]
        shapes += [_pointer(scale.y(float(v - anchor)), scale, filled) for v, filled in shown if v is not None]
        shapes += _labels(row, anchor, scale)
    base = scale.bottom + TEXT * 1.5
    shapes.append(Label((STAFF_X - 3, base), row.corner, "ink", TEXT, "semibold"))
    for i, line in enumerate(_note_lines(row, width)):
        shapes.append(Label((STAFF_X - 3, base + (i + 1) * SMALL * 1.2), line, "soft", SMALL))
    return Drawing(width, height, tuple(shapes), _words(row))


def height_staffs(rows: Iterable[CornerHeights], width: float = 248.0, rule: float = 82.0) -> Drawing:
    """A row of staffs, one a corner, on one scale. `rule` is the length of the vertical rules in points.

    The drawing is as tall as its longest notes need. Readings beyond 50 mm above or 70 mm below the target are shown at
    the rule's end, pointing out of it, with their number.
    """
    rows = tuple(rows)
    each = width / max(len(rows), 1)
    anchors = _anchors(rows)
    scale = _scale(rows, anchors, TEXT * 0.6, TEXT * 0.6 + rule)
    lines = max((len(_note_lines(row, each)) for row in rows), default=0)
    height = scale.bottom + TEXT * 2 + lines * SMALL * 1.2
    staffs = [_staff(row, anchor, scale, each, height) for row, anchor in zip(rows, anchors, strict=True)]
    shapes = [shape for i, staff in enumerate(staffs) for shape in moved(staff.shapes, i * each, 0)]
    return Drawing(width, height, tuple(shapes), "; ".join(staff.words for staff in staffs))


def height_staff(
    corner: str,
    lower: Decimal | None = None,
    target: Decimal | None = None,
    upper: Decimal | None = None,
    before: Decimal | None = None,
    as_left: Decimal | None = None,
    width: float = 62.0,
    rule: float = 82.0,
) -> Drawing:
    """One staff by itself; see `height_staffs` for the row that shares a scale."""
    row = CornerHeights(corner, lower, target, upper, before, as_left)
    return replace(height_staffs((row,), width, rule), width=width)
