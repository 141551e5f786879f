"""A figure on a line with its limits: the band that is in order hatched, a guard band at either edge where there is
one, and a pointer where the figure lies."""

from dataclasses import dataclass

from jobbook.core.drawing.shapes import SMALL, TEXT, Drawing, Label, Line, Polygon, Shape, hatch

_EDGE = 20.0
_TOP, _TALL = 30.0, 16.0


@dataclass(frozen=True)
class Band:
    """Limits and the figure, in one unit, with the words that stand at each. `guard` is the width of the guard band
    on either side of a limit; nought for none."""

    value: float
    lower: float
    upper: float
    value_words: str
    lower_words: str
    upper_words: str
    guard: float = 0.0
    guard_words: str = ""


def band_drawing(band: Band, words: str, width: float = 248.0) -> Drawing:
    """The band. A figure far outside lies at the end of the line and points out of it; its words say how large it is.

    `words` is what the drawing says to whoever cannot see it.
    """
    scale = _Scale(band, width)
    low, high = scale.x(band.lower), scale.x(band.upper)
    shapes: list[Shape] = [*hatch(low, _TOP, high - low, _TALL)] if high > low else []
    shapes += _guards(band, scale)
    shapes += [Line((x, _TOP - 4), (x, _TOP + _TALL + 4), "ink", 0.9) for x in (low, high)]
    shapes.append(Line((_EDGE, _TOP + _TALL), (width - _EDGE, _TOP + _TALL), "ink", 0.8))
    base = _TOP + _TALL + 5 + TEXT
    shapes += _limits(band, low, high, base)
    shapes += _pointer(band, scale)
    if band.guard_words:
        shapes.append(Label((_EDGE, base + SMALL * 1.7), band.guard_words, "soft", SMALL))
    return Drawing(width, base + SMALL * (2.4 if band.guard_words else 0.7), tuple(shapes), words)


class _Scale:
    """Where a figure lies on the line; a margin is left on either side of the limits."""

    def __init__(self, band: Band, width: float) -> None:
        span = max(band.upper - band.lower, band.guard * 4, abs(band.upper) * 1e-6, 1e-12)
        self._from, self._to = band.lower - span * 0.45, band.upper + span * 0.45
        self._left, self._right = _EDGE, width - _EDGE

    def x(self, figure: float) -> float:
        share = (figure - self._from) / (self._to - self._from)
        return self._left + min(max(share, 0.0), 1.0) * (self._right - self._left)

    def holds(self, figure: float) -> bool:
        return self._from <= figure <= self._to


def _guards(band: Band, scale: _Scale) -> list[Shape]:
    if not band.guard:
        return []
    shapes: list[Shape] = []
    for limit in (band.lower, band.upper):
        left, right = scale.x(limit - band.guard), scale.x(limit + band.guard)
        corners = ((left, _TOP), (right, _TOP), (right, _TOP + _TALL), (left, _TOP + _TALL))
        shapes.append(Polygon(corners, "rule", "soft", 0.4))
    return shapes


def _limits(band: Band, low: float, high: float, base: float) -> list[Shape]:
    apart = (len(band.lower_words) + len(band.upper_words)) * TEXT * 0.27
    if high - low > apart:
        return [_middle(low, base, band.lower_words), _middle(high, base, band.upper_words)]
    return [
        Label((low, base), band.lower_words, "ink", TEXT, "regular", "end"),
        Label((high, base), band.upper_words, "ink", TEXT, "regular", "start"),
    ]


def _middle(x: float, base: float, words: str) -> Label:
    return Label((x, base), words, "ink", TEXT, "regular", "middle")


def _pointer(band: Band, scale: _Scale) -> list[Shape]:
    x, tip = scale.x(band.value), _TOP + _TALL
    half = len(band.value_words) * TEXT * 0.27
    at = min(max(x, half + 2), scale.x(float("inf")) + _EDGE - half - 2)
    words = Label((at, _TOP - 14), band.value_words, "ink", TEXT * 1.15, "semibold", "middle")
    if scale.holds(band.value):
        head = ((x, tip), (x - 4, tip - 10), (x + 4, tip - 10))
        return [Line((x, _TOP - 9), (x, tip - 8), "ink", 1.1), Polygon(head, "ink", "ink", 0.5), words]
    out = 1 if band.value > band.upper else -1
    y = _TOP + _TALL / 2
    head = ((x + out * 10, y), (x, y - 4), (x, y + 4))
    return [Polygon(head, "ink", "ink", 0.5), words]
