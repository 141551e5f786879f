"""A figure opened for one field: what is known stands in it already, and its result goes back into the field."""

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QWidget

from jobbook.core.drawing import Drawing
from jobbook.services.sheet.sheets import Reckoned
from jobbook.ui import look
from jobbook.ui.controls import button, column, label, row
from jobbook.ui.figures.presenter import FiguresPresenter, Line, Sheet
from jobbook.ui.figures.results import Result, typed_result
from jobbook.ui.figures.sheet import FigureSheet
from jobbook.ui.jobs.rows import Following, Scrolled


class Reckoner(QDialog):
    """`used` carries the result with its unit, as it would be typed. Escape leaves the field as it was."""

    used = Signal(str)

    def __init__(self, asked: Reckoned, for_what: str, given: dict[str, str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._asked = asked
        self._given = given
        self.setWindowTitle(self.tr("Reckon: {field}").format(field=for_what))
        self.setMinimumSize(*look.RECKONER_SIZE)
        self.presenter = FiguresPresenter(self, asked.figure)
        self.sheet = FigureSheet()
        self.answer = label("", "result")
        self.use = button(self.tr("Use this result"), "main", "Ctrl+Return")
        self.leave = button(self.tr("Leave the field as it is"), "quiet")
        self.leave.setToolTip(self.tr("Esc"))
        self._lay_out(for_what)
        self._connect()
        self.presenter.choose(asked.figure, given)
        self.sheet.take_focus()

    def _lay_out(self, for_what: str) -> None:
        inside = Scrolled()
        inside.setLayout(column(self.sheet))
        foot = row(label(self.tr("For: {field}").format(field=for_what), "soft"), self.answer, 1, self.leave, self.use)
        self.setLayout(column(Following(inside), foot, margin=look.UNIT * 2, gap=look.UNIT * 2))

    def _connect(self) -> None:
        self.sheet.typed.connect(self.presenter.typed)
        self.sheet.copy_wanted.connect(lambda: QGuiApplication.clipboard().setText(self.presenter.copied()))
        self.use.clicked.connect(self._use)
        self.leave.clicked.connect(self.reject)

    def taken(self) -> str:
        """The result that would go back, as it would be typed; empty while there is none."""
        found: dict[str, Any] = dict(self.presenter.found)
        return typed_result(self._asked.result, found)

    def _use(self) -> None:
        if self.taken():
            self.used.emit(self.taken())
            self.accept()

    # what the presenter shows

    def show_lines(self, lines: tuple[Line, ...], chosen: str) -> None:
        """There is no list here: the field names the figure."""

    def show_sheet(self, sheet: Sheet) -> None:
        self.sheet.show_sheet(sheet)
        self.sheet.form.handed_in.connect(lambda _: self._use(), Qt.ConnectionType.QueuedConnection)

    def show_result(self, found: tuple[Result, ...], drawing: Drawing | None) -> None:
        for field in self.sheet.form.fields.values():
            field.refuse("")
        self.sheet.show_result(found, drawing)
        self._show_taken()

    def say(self, sentence: str) -> None:
        self.sheet.say(sentence)
        self._show_taken()

    def refuse(self, key: str, sentence: str) -> None:
        self.sheet.form.fields[key].refuse(sentence)
        self._show_taken()

    def _show_taken(self) -> None:
        self.answer.setText(self.taken())
        self.use.setEnabled(bool(self.taken()))
