"""A page that is a list over a query: find-as-you-type, a filter, a first act, and words where there is nothing yet."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QLineEdit, QPushButton, QStackedWidget, QWidget

from jobbook.ui import look
from jobbook.ui.controls import button, column, frame, label, row
from jobbook.ui.tables import Column, Fetch, RecordModel, RecordTable

TYPING_PAUSE_MS = 120


@dataclass(frozen=True)
class ListWords:
    """What the page says. `act` is the first act, with its shortcut; `nothing` says what will stand here."""

    title: str
    find: str
    nothing: str
    not_found: str
    act: str = ""
    other: str = ""  # another act beside the first
    other_key: str = ""


class Empty(QWidget):
    """Says what will stand here, and offers the first act."""

    act_clicked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = label("", "soft", wrap=True)
        self._words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._words.setMaximumWidth(look.DIALOG_WIDTH)
        self._words.setMinimumWidth(look.DIALOG_WIDTH * 3 // 4)
        self.act = button("", "main")
        self.act.clicked.connect(self.act_clicked)
        self.setLayout(column(2, row(1, self._words, 1), row(1, self.act, 1), 3, gap=look.UNIT * 2))

    def say(self, words: str, act: str = "") -> None:
        self._words.setText(words)
        self.act.setText(act)
        self.act.setAccessibleName(act)
        self.act.setVisible(bool(act))


class FindField(QLineEdit):
    """A line whose down key leads into the list below it."""

    down = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.down.emit()
        else:
            super().keyPressEvent(event)


class RecordList(QWidget):
    """The list itself. `asked` carries text and filter after a pause in typing; `opened` a record."""

    asked = Signal(str, str)
    opened = Signal(object)
    act_clicked = Signal()
    other_clicked = Signal()

    def __init__(
        self,
        words: ListWords,
        columns: Sequence[Column],
        fetch: Fetch,
        filters: Sequence[tuple[str, str]] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._words = words
        self.model = RecordModel(columns, fetch, self)
        self.table = RecordTable(words.title, self.model)
        self.empty = Empty()
        self.find_field = FindField()
        self.find_field.setPlaceholderText(words.find)
        self.find_field.setAccessibleName(words.find)
        self.find_field.setMinimumWidth(look.FIELD_WIDTH * 3 // 2)
        self.find_field.setClearButtonEnabled(True)
        self._filters = QButtonGroup(self)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(TYPING_PAUSE_MS)
        self.act = button(words.act, "main")
        self.other = button(words.other, "plain", words.other_key)
        self._lay_out(filters)
        self._connect()

    def _lay_out(self, filters: Sequence[tuple[str, str]]) -> None:
        self._stack = QStackedWidget()
        self._stack.addWidget(self.table)
        self._stack.addWidget(self.empty)
        head = row(label(self._words.title, "title"), 1, self.other, self.act, gap=look.UNIT * 2)
        asking = row(self.find_field, *self._filter_buttons(filters), 1)
        sheet = frame("sheet")
        asking.setContentsMargins(look.UNIT, look.UNIT, look.UNIT, look.UNIT)
        sheet.setLayout(column(asking, self._stack, gap=0, margin=(look.UNIT, 1, look.UNIT, 1)))
        self.setLayout(column(head, sheet, gap=look.UNIT * 2))
        self.act.setVisible(bool(self._words.act))
        self.other.setVisible(bool(self._words.other))

    def _filter_buttons(self, filters: Sequence[tuple[str, str]]) -> list[QPushButton]:
        made = []
        for value, words in filters:
            one = button(words, "tab")
            one.setCheckable(True)
            one.setProperty("value", value)
            self._filters.addButton(one)
            made.append(one)
        if made:
            made[0].setChecked(True)
        return made

    def _connect(self) -> None:
        self.find_field.textEdited.connect(lambda _: self._pause.start())
        self.find_field.textChanged.connect(lambda text: None if text else self._pause.start())
        self.find_field.down.connect(self._into_the_list)
        self._filters.buttonClicked.connect(lambda _: self._ask())
        self._pause.timeout.connect(self._ask)
        self.table.opened.connect(self.opened)
        self.act.clicked.connect(self.act_clicked)
        self.other.clicked.connect(self.other_clicked)
        self.empty.act_clicked.connect(self.act_clicked)

    def _into_the_list(self) -> None:
        self._pause.stop()
        self._ask()
        self.table.choose_first()
        self.table.setFocus()

    def filter(self) -> str:
        checked = self._filters.checkedButton()
        return str(checked.property("value")) if checked is not None else ""

    def _ask(self) -> None:
        self.asked.emit(self.find_field.text(), self.filter())

    def refresh(self) -> None:
        """Read again what is in sight, and stay there."""
        self.table.refresh()
        self._show_or_say()

    def reload(self) -> None:
        """Read the list again, and say what to do where there is nothing in it."""
        self.table.reload()
        self._show_or_say()

    def _show_or_say(self) -> None:
        looked_for = bool(self.find_field.text().strip() or self.filter())
        if self.model.rowCount():
            self._stack.setCurrentWidget(self.table)
        else:
            self.empty.say(*self._empty_words(looked_for))
            self._stack.setCurrentWidget(self.empty)

    def _empty_words(self, looked_for: bool) -> tuple[str, str]:
        return (self._words.not_found, "") if looked_for else (self._words.nothing, self._words.act)
