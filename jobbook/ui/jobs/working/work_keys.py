"""The buttons of the card: what may be done, with the key that does it in small letters beside it."""

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QStyle, QStyleOptionButton, QWidget

from jobbook.ui import look

TALL = look.UNIT * 5


class KeyButton(QPushButton):
    """A button that says its key. The key itself is caught by the page, so that it works without the focus."""

    def __init__(self, words: str, key: str = "", main: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self.key = key
        self.main = main
        self.setAutoDefault(True)
        self.setMinimumHeight(TALL)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(words)
        if key:
            self.setAccessibleDescription(self.tr("Key {key}").format(key=key))
        look.as_role(self, "main" if main else "plain")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A key that is held down presses once: the next step must not be done by the same touch. Up and down belong
        to the steps before and after the card."""
        if event.isAutoRepeat():
            event.accept()
        elif event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _widths(self) -> tuple[int, int]:
        words = QFontMetrics(look.font(look.BODY, semibold=True)).horizontalAdvance(self.text())
        key = QFontMetrics(look.font(look.SMALL)).horizontalAdvance(self.key)
        return words, key + look.UNIT if self.key else 0

    def sizeHint(self) -> QSize:
        return QSize(sum(self._widths()) + look.UNIT * 5, TALL)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        option = QStyleOptionButton()
        self.initStyleOption(option)
        option.text = ""
        with QPainter(self) as painter:
            self.style().drawControl(QStyle.ControlElement.CE_PushButton, option, painter, self)
            self._write(painter)

    def _write(self, painter: QPainter) -> None:
        words, key = self._widths()
        painter.setPen(look.colour(self._role()))
        painter.setFont(look.font(look.BODY, semibold=True))
        base = (self.height() + painter.fontMetrics().ascent() - painter.fontMetrics().descent()) // 2
        start = (self.width() - words - key) // 2
        painter.drawText(QPoint(start, base), self.text())
        painter.setFont(look.font(look.SMALL))
        painter.drawText(QPoint(start + words + look.UNIT, base), self.key)

    def _role(self) -> str:
        if not self.isEnabled():
            return "soft"
        return "sheet" if self.main else "bluing"


class KeyRow(QWidget):
    """The buttons of a card beside one another, in as many lines as their words need."""

    def __init__(self, buttons: Sequence[KeyButton], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._buttons = tuple(buttons)
        for button in self._buttons:
            button.setParent(self)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return max((place.y() + TALL for place in self._places(width)), default=0)

    def sizeHint(self) -> QSize:
        return QSize(max((b.sizeHint().width() for b in self._buttons), default=0), self.heightForWidth(self.width()))

    def minimumSizeHint(self) -> QSize:
        return QSize(max((b.sizeHint().width() for b in self._buttons), default=0), TALL if self._buttons else 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        for button, place in zip(self._buttons, self._places(self.width()), strict=True):
            width = button.sizeHint().width()
            x = self.width() - place.x() - width if self.isRightToLeft() else place.x()
            button.setGeometry(x, place.y(), width, TALL)

    def _places(self, width: int) -> list[QPoint]:
        places, x, y = [], 0, 0
        for button in self._buttons:
            wide = button.sizeHint().width()
            if x and x + wide > width:
                x, y = 0, y + TALL + look.UNIT
            places.append(QPoint(x, y))
            x += wide + look.UNIT * 5 // 4
        return places


def key_name(event: QKeyEvent) -> str:
    """The key as it stands on a button: "Enter" for both of them, a letter for a letter."""
    if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
        return "Enter"
    return event.text().upper()
