"""Drawings on paper, looked at through a renderer that knows nothing of how they were painted."""

from io import BytesIO

import pypdfium2
import pytest
from reportlab.pdfgen.canvas import Canvas

from jobbook.core.drawing import MARKS, Drawing, Label, Line, Polygon, mark
from jobbook.paperwork import sheet
from jobbook.paperwork.paint import paint

from .reading import pages

SCALE = 4


def painted(drawing):
    """The drawing as a grey picture, SCALE pixels a point; and the file it was painted in."""
    sheet.fonts()
    out = BytesIO()
    canvas = Canvas(out, pagesize=(drawing.width, drawing.height))
    paint(drawing, canvas)
    canvas.save()
    document = pypdfium2.PdfDocument(out.getvalue())
    picture = document[0].render(scale=SCALE, grayscale=True).to_pil()
    document.close()
    return picture, out.getvalue()


def dark(picture, x, y):
    return picture.getpixel((int(x * SCALE), int(y * SCALE))) < 128


@pytest.mark.parametrize(
    ("kind", "middle", "left", "right"),
    [
        ("ring", False, False, False),
        ("half", None, False, True),
        ("disc", True, True, True),
        ("double", True, True, True),
        ("dash", True, True, True),
    ],
)
def test_marks_differ_by_their_shape(kind, middle, left, right):
    picture, _ = painted(mark(kind, 40))
    if middle is not None:
        assert dark(picture, 20, 20) is middle
    assert dark(picture, 14, 20) is left
    assert dark(picture, 26, 20) is right


def test_no_two_marks_look_the_same():
    seen = {painted(mark(kind, 40))[0].tobytes() for kind in MARKS}
    assert len(seen) == len(MARKS)


def test_y_runs_downward_on_paper_as_in_the_drawing():
    corner = Polygon(((2, 2), (8, 2), (8, 8), (2, 8)), "ink", "")
    picture, _ = painted(Drawing(40, 20, (corner,), ""))
    assert dark(picture, 5, 5)
    assert not dark(picture, 5, 15)


def test_a_dashed_line_has_gaps_and_a_plain_one_has_none():
    lines = (Line((0, 5), (40, 5), "ink", 2), Line((0, 15), (40, 15), "ink", 2, dashed=True))
    picture, _ = painted(Drawing(40, 20, lines, ""))
    assert all(dark(picture, x, 5) for x in range(1, 39))
    assert {dark(picture, x, 15) for x in range(1, 39)} == {True, False}


def test_labels_are_text_and_hang_by_their_anchor():
    labels = [Label((30, y), "mm", "ink", 8, "regular", a) for y, a in ((10, "start"), (20, "middle"), (30, "end"))]
    picture, pdf = painted(Drawing(60, 40, tuple(labels), ""))
    assert pages(pdf)[0].split() == ["mm", "mm", "mm"]
    ink = [[x for x in range(60 * SCALE) if any(picture.getpixel((x, r)) < 128 for r in rows)] for rows in _rows()]
    assert min(ink[0]) >= 30 * SCALE - 1
    assert abs((min(ink[1]) + max(ink[1])) / 2 - 30 * SCALE) <= 3
    assert max(ink[2]) <= 30 * SCALE + 1


def _rows():
    return [range((base - 5) * SCALE, base * SCALE) for base in (10, 20, 30)]
