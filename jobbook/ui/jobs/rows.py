"""Lines of marks and words, and lines that can be pressed."""

from collections.abc import Iterable
from html import escape

from PySide6.QtCore import QPoint, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QBoxLayout,
    QFrame,
    QLabel,
    QScrollArea,
    QStyle,
    QStyleOption,
    QVBoxLayout,
    QWidget,
)

from jobbook.ui import controls, look

SMALL_MARK = look.UNIT * 2.0  # a mark in a line of many
PRESSES = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
KEYPAD = Qt.KeyboardModifier.KeypadModifier


def label(text: str = "", role: str = "", wrap: bool = False) -> QLabel:
    """A label of plain text that, where it wraps, is as narrow as its place and as tall as its text needs."""
    made = controls.label(text, role, wrap)
    if wrap:
        controls.let_it_grow(made)
        made.setAlignment(Qt.AlignmentFlag.AlignLeading | Qt.AlignmentFlag.AlignTop)
    return made


def runs(parts: Iterable[tuple[str, str, bool]]) -> str:
    """Rich text of (words, colour role, semibold) runs. The words are escaped here and only here."""
    spans = (
        f'<span style="color:{look.colour(role).name()};font-weight:{600 if strong else 400}">{escape(words)}</span>'
        for words, role, strong in parts
    )
    return "".join(spans)


def rich_label(parts: Iterable[tuple[str, str, bool]] = ()) -> QLabel:
    """A wrapping label of several runs."""
    made = QLabel(runs(parts))
    made.setTextFormat(Qt.TextFormat.RichText)
    made.setWordWrap(True)
    controls.let_it_grow(made)
    return made


def unbroken(words: str) -> str:
    """The words with spaces that no line breaks at."""
    return words.replace(" ", "\u00a0")


def level_with_text(mark: QWidget) -> QVBoxLayout:
    """A mark at the height of the first line of the words beside it."""
    made = QVBoxLayout()
    made.setContentsMargins(0, look.UNIT // 4, 0, 0)
    made.addWidget(mark)
    made.addStretch(1)
    return made


def clear(layout: QBoxLayout) -> None:
    """Take every widget out of a layout and let it go."""
    while (item := layout.takeAt(0)) is not None:
        widget = item.widget()
        if widget is not None:
            widget.hide()
            widget.setParent(None)
            widget.deleteLater()


class RowButton(QAbstractButton):
    """A line of marks and labels that can be pressed, with mouse, Enter or space."""

    def __init__(self, role: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        look.as_role(self, role)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in PRESSES and not event.isAutoRepeat() and not event.modifiers() & ~KEYPAD:
            self.click()
            return
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        option = QStyleOption()
        option.initFrom(self)
        if self.isChecked():
            option.state |= QStyle.StateFlag.State_On
        with QPainter(self) as painter:
            self.style().drawPrimitive(QStyle.PrimitiveElement.PE_Widget, option, painter, self)

    def sizeHint(self) -> QSize:
        layout = self.layout()
        return layout.sizeHint() if layout is not None else QSize(0, 0)


def let_clicks_through(*widgets: QWidget) -> None:
    """Labels on a line that is pressed pass the mouse on to the line."""
    for widget in widgets:
        widget.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)


class Scrolled(QWidget):
    """What an area scrolls: as wide as the area, and as high as its texts need at that width."""

    resized = Signal()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def minimumSizeHint(self) -> QSize:
        layout = self.layout()
        return QSize(layout.minimumSize().width() if layout is not None else 0, 0)


class Following(QScrollArea):
    """An area that scrolls to what gets the focus, whichever key or act moved it there.

    With `arrows` false the up and down keys are left to whoever lies around the area."""

    def __init__(self, content: QWidget, arrows: bool = True) -> None:
        super().__init__()
        self._arrows = arrows
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(content)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._follow)

    def bring(self, widget: QWidget) -> None:
        """Scroll until all of it is in sight, or where it does not fit, until it begins at the top."""
        content = self.widget()
        if content is None:
            return
        top = widget.mapTo(content, QPoint(0, 0)).y()
        lowest = top + widget.height() + look.UNIT - self.viewport().height()
        bar = self.verticalScrollBar()
        bar.setValue(min(top, max(bar.value(), lowest)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._arrows and event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _follow(self, old: QWidget | None, new: QWidget | None) -> None:
        content = self.widget()
        if new is not None and content is not None and content.isAncestorOf(new):
            self.ensureWidgetVisible(new, 0, look.UNIT * 4)
