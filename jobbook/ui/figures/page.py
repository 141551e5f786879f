"""Figures: every computation of the trade by name, as a sheet that answers while one types."""

from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from jobbook.core.drawing import Drawing
from jobbook.ui import look
from jobbook.ui.controls import column, frame, label, row
from jobbook.ui.figures.presenter import FiguresPresenter, Line, Sheet
from jobbook.ui.figures.results import Result
from jobbook.ui.figures.sheet import FigureSheet
from jobbook.ui.jobs.rows import Following, Scrolled
from jobbook.ui.lists import TYPING_PAUSE_MS, FindField
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.tables import AllRows, Column, RecordModel, RecordTable, all_of


class FiguresPage(Page):
    """The list at the left, the sheet of one at the right. `opened` names the figure that is to be remembered."""

    opened = Signal(str)

    def __init__(self, last: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines: tuple[Line, ...] = ()
        self._filling = False
        self.presenter = FiguresPresenter(self, last)
        self.find_field = FindField()
        self.find_field.setPlaceholderText(self.tr("find a figure"))
        self.find_field.setAccessibleName(self.tr("find a figure"))
        self.find_field.setClearButtonEnabled(True)
        self.table = RecordTable(self.tr("Figures"), RecordModel(self._columns(), self._fetch, self))
        self.nothing = label(self.tr("No figure is called so."), "soft", wrap=True)
        self.sheet = FigureSheet()
        self.kept = label("", "small")
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(TYPING_PAUSE_MS)
        self._lay_out()
        self._connect()

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column(self.tr("What for"), lambda line: line.says),
            Column(self.tr("Name"), lambda line: line.name, width=14, role="soft"),
        )

    def _fetch(self, after: Any, limit: int) -> AllRows:
        return all_of(self._lines)

    def _lay_out(self) -> None:
        left = frame("sheet")
        asking = row(self.find_field, margin=look.UNIT)
        left.setLayout(column(asking, self.table, self.nothing, gap=0, margin=(look.UNIT, 1, look.UNIT, 1)))
        facing = row(gap=look.UNIT * 2)
        facing.addWidget(left, 3)
        facing.addWidget(self._scrolled(), 5)
        head = row(label(self.tr("Figures"), "title"), 1, self.kept)
        self.setLayout(column(head, facing, margin=look.MARGIN, gap=look.UNIT * 2))

    def _scrolled(self) -> Following:
        """The sheet, as high as its texts need at the width that there is."""
        inside = Scrolled()
        inside.setLayout(column(self.sheet))
        return Following(inside)

    def _connect(self) -> None:
        self.find_field.textChanged.connect(lambda _: self._pause.start())
        self.find_field.down.connect(self._into_the_list)
        self._pause.timeout.connect(self._find)
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._choose())
        self.table.opened.connect(lambda _: self.sheet.take_focus())
        self.sheet.typed.connect(self._typed)
        self.sheet.copy_wanted.connect(self._copy)
        copy = QShortcut(QKeySequence(QKeySequence.StandardKey.Copy), self)
        copy.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        copy.activated.connect(self._copy)

    def arrive(self, place: Place) -> None:
        if place.name:
            self.find_field.clear()
            self.presenter.open()
            self.presenter.choose(place.name, dict(place.given))
            self._mark(place.name)
            self.sheet.take_focus()
            return
        self.presenter.open()
        self.find_field.setFocus(Qt.FocusReason.OtherFocusReason)
        self.find_field.selectAll()

    def _find(self) -> None:
        self.presenter.find(self.find_field.text())

    def _into_the_list(self) -> None:
        self._pause.stop()
        self._find()
        if self._lines:
            if self.table.chosen() is None:
                self.table.choose_first()
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _choose(self) -> None:
        line = self.table.chosen()
        if line is not None and not self._filling and line.name != self.presenter.name:
            self.presenter.choose(line.name)

    def _typed(self, given: dict[str, str]) -> None:
        self.kept.clear()
        self.presenter.typed(given)

    def _copy(self) -> None:
        words = self.presenter.copied()
        if words:
            QGuiApplication.clipboard().setText(words)
            self.kept.setText(self.tr("The result is copied."))

    def show_lines(self, lines: tuple[Line, ...], chosen: str) -> None:
        self._lines = lines
        self._filling = True
        self.table.reload()
        self._mark(chosen)
        self._filling = False
        self.table.setVisible(bool(lines))
        self.nothing.setVisible(not lines)

    def _mark(self, name: str) -> None:
        """Mark the open figure in the list, where it is in it."""
        place = next((place for place, line in enumerate(self._lines) if line.name == name), None)
        if place is None:
            self.table.clearSelection()
            self.table.setCurrentIndex(self.table.rootIndex())
        else:
            self.table.selectRow(place)

    def show_sheet(self, sheet: Sheet) -> None:
        self.kept.clear()
        self.sheet.show_sheet(sheet)
        self.opened.emit(sheet.name)

    def show_result(self, found: tuple[Result, ...], drawing: Drawing | None) -> None:
        for field in self.sheet.form.fields.values():
            field.refuse("")
        self.sheet.show_result(found, drawing)

    def say(self, sentence: str) -> None:
        self.sheet.say(sentence)

    def refuse(self, key: str, sentence: str) -> None:
        self.sheet.form.fields[key].refuse(sentence)
