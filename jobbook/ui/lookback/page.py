"""Looking back: how long parts live, kind by kind, and two kinds beside each other."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QFileDialog, QPushButton, QStackedWidget, QWidget

from jobbook.core.drawing import Drawing, scaled
from jobbook.core.vehicle.part_lives import Counted
from jobbook.services.vehicle.part_life import Life
from jobbook.ui import look
from jobbook.ui.controls import Elided, Said, button, column, frame, holding, label, row
from jobbook.ui.jobs.rows import Following, Scrolled
from jobbook.ui.jobs.rows import label as growing
from jobbook.ui.lists import Empty
from jobbook.ui.lookback.columns import columns
from jobbook.ui.lookback.presenter import DAYS, KM, LookBackPresenter
from jobbook.ui.paint import DrawingWidget
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting
from jobbook.ui.tables import RecordModel, RecordTable, all_of

FACTOR = 1.75
LAST_COLUMN = 3
NARROW = look.READABLE_WIDTH + look.FIELD_WIDTH // 2
LIST_SHARE, PLOT_SHARE = 5, 6


class LookBackPage(Page):
    """The kinds of parts at the left; the life of the one in sight at the right."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = LookBackPresenter(setting, self)
        self._rows: tuple[Counted, ...] = ()
        self._filling = False
        made = columns(self.tr, lambda one: one == self.presenter.held)
        self.table = RecordTable(self.tr("Kinds of parts"), RecordModel(made, lambda *_: all_of(self._rows), self))
        self.by = self._choices(
            ("kind", self.tr("By kind")), ("supplier", self.tr("By supplier")), ("number", self.tr("By part number"))
        )
        self.measures = self._choices((DAYS, self.tr("Time")), (KM, self.tr("Distance")))
        self.hold = button(self.tr("Compare others with it"), "plain", "Ctrl+B")
        self.export = button(self.tr("Save the list…"), "quiet", "Ctrl+S")
        self.title, self.beside = Elided("", "strong"), Elided("", "soft")
        self.plot = DrawingWidget(None, FACTOR)
        self._plot: Drawing | None = None
        self.words = growing("", "", wrap=True)
        self.said = Said("soft")
        self.empty = Empty()
        self._lay_out()
        self._connect()

    def _choices(self, *choices: tuple[str, str]) -> QButtonGroup:
        group = QButtonGroup(self)
        for value, words in choices:
            one = button(words, "tab")
            one.setCheckable(True)
            one.setProperty("value", value)
            group.addButton(one)
        group.buttons()[0].setChecked(True)
        return group

    def _lay_out(self) -> None:
        left, right = frame("sheet"), frame("sheet")
        left.setLayout(column(self._line(self.by.buttons()), self.table, margin=(look.UNIT, 1, look.UNIT, 1), gap=0))
        inside = Scrolled()
        side = look.UNIT * 2
        inside.setLayout(
            column(self.title, self.beside, self.plot, self.words, self.said, 1, margin=side, gap=look.UNIT)
        )
        measures = self._line([*self.measures.buttons(), self.hold, self.export])
        right.setLayout(column(measures, Following(inside), margin=1, gap=0))
        facing = row(gap=look.UNIT * 2)
        facing.addWidget(left, LIST_SHARE)
        facing.addWidget(right, PLOT_SHARE)
        self.stack = QStackedWidget()
        self.stack.addWidget(holding(facing))
        self.stack.addWidget(self.empty)
        head = row(label(self.tr("Looking back: how long parts live"), "title"), 1)
        self.setLayout(column(head, self.stack, margin=look.MARGIN, gap=look.UNIT * 2))

    def _line(self, buttons: Sequence[QWidget]) -> QWidget:
        tabs = [one for one in buttons if isinstance(one, QPushButton) and one.property("role") == "tab"]
        others = [one for one in buttons if one not in tabs]
        return holding(row(*tabs, 1, *others, margin=look.UNIT))

    def _connect(self) -> None:
        self.by.buttonClicked.connect(lambda one: self.presenter.count_by(str(one.property("value"))))
        self.measures.buttonClicked.connect(lambda one: self.presenter.measure(str(one.property("value"))))
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._choose())
        self.table.opened.connect(lambda _: self.presenter.hold())
        self.hold.clicked.connect(self.presenter.hold)
        self.export.clicked.connect(lambda: self.presenter.export(self.ask_for_file()))

    def _choose(self) -> None:
        one = self.table.chosen()
        if one is not None and not self._filling:
            self.presenter.choose(one)

    def ask_for_file(self) -> str:
        """Where the list is to be saved; empty when nobody wants it after all."""
        asked = QFileDialog.getSaveFileName(self, self.tr("Save the list of parts"), "parts.csv", "CSV (*.csv)")
        return str(asked[0])

    def arrive(self, place: Place) -> None:
        self.said.clear()
        self.presenter.open()
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self, kinds: set[str]) -> None:
        if kinds & {"issued/1", "piece-state/1", "part-off/1", "odometer/1", "job-opened/1"}:
            self.presenter.open()

    def show_kinds(self, rows: tuple[Counted, ...], chosen: Counted | None) -> None:
        self._rows, self._filling = rows, True
        self.table.reload()
        if chosen in rows:
            self.table.selectRow(rows.index(chosen))
        self._filling = False
        self.stack.setCurrentIndex(0 if rows else 1)
        self.empty.say(
            self.tr(
                "Here will stand every kind of part that was fitted, how many failed, and how long they live. A part "
                "counts from the moment when a job fits it with its number and its corner."
            )
        )

    def show_held(self, held: Counted | None) -> None:
        words = self.tr("Compare others with it") if held is None else self.tr("Compare no longer")
        self.hold.setText(words)
        self.hold.setAccessibleName(words)
        self.table.viewport().update()

    def show_life(self, title: str, beside: str, life: Life) -> None:
        self.title.show_text(title)
        self.beside.show_text(beside)
        self.beside.setVisible(bool(beside))
        self._plot = life.plot
        self._fit()
        self.words.setText("\n".join(life.words))
        self.said.clear()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Draw the plot for the width that there is; a narrow list leaves its last column out."""
        share = PLOT_SHARE / (LIST_SHARE + PLOT_SHARE)
        room = (self.width() - look.MARGIN * 2) * share - look.UNIT * 8
        plot = self._plot
        narrow = min(1.0, room / (plot.width * FACTOR)) if plot is not None else 1.0
        self.plot.show_drawing(scaled(plot, narrow) if plot is not None else None)
        self.table.setColumnHidden(LAST_COLUMN, self.width() < NARROW)

    def say(self, sentence: str) -> None:
        self.said.say(sentence, "soft")

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")
