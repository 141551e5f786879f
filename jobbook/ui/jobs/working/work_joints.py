"""The joint sheet on the card: one row per joint, its stages in order, new pieces, tool, by whom and when."""

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QWidget

from jobbook.services.sheet.sheets import JointRow
from jobbook.ui import look
from jobbook.ui.jobs.rows import SMALL_MARK, label, level_with_text
from jobbook.ui.paint import MarkLabel

Cell = tuple[str, str]


def headings(rows: Sequence[JointRow]) -> tuple[str, ...]:
    """The headings of all rows, each once, in the order in which they come."""
    return tuple(dict.fromkeys(heading for row in rows for heading, _, _ in row.cells))


def cells(row: JointRow, wanted: Sequence[str]) -> tuple[Cell, ...]:
    """Mark and words of a row under each heading; a dash where the joint has no such stage."""
    there = {heading: (mark, words) for heading, mark, words in row.cells}
    return tuple(there.get(heading, ("", "–")) for heading in wanted)


class JointSheet(QFrame):
    """A small table of marks and words. Columns are as wide as their words ask, and wrap when there is no room."""

    def __init__(self, rows: Sequence[JointRow], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(0)
        self._grid.setVerticalSpacing(0)
        wanted = headings(rows)
        self._widest = [0] * (len(wanted) + 1)
        self._line(0, [label(text, "heading") for text in (self.tr("Joint"), *wanted)])
        for number, row in enumerate(rows, 1):
            title = label(row.title, "loud" if row.loud else "", wrap=True)
            self._rule(2 * number - 1)
            self._line(2 * number, [title, *(self._cell(cell, row.loud) for cell in cells(row, wanted))])
        self._rule(2 * len(rows) + 1)
        self._measure(rows, wanted)

    def _line(self, line: int, widgets: Sequence[QWidget]) -> None:
        for column, widget in enumerate(widgets):
            widget.setContentsMargins(look.UNIT * 3 // 4, look.UNIT // 2, look.UNIT * 3 // 4, look.UNIT // 2)
            self._grid.addWidget(widget, line, column)

    def _rule(self, line: int) -> None:
        rule = QFrame()
        look.as_role(rule, "rule")
        self._grid.addWidget(rule, line, 0, 1, -1)

    def _cell(self, cell: Cell, loud: bool) -> QWidget:
        mark, words = cell
        holder = QWidget()
        line = QHBoxLayout(holder)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(look.UNIT // 4)
        if mark:
            line.addLayout(level_with_text(MarkLabel(mark, "oxide" if loud else "ink", size=SMALL_MARK)))
        line.addWidget(label(words, "", wrap=True), 1)
        return holder

    def _measure(self, rows: Sequence[JointRow], wanted: Sequence[str]) -> None:
        texts = [[self.tr("Joint"), *(row.title for row in rows)]]
        texts += [[heading, *(cells(row, [heading])[0][1] for row in rows)] for heading in wanted]
        marked = [False, *(any(cells(row, [heading])[0][0] for row in rows) for heading in wanted)]
        for column, words in enumerate(texts):
            natural = max(self.fontMetrics().horizontalAdvance(text) for text in words)
            mark = look.UNIT * 3 if marked[column] else 0
            self._grid.setColumnStretch(column, natural + mark + look.UNIT * 2)
