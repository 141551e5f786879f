"""The sheet of one figure: its inputs at the left, the result large at the right, under it where it comes from."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFrame, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from jobbook.core.drawing import Drawing
from jobbook.ui import look
from jobbook.ui.controls import Said, button, column, holding, row, rule
from jobbook.ui.figures.presenter import Sheet
from jobbook.ui.figures.results import Result
from jobbook.ui.forms import Form
from jobbook.ui.jobs.rows import clear, label
from jobbook.ui.language import said
from jobbook.ui.paint import DrawingWidget

DRAWN_LARGER = 1.35


class FigureSheet(QFrame):
    """Shows one figure. `typed` carries what stands in the fields after every keystroke."""

    typed = Signal(dict)
    copy_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "sheet")
        self.form = Form(())
        self.title = label("", "title", wrap=True)
        self.name = label("", "soft")
        self.said = Said("soft")
        self.drawing = DrawingWidget(factor=DRAWN_LARGER)
        self.copy = button(self.tr("Copy the result"), "quiet")
        self.copy.setToolTip(
            QKeySequence(QKeySequence.StandardKey.Copy).toString(QKeySequence.SequenceFormat.NativeText)
        )
        self.lines: tuple[Result, ...] = ()
        self._results = QGridLayout()
        self._notes = QVBoxLayout()
        self._lay_out()
        self.copy.clicked.connect(self.copy_wanted)

    def _lay_out(self) -> None:
        self._results.setHorizontalSpacing(look.UNIT * 2)
        self._results.setVerticalSpacing(look.UNIT // 2)
        self._results.setColumnStretch(1, 1)
        self._notes.setSpacing(look.UNIT // 2)
        self._asked = column(self.form, 1, gap=0)
        came_out = column(self.said, self._results, row(self.copy, 1), self.drawing, 1)
        beside = row(gap=look.UNIT * 4)
        beside.addWidget(holding(self._asked), 4)
        beside.addWidget(holding(came_out), 5)
        head = row(gap=look.UNIT * 2)
        head.addWidget(self.title, 1)
        head.addWidget(self.name, 0, Qt.AlignmentFlag.AlignBottom)
        self.setLayout(column(head, beside, rule(), self._notes, 1, margin=look.UNIT * 2, gap=look.UNIT * 2))

    def show_sheet(self, sheet: Sheet) -> None:
        """Ask for this figure's inputs, with what was typed into them before."""
        self.title.setText(sheet.title)
        self.name.setText(sheet.name)
        old, self.form = self.form, Form(sheet.asks)
        self._asked.replaceWidget(old, self.form)
        old.hide()
        old.deleteLater()
        self.form.show_answers({key: text for key, text in sheet.given.items() if key in self.form.fields})
        self.form.changed.connect(lambda _: self.typed.emit(self.form.answers()))
        for edit in self.form.findChildren(QLineEdit):
            edit.installEventFilter(self)
        self._show_notes(sheet)

    def _show_notes(self, sheet: Sheet) -> None:
        clear(self._notes)
        told = sheet.notes
        standing = self.tr("{source}. Standing: {standing}.").format(source=told.source, standing=told.standing)
        lines = (
            (told.formula, ""),
            (self.tr("Given: {where}").format(where=told.where) if told.where else "", "small"),
            (self.tr("Holds for: {range}").format(range=told.holds_for) if told.holds_for else "", "small"),
            (self.tr("Source: {source}").format(source=standing), "small"),
            (self.tr("The maker's figure comes first; this says only when something looks wrong."), "small"),
        )
        for words, role in lines:
            if words:
                self._notes.addWidget(label(words, role, wrap=True))

    def show_result(self, found: Sequence[Result], drawing: Drawing | None) -> None:
        """Show the result lines, large where they are figures or single words."""
        self.say("")
        self.lines = tuple(found)
        while (item := self._results.takeAt(0)) is not None:
            gone = item.widget()
            if gone is not None:
                gone.hide()
                gone.deleteLater()
        for one in found:
            self._add(one)
        self.copy.setVisible(bool(found))
        self.drawing.show_drawing(drawing)

    def _add(self, one: Result) -> None:
        """A figure or a word stands large beside its name, a text under it."""
        place = self._results.rowCount()
        name = label(said(one.name), "soft", wrap=not one.short)
        value = label(f"{one.value}{_with_gap(one.unit)}", "result" if one.short else "", wrap=True)
        value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        value.setAccessibleName(one.line)
        if one.short:
            self._results.addWidget(name, place, 0, Qt.AlignmentFlag.AlignBottom)
            self._results.addWidget(value, place, 1)
        else:
            self._results.addWidget(name, place, 0, 1, 2)
            self._results.addWidget(value, place + 1, 0, 1, 2)

    def say(self, sentence: str) -> None:
        self.said.setText(sentence)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Copy takes the result, unless something is marked in the field."""
        if (
            event.type() == QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
            and isinstance(watched, QLineEdit)
            and event.matches(QKeySequence.StandardKey.Copy)
            and not watched.hasSelectedText()
        ):
            self.copy_wanted.emit()
            return True
        return super().eventFilter(watched, event)

    def take_focus(self) -> None:
        """Go to the first field that is still empty, or to the first of all."""
        fields = list(self.form.fields.values())
        first = next((field for field in fields if field.is_empty()), fields[0])
        first.setFocus(Qt.FocusReason.OtherFocusReason)


def _with_gap(unit: str) -> str:
    return unit if unit in ("", "°", "′") else f" {unit}"
