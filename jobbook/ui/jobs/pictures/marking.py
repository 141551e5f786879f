"""One picture large, with its marks painted over it and never into it; new ones are drawn by mouse or by keys."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from jobbook.core.record.files import WHOLE, Mark
from jobbook.services.pictures import arrow_lines
from jobbook.ui import look

STEP = WHOLE // 50  # how far an arrow key goes
FINER = 5  # with Shift it goes so much less
KEYS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}

Spot = tuple[int, int]


class MarkedPicture(QWidget):
    """`drawn` carries a new mark. By keys: the arrow keys walk a cross, Space begins a mark and ends it."""

    drawn = Signal(object)  # Mark

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picture = QPixmap()
        self._marks: tuple[Mark, ...] = ()
        self.shape = "ring"
        self._from: Spot | None = None
        self._at: Spot = (WHOLE // 2, WHOLE // 2)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(look.UNIT * 20, look.UNIT * 20)

    def show_picture(self, picture: QPixmap, name: str, marks: tuple[Mark, ...]) -> None:
        self._picture, self._marks, self._from = picture, marks, None
        self.setAccessibleName(self.tr("{0}, {1} marks").format(name, len(marks)))
        self.update()

    def pixmap(self) -> QPixmap:
        return self._picture

    def sizeHint(self) -> QSize:
        return QSize(look.UNIT * 60, look.UNIT * 45)

    def place(self) -> QRect:
        """Where the picture stands in the widget."""
        size = self._picture.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        corner = QPoint((self.width() - size.width()) // 2, (self.height() - size.height()) // 2)
        return QRect(corner, size)

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            if self._picture.isNull():
                return
            painter.setRenderHints(QPainter.RenderHint.SmoothPixmapTransform | QPainter.RenderHint.Antialiasing)
            painter.drawPixmap(self.place(), self._picture)
            drawing = (Mark(self.shape, *self._from, *self._at),) if self._from is not None else ()
            for mark in sorted((*self._marks, *drawing), key=lambda one: one.shape != "cover"):
                self._paint(painter, mark)
            if self.hasFocus():
                self._paint_cross(painter)

    def _paint(self, painter: QPainter, mark: Mark) -> None:
        start, end = self._point((mark.x1, mark.y1)), self._point((mark.x2, mark.y2))
        box = QRect(start, end).normalized()
        if mark.shape == "cover":
            painter.fillRect(box, look.picture_ink("line"))
            return
        for role, width in (("halo", look.UNIT * 3 // 4), ("line", look.UNIT // 4)):
            painter.setPen(QPen(look.picture_ink(role), width))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            if mark.shape == "ring":
                painter.drawEllipse(box)
            else:
                for one, other in arrow_lines(start.x(), start.y(), end.x(), end.y()):
                    painter.drawLine(QPoint(round(one[0]), round(one[1])), QPoint(round(other[0]), round(other[1])))

    def _paint_cross(self, painter: QPainter) -> None:
        at, arm = self._point(self._at), look.UNIT
        for role, width in (("halo", 3), ("line", 1)):
            painter.setPen(QPen(look.picture_ink(role), width))
            painter.drawLine(at - QPoint(arm, 0), at + QPoint(arm, 0))
            painter.drawLine(at - QPoint(0, arm), at + QPoint(0, arm))

    def _point(self, spot: Spot) -> QPoint:
        place = self.place()
        return QPoint(
            place.x() + spot[0] * (place.width() - 1) // WHOLE, place.y() + spot[1] * (place.height() - 1) // WHOLE
        )

    def _spot(self, point: QPoint) -> Spot:
        place = self.place()
        across = (point.x() - place.x()) * WHOLE // max(1, place.width() - 1)
        down = (point.y() - place.y()) * WHOLE // max(1, place.height() - 1)
        return min(max(across, 0), WHOLE), min(max(down, 0), WHOLE)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self._from = self._at = self._spot(event.position().toPoint())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._at = self._spot(event.position().toPoint())
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._at = self._spot(event.position().toPoint())
        self._finish()

    def _finish(self) -> None:
        """A mark is kept where it has some size; a mere click is none."""
        begun, self._from = self._from, None
        if begun is not None and max(abs(begun[0] - self._at[0]), abs(begun[1] - self._at[1])) >= STEP:
            self.drawn.emit(Mark(self.shape, *begun, *self._at))
        self.update()

    def _walk(self, way: Spot, step: int) -> None:
        x, y = (min(max(at + one * step, 0), WHOLE) for at, one in zip(self._at, way, strict=True))
        self._at = (x, y)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        way = KEYS.get(Qt.Key(event.key()))
        if way is not None and not event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self._walk(way, STEP // FINER if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else STEP)
        elif event.key() == Qt.Key.Key_Space:
            if self._from is None:
                self._from = self._at
            else:
                self._finish()
        elif event.key() == Qt.Key.Key_Escape and self._from is not None:
            self._from = None
            self.update()
        else:
            event.ignore()
