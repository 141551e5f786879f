"""A signature that was drawn: its strokes as path data, and the text that stood above it when it was drawn.

The path is that of SVG 1.1, section 8.3, with the two commands M and L and whole numbers, in a box of WIDTH by HEIGHT.
"""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256

from jobbook.core.drawing import Drawing, Line
from jobbook.core.errors import Refused
from jobbook.core.record.canonical import canonical, clean_text

WIDTH, HEIGHT = 1000, 250
NEAR = 3  # a point no further than this from the one before it is left out: hands and screens tremble
FEWEST, MOST = 3, 6000  # points of a signature; fewer are a slip of the finger
_PATH = re.compile(r"(?:M[0-9]{1,4} [0-9]{1,4}(?:L[0-9]{1,4} [0-9]{1,4})*)+")
_STROKE = re.compile(r"M[^M]+")
_POINT = re.compile(r"([0-9]+) ([0-9]+)")

Point = tuple[int, int]
Stroke = tuple[Point, ...]


@dataclass(frozen=True)
class Signed:
    """What was signed: the text word for word, its SHA-256 in hex, and the strokes. It is kept sealed as one text."""

    text: str
    digest: str
    path: str

    @property
    def is_whole(self) -> bool:
        """Whether text and digest still belong together."""
        return digest_of(self.text) == self.digest


def digest_of(text: str) -> str:
    return sha256(text.encode()).hexdigest()


def signed(text: str, path: str) -> Signed:
    """A text under a drawn signature. Refused where nothing, or hardly anything, was drawn."""
    points = len(_POINT.findall(path)) if _PATH.fullmatch(path) else 0
    if points < FEWEST:
        raise Refused(
            "Nothing was signed: draw the signature with pen, finger or mouse, or keep it as given otherwise."
        )
    if points > MOST:
        raise Refused("Nothing was signed: there are more strokes than a signature has. Clear it, and draw it again.")
    kept = clean_text(text)
    return Signed(kept, digest_of(kept), path)


def to_text(one: Signed) -> str:
    return canonical({"text": one.text, "sha256": one.digest, "path": one.path})


def from_text(text: str) -> Signed:
    plain = json.loads(text)
    return Signed(plain["text"], plain["sha256"], plain["path"])


def path_of(strokes: Sequence[Sequence[tuple[float, float]]]) -> str:
    """Strokes in the box as path data; points outside it are drawn in to its edge."""
    return "".join(_written(kept) for kept in (_thinned(stroke) for stroke in strokes) if kept)


def _thinned(stroke: Sequence[tuple[float, float]]) -> list[Point]:
    kept: list[Point] = []
    for x, y in stroke:
        point = min(max(round(x), 0), WIDTH), min(max(round(y), 0), HEIGHT)
        if not kept or max(abs(point[0] - kept[-1][0]), abs(point[1] - kept[-1][1])) > NEAR:
            kept.append(point)
    return kept


def _written(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{x} {y}" for x, y in points)


def strokes_of(path: str) -> tuple[Stroke, ...]:
    found = (_POINT.findall(stroke) for stroke in _STROKE.findall(path))
    return tuple(tuple((int(x), int(y)) for x, y in points) for points in found)


def drawing(path: str, width: float, name: str) -> Drawing:
    """The signature as a drawing of this width in points."""
    scale = width / WIDTH
    shapes: list[Line] = []
    for stroke in strokes_of(path):
        ends = [(x * scale, y * scale) for x, y in stroke]
        pairs = zip(ends, ends[1:] or ends, strict=False)
        shapes += [Line(start, end, "ink", 1.1) for start, end in pairs]
    return Drawing(width, HEIGHT * scale, tuple(shapes), f"Signature of {name}" if name else "A signature")
