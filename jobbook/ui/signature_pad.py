"""A pad on which a customer signs with pen, finger or mouse, and the field of a form that holds it."""

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from jobbook.core.desk.signature import HEIGHT, WIDTH, path_of, strokes_of
from jobbook.services.sheet.questions import Ask
from jobbook.ui import look
from jobbook.ui.controls import button
from jobbook.ui.fields import Field

PEN_WIDTH = 2.2
LINE_AT = 0.78  # of the height: the line on which people write


class SignaturePad(QWidget):
    """Keeps strokes while they are drawn. Touch and pen arrive as the mouse does; Delete clears it."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._strokes: list[list[tuple[float, float]]] = []
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.CrossCursor)
        self.setFixedSize(self.sizeHint())
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(self.tr("Signature: draw it with pen, finger or mouse; Delete clears it"))

    def sizeHint(self) -> QSize:
        return QSize(look.SIGNATURE_WIDTH, look.SIGNATURE_WIDTH * HEIGHT // WIDTH)

    def path(self) -> str:
        """The strokes as path data; empty where nothing was drawn."""
        return path_of(self._strokes)

    def show_path(self, path: str) -> None:
        self._strokes = [[(float(x), float(y)) for x, y in stroke] for stroke in strokes_of(path)]
        self.update()

    def clear(self) -> None:
        self._strokes = []
        self.update()
        self.changed.emit()

    def _point(self, event: QMouseEvent) -> tuple[float, float]:
        at = event.position()
        return at.x() * WIDTH / self.width(), at.y() * HEIGHT / self.height()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._strokes.append([self._point(event)])
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if event.buttons() and self._strokes:
            self._strokes[-1].append(self._point(event))
            self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.changed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.clear()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), look.colour("sheet"))
            painter.setPen(QPen(look.colour("bluing" if self.hasFocus() else "soft"), 1))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
            line = round(self.height() * LINE_AT)
            painter.setPen(QPen(look.colour("rule"), 1))
            painter.drawLine(look.UNIT * 2, line, self.width() - look.UNIT * 2, line)
            self._paint_strokes(painter)

    def _paint_strokes(self, painter: QPainter) -> None:
        pen = QPen(look.colour("ink"), PEN_WIDTH)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        for stroke in self._strokes:
            points = [QPointF(x * self.width() / WIDTH, y * self.height() / HEIGHT) for x, y in stroke]
            painter.drawPolyline(points if len(points) > 1 else points * 2)


class SignatureField(Field):
    """Asks for a signature; its answer is the path that was drawn."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.pad = SignaturePad()
        self.clear = button(self.tr("Clear"), "quiet")
        self.clear.clicked.connect(self.pad.clear)
        self.pad.changed.connect(self.changed)
        self._hold(self.pad, self.clear)

    def text(self) -> str:
        return self.pad.path()

    def set_text(self, text: str) -> None:
        self.pad.show_path(text)
