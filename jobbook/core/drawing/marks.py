"""Marks: shape carries the meaning, so that they read the same without colour."""

from jobbook.core.drawing.shapes import TEXT, Circle, Drawing, Label, Line, Sector, Shape

MARKS = {
    "ring": "not begun",
    "half": "begun",
    "disc": "done",
    "double": "checked by a second person",
    "bar": "declined or not possible",
    "dash": "does not apply",
    "query": "unknown",
}

_ANSWERS = {
    "done": "disc",
    "not done": "ring",
    "not possible": "bar",
    "declined": "bar",
    "not applicable": "dash",
    "unknown": "query",
    "sublet": "disc",
}


def mark_of_answer(answer: str) -> str:
    """The kind of mark for one of the answers of the record. An answer that is not one of them is a KeyError."""
    return _ANSWERS[answer]


def _shapes(kind: str, x: float, y: float, r: float, role: str) -> tuple[Shape, ...]:
    stroke = r * 0.26
    ring = Circle((x, y), r - stroke / 2, "", role, stroke)
    thin = Circle((x, y), r - stroke * 0.3, "", role, stroke * 0.6)
    drawn: dict[str, tuple[Shape, ...]] = {
        "ring": (ring,),
        "half": (ring, Sector((x, y), r - stroke / 2, 270.0, 180.0, role)),
        "disc": (Circle((x, y), r, role, ""),),
        "double": (thin, Circle((x, y), r * 0.55, role, "")),
        "bar": (ring, Line((x - r * 1.25, y + r * 1.25), (x + r * 1.25, y - r * 1.25), role, stroke)),
        "dash": (Line((x - r * 0.7, y), (x + r * 0.7, y), role, stroke),),
        "query": (thin, Label((x, y + r * 0.55), "?", role, r * 1.6, "semibold", "middle")),
    }
    return drawn[kind]


def mark(kind: str, size: float = 10.0, role: str = "ink") -> Drawing:
    """One mark in a square of `size` points. `kind` is a key of MARKS."""
    return Drawing(size, size, _shapes(kind, size / 2, size / 2, size * 0.38, role), MARKS[kind])


def joint_cell(kind: str, text: str = "", role: str = "ink", width: float = 80.0) -> Drawing:
    """A cell of the joint sheet: the mark, and beside it what was set, reached or by whom."""
    height = TEXT * 1.4
    shapes = _shapes(kind, height / 2, height / 2, height * 0.33, role)
    label = Label((height + 2, height / 2 + TEXT * 0.34), text)
    return Drawing(
        width, height, (*shapes, label) if text else shapes, f"{MARKS[kind]}: {text}" if text else MARKS[kind]
    )
