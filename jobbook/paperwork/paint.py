"""The painter of drawings on paper."""

from typing import Any

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from jobbook.core.drawing import Circle, Drawing, Label, Line, Polygon, Sector, Shape
from jobbook.paperwork import sheet
from jobbook.paperwork.typed import shown

_DASHES = (3, 2)


def paint(drawing: Drawing, canvas: Canvas) -> None:
    """Paint the drawing with its lower left corner at the canvas's origin."""
    canvas.saveState()
    canvas.translate(0, drawing.height)
    for shape in drawing.shapes:
        _paint(shape, canvas)
    canvas.restoreState()


def _pens(canvas: Any, fill: str, stroke: str, width: float) -> dict[str, int]:
    canvas.setLineWidth(width)
    canvas.setFillColor(sheet.colour(fill or "sheet"))
    canvas.setStrokeColor(sheet.colour(stroke or "ink"))
    return {"fill": int(bool(fill)), "stroke": int(bool(stroke))}


def _paint(shape: Shape, canvas: Any) -> None:
    match shape:
        case Line():
            _pens(canvas, "", shape.role, shape.width)
            canvas.setDash(_DASHES if shape.dashed else ())
            canvas.line(shape.start[0], -shape.start[1], shape.end[0], -shape.end[1])
            canvas.setDash()
        case Polygon():
            outline = canvas.beginPath()
            outline.moveTo(shape.points[0][0], -shape.points[0][1])
            for x, y in shape.points[1:]:
                outline.lineTo(x, -y)
            outline.close()
            canvas.drawPath(outline, **_pens(canvas, shape.fill, shape.stroke, shape.width))
        case Circle():
            pens = _pens(canvas, shape.fill, shape.stroke, shape.width)
            canvas.circle(shape.centre[0], -shape.centre[1], shape.radius, **pens)
        case Sector():
            (x, y), r = shape.centre, shape.radius
            pens = _pens(canvas, shape.fill, "", 0)
            canvas.wedge(x - r, -y - r, x + r, -y + r, shape.from_degrees, shape.sweep_degrees, **pens)
        case Label():
            canvas.setFillColor(sheet.colour(shape.role))
            canvas.setFont(sheet.SEMIBOLD if shape.weight == "semibold" else sheet.REGULAR, shape.size)
            write = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}
            write[shape.anchor](shape.at[0], -shape.at[1], shown(shape.text).replace("\n", " "))


class Painted(Flowable):
    """A drawing that stands in the text."""

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        sheet.fonts()
        self.drawing = drawing
        self.width, self.height = drawing.width, drawing.height

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        paint(self.drawing, self.canv)
