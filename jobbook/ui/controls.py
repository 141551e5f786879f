"""Labels, buttons and the plain boxes that every page is laid out from."""

from PySide6.QtCore import QEvent, QPoint, QSize, Qt
from PySide6.QtGui import (
    QFont,
    QFontMetrics,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPolygon,
    QResizeEvent,
    QShortcut,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QBoxLayout,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from jobbook.ui import look

Margin = int | tuple[int, int, int, int]  # all round, or left, top, right, bottom


def label(text: str, role: str = "", wrap: bool = False) -> QLabel:
    """A piece of text, always shown as it is typed: nothing in it is read as markup."""
    made = QLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setWordWrap(wrap)
    look.as_role(made, role)
    return made


def button(text: str, role: str = "plain", key: str = "") -> QPushButton:
    """A button that Enter presses too. `key` is its shortcut; its native spelling stands in the tool tip."""
    made = _Leaf(text) if role == "tab" else QPushButton(text)
    made.setAutoDefault(True)
    made.setAccessibleName(text)
    if key:
        made.setShortcut(QKeySequence(key))
        tell_key(made, key)
    look.as_role(made, role)
    return made


class _Leaf(QPushButton):
    """As wide as its words are when it is chosen and they are bold: nothing is cut then, and nothing moves."""

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        plain, bold = (self._advance(weight) for weight in (QFont.Weight.Normal, QFont.Weight.DemiBold))
        return hint if self.isChecked() else QSize(hint.width() + max(0, bold - plain), hint.height())

    def _advance(self, weight: QFont.Weight) -> int:
        font = QFont(self.font())
        font.setWeight(weight)
        return QFontMetrics(font).horizontalAdvance(self.text())


def tell_key(made: QPushButton, key: str) -> None:
    """Name in its tool tip the key that does the same."""
    made.setToolTip(f"{made.text()}  {QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)}")


def press_by(key: str, within: QWidget, pressed: QPushButton) -> None:
    """Let a key press the button while the focus is somewhere in `within`."""
    shortcut = QShortcut(QKeySequence(key), within)
    shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    shortcut.activated.connect(pressed.click)
    tell_key(pressed, key)


def rule() -> QFrame:
    made = QFrame()
    look.as_role(made, "rule")
    return made


def frame(role: str) -> QFrame:
    """A box of the style sheet: sheet, card, index, head, foot."""
    made = QFrame()
    look.as_role(made, role)
    return made


def column(*content: QWidget | QLayout | int, margin: Margin = 0, gap: int = look.UNIT) -> QVBoxLayout:
    """Things below one another; a number is a stretch of that weight."""
    made = QVBoxLayout()
    _fill(made, content, margin, gap)
    return made


def row(*content: QWidget | QLayout | int, margin: Margin = 0, gap: int = look.UNIT) -> QHBoxLayout:
    """Things beside one another; a number is a stretch of that weight."""
    made = QHBoxLayout()
    _fill(made, content, margin, gap)
    return made


def _fill(layout: QBoxLayout, content: tuple[QWidget | QLayout | int, ...], margin: Margin, gap: int) -> None:
    around = (margin,) * 4 if isinstance(margin, int) else margin
    layout.setContentsMargins(*around)
    layout.setSpacing(gap)
    for thing in content:
        if isinstance(thing, QWidget):
            layout.addWidget(thing)
        elif isinstance(thing, QLayout):
            layout.addLayout(thing)
        else:
            layout.addStretch(thing)


def at_most(widget: QWidget, width: int) -> QHBoxLayout:
    """The widget at the left, as wide as there is room, up to that width."""
    widget.setMaximumWidth(width)
    made = row()
    made.addWidget(widget, 1)
    made.addStretch(0)
    return made


def holding(layout: QLayout, role: str = "") -> QWidget:
    """A plain widget with that layout."""
    made = frame(role) if role else QWidget()
    made.setLayout(layout)
    return made


class ListBox(QComboBox):
    """A list that opens, with a small arrow that says so."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(look.UNIT)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        x, y, half = look.UNIT * 2, self.height() // 2, look.UNIT // 2
        x = x if self.isRightToLeft() else self.width() - x
        arrow = QPolygon([QPoint(x - half, y - half // 2), QPoint(x + half, y - half // 2), QPoint(x, y + half // 2)])
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour("soft"))
            painter.drawPolygon(arrow)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Turning the wheel over a form must not change an answer."""
        event.ignore()


def let_it_grow(widget: QWidget) -> None:
    """Let a widget that wraps be as narrow as its place and as tall as its text needs."""
    policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
    policy.setHeightForWidth(True)
    widget.setSizePolicy(policy)
    widget.setMinimumWidth(1)


class Said(QLabel):
    """A sentence that may be said: it takes room only while there is one."""

    def __init__(self, role: str) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        let_it_grow(self)
        look.as_role(self, role)
        self.hide()

    def setText(self, text: str) -> None:
        super().setText(text)
        self.setVisible(bool(text))

    def say(self, sentence: str, role: str) -> None:
        """Say it as what it is: "error", "kept" or "soft"."""
        look.as_role(self, role)
        self.setText(sentence)

    def clear(self) -> None:
        self.setText("")


class Elided(QLabel):
    """A line of text that ends in three dots where the room does, with the whole of it as its tool tip."""

    def __init__(self, text: str = "", role: str = "") -> None:
        super().__init__()
        self._whole = ""
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setMinimumWidth(look.UNIT * 4)
        look.as_role(self, role)
        self.show_text(text)

    def show_text(self, text: str) -> None:
        self._whole = text
        self.setAccessibleName(text)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._fit()

    def _fit(self) -> None:
        shown = self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, self.width())
        self.setToolTip(self._whole if shown != self._whole else "")
        if shown != self.text():
            super().setText(shown)


class Facing(QWidget):
    """Two sheets beside one another; where they do not fit side by side, one under the other.

    `alike`: both are as wide."""

    def __init__(self, left: QWidget, right: QWidget, alike: bool = False) -> None:
        super().__init__()
        self._sheets = (left, right)
        self._line = row(gap=look.UNIT * 2)
        for sheet in self._sheets:
            self._line.addWidget(sheet, 1 if alike else 0)
        self.setLayout(self._line)

    def minimumSizeHint(self) -> QSize:
        widest = max(sheet.minimumSizeHint().width() for sheet in self._sheets)
        by_width = self._line.hasHeightForWidth()  # the area then asks how high it is at its width
        return QSize(widest, 0 if by_width else self._line.minimumSize().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        needed = sum(sheet.minimumSizeHint().width() for sheet in self._sheets) + self._line.spacing()
        beside, under = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._line.setDirection(beside if needed <= event.size().width() else under)


def scrolling(content: QWidget) -> QScrollArea:
    """The content in an area that scrolls down when it must, and never sideways without need."""
    made = QScrollArea()
    made.setWidgetResizable(True)
    made.setFrameShape(QFrame.Shape.NoFrame)
    made.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
    made.setWidget(content)
    made.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return made
