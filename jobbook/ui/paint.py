"""The window's painter of drawings, and the small widgets that show one."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QPainter, QPaintEvent, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from jobbook.core.drawing import Circle, Drawing, Label, Line, Polygon, Sector, Shape, mark, scaled
from jobbook.ui import look


def paint(painter: QPainter, drawing: Drawing, x: float = 0.0, y: float = 0.0) -> None:
    """Paint the drawing with its upper left corner at x, y; a point of the drawing is a pixel of the painter."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(x, y)
    for shape in drawing.shapes:
        _paint_shape(painter, shape)
    painter.restore()


def _paint_shape(painter: QPainter, shape: Shape) -> None:
    match shape:
        case Line():
            painter.setPen(_pen(shape.role, shape.width, shape.dashed))
            painter.drawLine(QPointF(*shape.start), QPointF(*shape.end))
        case Polygon():
            _fill(painter, shape)
            painter.drawPolygon(QPolygonF([QPointF(*point) for point in shape.points]))
        case Circle():
            _fill(painter, shape)
            painter.drawEllipse(QPointF(*shape.centre), shape.radius, shape.radius)
        case Sector():
            (x, y), r = shape.centre, shape.radius
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour(shape.fill))
            painter.drawPie(
                QRectF(x - r, y - r, 2 * r, 2 * r), round(shape.from_degrees * 16), round(shape.sweep_degrees * 16)
            )
        case Label():
            _write(painter, shape)


def _pen(role: str, width: float, dashed: bool = False) -> QPen:
    pen = QPen(look.colour(role), width)
    if dashed:
        pen.setDashPattern([3.0, 2.0])
    return pen


def _fill(painter: QPainter, shape: Polygon | Circle) -> None:
    painter.setPen(_pen(shape.stroke, shape.width) if shape.stroke else QPen(Qt.PenStyle.NoPen))
    painter.setBrush(QBrush(look.colour(shape.fill)) if shape.fill else QBrush(Qt.BrushStyle.NoBrush))


def _write(painter: QPainter, label: Label) -> None:
    font = look.font(1, label.weight == "semibold")
    font.setPixelSize(max(1, round(label.size)))
    painter.setFont(font)
    painter.setPen(look.colour(label.role))
    width = painter.fontMetrics().horizontalAdvance(label.text)
    shift = {"start": 0.0, "middle": width / 2, "end": float(width)}[label.anchor]
    painter.drawText(QPointF(label.at[0] - shift, label.at[1]), label.text)


class DrawingWidget(QWidget):
    """Shows one drawing, enlarged by `factor`; its words are what a screen reader says."""

    def __init__(self, drawing: Drawing | None = None, factor: float = 1.0, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._factor = factor
        self._drawing: Drawing | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.show_drawing(drawing)

    def show_drawing(self, drawing: Drawing | None) -> None:
        self._drawing = scaled(drawing, self._factor) if drawing is not None else None
        self.setAccessibleName(drawing.words if drawing is not None else "")
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        if self._drawing is None:
            return QSize(0, 0)
        return QSize(round(self._drawing.width), round(self._drawing.height))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._drawing is not None:
            with QPainter(self) as painter:
                painter.setLayoutDirection(Qt.LayoutDirection.LeftToRight)  # FL stays on the left, and +3 is no 3+
                paint(painter, self._drawing)


MARK_SIZE = 20.0
FINE = 2.0


def mark_drawing(kind: str, role: str = "ink", size: float = MARK_SIZE) -> Drawing:
    """The mark of that kind ("ring", "half", "disc", "double", "bar", ...) at the size of a text line."""
    return mark(kind, size, role)


class MarkLabel(DrawingWidget):
    """A mark beside a word. `words` is what it says to whoever cannot see it, beyond the mark's own meaning."""

    def __init__(
        self,
        kind: str,
        role: str = "ink",
        words: str = "",
        parent: QWidget | None = None,
        size: float = MARK_SIZE,
    ) -> None:
        super().__init__(None, size / MARK_SIZE, parent)
        self.show_mark(kind, role, words)

    def show_mark(self, kind: str, role: str = "ink", words: str = "") -> None:
        drawing = mark_drawing(kind, role)
        self.show_drawing(drawing)
        self.setAccessibleName(f"{words}: {drawing.words}" if words else drawing.words)


def mark_picture(kind: str, role: str = "ink") -> QPixmap:
    """A mark as a picture for a cell of a list, drawn at twice its size so that it is sharp on fine screens."""
    drawing = mark_drawing(kind, role)
    picture = QPixmap(round(drawing.width * FINE), round(drawing.height * FINE))
    picture.setDevicePixelRatio(FINE)
    picture.fill(Qt.GlobalColor.transparent)
    with QPainter(picture) as painter:
        paint(painter, drawing)
    return picture
