"""A list on the left page and the card of one thing on the right: people, tools, figures."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from jobbook.services.sheet.sheets import Ask
from jobbook.ui import look
from jobbook.ui.controls import Said, button, column, frame, label, press_by, row, scrolling
from jobbook.ui.forms import UNREMEMBERED, Form, Section
from jobbook.ui.lists import Empty
from jobbook.ui.tables import Column, RecordModel, RecordTable, all_of


class CardFile(QWidget):
    """Shows records and lets one of them, or a new one, be kept.

    `chosen` carries the record whose card is to be shown, `handed_in` the answers; `begun` says that a new one is
    wanted. `confirmed` hands the answers in once more, after a doubt was read.
    """

    chosen = Signal(object)
    begun = Signal()
    handed_in = Signal(dict)
    confirmed = Signal(dict)

    def __init__(
        self,
        name: str,
        columns: Sequence[Column],
        asks: Sequence[Ask | Section],
        act: str,
        nothing: str,
        below: QWidget | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._rows: tuple[Any, ...] = ()
        self._carded: Any = None  # whose card it is; reading the list again must not take away what is being typed
        self.table = RecordTable(name, RecordModel(columns, lambda after, limit: all_of(self._rows), self))
        self.empty = Empty()
        self.empty.say(nothing, act)
        self.new = button(act)
        self.title = label(act, "title")
        self.form = Form(asks, columns=2)
        self.said = Said("error")
        self.note = Said("small")  # what is said while one types
        self.keep = button(self.tr("Keep"), "main")
        self._handed_in = False  # what stands on the card was handed in, and is not given up
        self._shown: dict[str, str] = {}  # what stood on the card before anybody typed
        self._given_up: dict[Any, dict[str, str]] = {}  # what was typed on a card that was left, by whose card it is
        self.confirm = button(self.tr("It stands so in the document"))
        self.confirm.hide()
        self._below = (below,) if below is not None else ()  # what stands under the card
        press_by("Ctrl+Return", self.form, self.keep)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        left, right = frame("sheet"), frame("sheet")
        left.setLayout(
            column(self.table, self.empty, row(1, self.new, margin=look.UNIT), margin=(look.UNIT, 1, look.UNIT, 1))
        )
        inside = QWidget()
        inside.setLayout(
            column(
                *(self.title, self.form, self.note, self.said, row(1, self.confirm, self.keep), *self._below, 1),
                margin=look.UNIT * 2,
            )
        )
        right.setLayout(column(scrolling(inside), margin=1))
        right.setMaximumWidth(look.CARD_WIDTH)
        facing = row(gap=look.UNIT * 2)
        facing.addWidget(left, 1)
        facing.addWidget(right, 1)
        self.setLayout(facing)

    def _connect(self) -> None:
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._choose())
        self.table.opened.connect(lambda _: self.form.focus_first())
        self.new.clicked.connect(self.begun)
        self.empty.act_clicked.connect(self.begun)
        self.keep.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self._hand_in)
        self.form.changed.connect(lambda _: self._say_nothing())
        self.confirm.clicked.connect(lambda: self.confirmed.emit(self.form.answers()))

    def _hand_in(self, given: dict[str, str]) -> None:
        self._handed_in = True
        self.handed_in.emit(given)

    def _say_nothing(self) -> None:
        self._handed_in = False
        self.said.clear()
        self.confirm.hide()

    def _choose(self) -> None:
        wanted = self.table.chosen()
        if wanted is not None and wanted != self._carded:
            self._leave_card(wanted)
            self.chosen.emit(wanted)
            self._take_up()

    def _leave_card(self, for_card: Any) -> None:
        """Go to another card; what was typed on this one stands there again when somebody comes back to it."""
        typed = {name: text for name, text in self._standing().items() if text != self._shown.get(name, text)}
        if not self._handed_in:
            self._given_up[self._carded] = typed
        self._carded, self._handed_in = for_card, False

    def _take_up(self) -> None:
        typed = self._given_up.pop(self._carded, {})
        if typed:
            self.form.show_answers(typed)
            self.said.say(self.tr("What you typed before stands here again; it is not kept yet."), "soft")

    def _standing(self) -> dict[str, str]:
        return {name: field.text() for name, field in self.form.fields.items() if field.ask.kind not in UNREMEMBERED}

    def show_rows(self, rows: Sequence[Any]) -> None:
        """Show these; the one that was chosen stays chosen where it is still there."""
        self._rows = tuple(rows)
        self.table.reload()
        self.table.setVisible(bool(self._rows))
        self.empty.setVisible(not self._rows)
        self.new.setVisible(bool(self._rows))

    def choose(self, wanted: Any) -> None:
        """Go to that record, where it is in the list."""
        if wanted in self._rows:
            self.table.selectRow(self._rows.index(wanted))

    def choose_where(self, is_it: Callable[[Any], bool]) -> None:
        """Go to the first record of which this holds, where there is one."""
        wanted = next((one for one in self._rows if is_it(one)), None)
        if wanted is not None:
            self.choose(wanted)

    def show_card(self, title: str, answers: Mapping[str, str]) -> None:
        """Show the card with these answers; fields that are not named are as they are beforehand."""
        self.title.setText(title)
        self.form.clear()
        self.form.show_answers(answers)
        self._shown = self._standing()
        self._say_nothing()

    def begin_card(self, title: str, answers: Mapping[str, str] | None = None) -> None:
        """An empty card for a new one, with the focus in its first field."""
        self._leave_card(None)
        self.table.clearSelection()
        self.table.setCurrentIndex(self.table.rootIndex())
        self.show_card(title, answers or {})
        if not answers:
            self._take_up()
        self.form.fields[next(iter(self.form.fields))].setFocus(Qt.FocusReason.OtherFocusReason)

    def ask_to_confirm(self, sentence: str) -> None:
        """Say what looks wrong, and offer to keep it as it stands: by a button of its own, so that no second touch of
        the first one does it."""
        self.refuse(sentence)
        self.confirm.show()

    def refuse(self, sentence: str) -> None:
        self._handed_in = False
        self.said.say(sentence, "error")

    def show_kept(self, sentence: str) -> None:
        self.confirm.hide()
        self.said.say(sentence, "kept")
