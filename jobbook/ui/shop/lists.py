"""Import and export: a list of customers, vehicles or parts, seen before it is taken in."""

from pathlib import Path

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QButtonGroup, QFileDialog, QGridLayout, QWidget

from jobbook.core.lists.columns import KINDS
from jobbook.core.lists.rows import Finding
from jobbook.services.lists.planning import Plan
from jobbook.services.lists.reading import MOST_COLUMNS
from jobbook.ui import look
from jobbook.ui.controls import Elided, ListBox, Said, button, column, frame, holding, label, row, scrolling
from jobbook.ui.lists import Empty
from jobbook.ui.setting import Setting
from jobbook.ui.shop.lists_presenter import HeldColumn, ListsPresenter
from jobbook.ui.shop.part import Part
from jobbook.ui.tables import Column, RecordModel, RecordTable, all_of

CSV = "CSV (*.csv)"
FORMS = f"{CSV};;XLSX (*.xlsx);;JSON (*.json)"
TAKES_THE_ROOM = 100  # the findings, where there are any; else what stands below them stays at the foot
LISTS = "CSV, XLSX (*.csv *.txt *.tsv *.xlsx)"


class ListsPage(Part):
    """On the left the list with its columns, on the right what would become of its rows."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = ListsPresenter(setting, self)
        self.kinds = QButtonGroup(self)
        self.choose = button(self.tr("Choose a file…"), "main", "Ctrl+O")
        self.write = button(self.tr("Write this list to a file…"))
        self.how = label("", "strong", wrap=True)
        self.columns: list[ListBox] = []
        self._grid = QGridLayout()
        self._scroll = scrolling(holding(column(self._held(), 1)))
        self._found: tuple[Finding, ...] = ()
        self.findings = RecordTable(self.tr("What is wrong with the list"), self._model())
        self.summary = label("", "strong", wrap=True)
        self.whole = label("", "soft", wrap=True)  # the chosen finding, for a table has no room for it
        self.said = Said("error")
        self.take = button(self.tr("Take it in"), "main")
        self.take_good = button(self.tr("Leave those rows out and take in the others"))
        self.write_bad = button(self.tr("Write them to a file to mend…"))
        self.empty = Empty()
        self._lay_out()
        self._connect()
        self.show_nothing()

    def _held(self) -> QWidget:
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(look.UNIT * 2)
        self._grid.setVerticalSpacing(look.UNIT // 2)
        self._grid.setColumnStretch(2, 1)
        return holding(self._grid)

    def _model(self) -> RecordModel:
        columns = (
            Column(self.tr("Row"), lambda found: str(found.row), width=6, right=True),
            Column(self.tr("Column"), lambda found: found.column, width=12, role="soft"),
            Column(self.tr("What"), lambda found: found.words),
        )
        return RecordModel(columns, lambda after, limit: all_of(self._found), self)

    def _lay_out(self) -> None:
        for place, kind in enumerate(KINDS):
            word = button(self.tr(kind.capitalize()), "tab")
            word.setCheckable(True)
            self.kinds.addButton(word, place)
        self.kinds.button(0).setChecked(True)
        left, right = frame("sheet"), frame("sheet")
        self.empty.say(
            self.tr(
                "Choose a list as CSV or XLSX, with headings in its first row. Here will stand how its columns are "
                "taken, and what would become of each row. Nothing is kept before you say so."
            )
        )
        head = row(*self.kinds.buttons(), 1, gap=look.UNIT)
        acts = row(self.choose, self.write, 1)
        margin = look.UNIT * 2
        left.setLayout(column(head, acts, self.how, self._scroll, self.empty, margin=margin, gap=look.UNIT * 3 // 2))
        end = row(self.take, self.take_good, self.write_bad, 1)
        told = (self.summary, self.findings, self.whole, self.said)
        comes_to = column(*told, 1, end, margin=margin, gap=look.UNIT * 3 // 2)
        comes_to.setStretchFactor(self.findings, TAKES_THE_ROOM)
        right.setLayout(comes_to)
        facing = row(gap=look.UNIT * 2)
        facing.addWidget(left, 1)
        facing.addWidget(right, 1)
        self.setLayout(facing)

    def _connect(self) -> None:
        kinds = tuple(KINDS)
        self.kinds.idClicked.connect(lambda place: self.presenter.choose_kind(kinds[place]))
        self.choose.clicked.connect(self._open)
        self.write.clicked.connect(self._write)
        self.take.clicked.connect(lambda: self._take(False))
        self.write_bad.clicked.connect(self._write_bad)
        self.take_good.clicked.connect(lambda: self._take(True))
        self.findings.selectionModel().currentRowChanged.connect(lambda *_: self._show_whole())

    def _show_whole(self) -> None:
        found = self.findings.chosen()
        self.whole.setText(found.sentence if found is not None else "")

    def _open(self) -> None:
        file = self.ask_for_file()
        if file:
            self.said.clear()
            self.presenter.open_file(Path(file))

    def _write(self) -> None:
        file = self.ask_where_to()
        if file:
            self.said.clear()
            self.presenter.write(Path(file))

    def _write_bad(self) -> None:
        file = self.ask_where_to(CSV)
        if file:
            self.said.clear()
            self.presenter.write_left_out(Path(file))

    def _take(self, good_rows: bool) -> None:
        self.take.setEnabled(False)
        self.take_good.setEnabled(False)
        self.presenter.take_in(good_rows)

    def ask_for_file(self) -> str:
        return QFileDialog.getOpenFileName(self, self.tr("A list to take in"), "", LISTS)[0]

    def ask_where_to(self, forms: str = FORMS) -> str:
        """The name of a new file; the list is never written over another one."""
        name, form = QFileDialog.getSaveFileName(
            self, self.tr("Write the list to"), "", forms, options=QFileDialog.Option.DontConfirmOverwrite
        )
        ending = f".{form.split(' ')[0].lower()}" if form else ""
        return name if not name or Path(name).suffix else name + ending

    def open(self) -> None:
        self.choose.setFocus()

    # what the presenter shows

    def show_nothing(self) -> None:
        self._show(False)
        self.summary.setText(self.tr("No list is open."))
        self._show_findings(())

    def _show(self, there: bool) -> None:
        self._scroll.setVisible(there)
        self.how.setVisible(there)
        self.empty.setVisible(not there)
        for act in (self.take, self.take_good):
            act.setEnabled(False)
        self.take.setVisible(there)
        self.take_good.hide()
        self.write_bad.hide()

    def show_list(self, how: str, columns: tuple[HeldColumn, ...]) -> None:
        """The list with its columns; where only what they hold is another, the boxes stay as they are."""
        self._show(True)
        self.how.setText(how)
        self.summary.setText(self.tr("Looking at every row …"))
        if len(self.columns) != len(columns):
            self._make_columns(columns)
        for box, held in zip(self.columns, columns, strict=True):
            self._fill(box, held)

    def _make_columns(self, columns: tuple[HeldColumn, ...]) -> None:
        while (item := self._grid.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        self.columns = []
        for place in range(min(len(columns), MOST_COLUMNS)):
            box = ListBox()
            box.setMinimumWidth(look.SHORT_FIELD_WIDTH * 2)
            box.activated.connect(lambda _, place=place, box=box: self.presenter.hold(place, str(box.currentData())))
            self.columns.append(box)
            for at, widget in enumerate((Elided(role="strong"), box, Elided(role="soft"))):
                self._grid.addWidget(widget, place, at)

    def _fill(self, box: ListBox, held: HeldColumn) -> None:
        for at, text in ((0, held.heading), (2, held.first)):
            item = self._grid.itemAtPosition(held.place, at)
            widget = item.widget() if item is not None else None
            if isinstance(widget, Elided):
                widget.show_text(text)
        box.setAccessibleName(self.tr("What “{0}” holds").format(held.heading))
        with QSignalBlocker(box):
            box.clear()
            box.addItem(self.tr("left out"), "")
            for one in KINDS[self.presenter.kind]:
                box.addItem(one.title, one.name)
            box.setCurrentIndex(box.findData(held.holds))

    def show_plan(self, planned: Plan, summary: str) -> None:
        self._show_findings((*planned.findings, *planned.notes))
        wrong = bool(planned.findings)
        self.summary.setText(self._summary(planned, summary))
        self.take.setVisible(not wrong)
        self.take.setEnabled(not wrong)
        self.take_good.setVisible(wrong and bool(planned.rows))
        self.take_good.setEnabled(True)
        self.write_bad.setVisible(wrong)

    def _summary(self, planned: Plan, summary: str) -> str:
        if not planned.findings:
            return self.tr("It would be {0}.").format(summary)
        return self.tr("Something is wrong with {0} rows. Without them it would be {1}.").format(
            planned.left_out, summary
        )

    def show_no_plan(self, sentence: str) -> None:
        self._show_findings(())
        self.summary.setText(sentence)

    def _show_findings(self, found: tuple[Finding, ...]) -> None:
        self._found = found
        self.findings.reload()
        self.findings.setVisible(bool(found))
        self.findings.choose_first()
        self._show_whole()

    def show_done(self, sentence: str) -> None:
        self.said.say(sentence, "kept")

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")
