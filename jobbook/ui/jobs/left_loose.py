"""The loose ends on the left page, in two groups, as many as there is room for."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLayout, QSizePolicy, QVBoxLayout, QWidget

from jobbook.core.work.model import LooseEnd
from jobbook.ui import look
from jobbook.ui.jobs.left_fit import fitting, loudest_first
from jobbook.ui.jobs.rows import SMALL_MARK, RowButton, label, let_clicks_through, level_with_text
from jobbook.ui.moments import beside
from jobbook.ui.paint import MarkLabel


class LooseRow(QWidget):
    """One loose end: its mark, what it is, and since when."""

    def __init__(self, end: LooseEnd, today: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = label(end.sentence, "loud" if end.loud else "", wrap=True)
        since = label(beside(end.since, today), "small")
        mark = MarkLabel(end.mark, "oxide" if end.loud else "ochre", self.tr("loose end"), size=SMALL_MARK)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(look.UNIT)
        line.addLayout(level_with_text(mark))
        line.addWidget(self.words, 1)
        line.addWidget(since, 0, Qt.AlignmentFlag.AlignTop)
        self._line = line

    def height_at(self, width: int, least: int) -> int:
        """How tall the line is at that width, with its sentence wrapped and nothing of it cut."""
        self.words.ensurePolished()
        return max(self._line.heightForWidth(width), least)


class MoreRow(RowButton):
    """ "and 5 more": opens the whole list."""

    def __init__(self, count: int) -> None:
        super().__init__("more")
        text = self.tr("and %n more", "", count)
        words = label(text.replace("%n", str(count)), "loose")
        let_clicks_through(words)
        line = QHBoxLayout(self)
        line.setContentsMargins(look.UNIT * 3 - 1, 0, 0, 0)
        line.addWidget(words)
        self.setAccessibleName(words.text())


class LooseEnds(QWidget):
    """Both groups with their counts. What does not fit is one press away."""

    all_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._groups: list[list[LooseRow]] = [[], []]
        self._between: list[QWidget] = []
        self._shown: tuple[int, int, int] = (-1, -1, -1)
        self._known = True
        self._lines = QVBoxLayout(self)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(0)
        self._lines.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    def show_ends(
        self, loose_now: Sequence[LooseEnd], still_to_do: Sequence[LooseEnd], today: date, known: bool = True
    ) -> None:
        """Show them; where none is there, say so, or that nobody knows."""
        self._known = known
        for row in (*self._groups[0], *self._groups[1]):
            row.hide()
            row.deleteLater()
        self._groups = [
            [LooseRow(end, today, self) for end in loudest_first(ends)] for ends in (loose_now, still_to_do)
        ]
        self._shown = (-1, -1, -1)
        self.setMinimumHeight(self._least())
        self._fill()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.oldSize().width() != self.width():
            self.setMinimumHeight(self._least())
        self._fill()

    def hasHeightForWidth(self) -> bool:
        return False  # it takes the room that there is

    def sizeHint(self) -> QSize:
        return QSize(0, self._least())

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self._least())

    def _least(self) -> int:
        """The height of the first line of each group, with the counts of the others."""
        width, line = self.width(), self._line_height()
        firsts = [group[0].height_at(width, line) + line * (len(group) > 1) for group in self._groups if group]
        return sum(firsts) + self._heading() * len(firsts) or line

    def _line_height(self) -> int:
        return self.fontMetrics().height() + 2

    def _heading(self) -> int:
        return self._line_height() + look.UNIT // 2

    def _fill(self) -> None:
        """Lay out as many lines as fit. Their heights are those of the lines themselves at this width."""
        heights = [[row.height_at(self.width(), self._line_height()) for row in group] for group in self._groups]
        room = self.height() - sum(self._heading() for group in self._groups if group)
        shown = fitting(heights[0], heights[1], room, self._line_height())
        if (*shown, self.width()) == self._shown:
            return
        self._shown = (*shown, self.width())
        self._empty()
        titles = (self.tr("Loose now, {count}"), self.tr("Still to do, {count}"))
        for title, group, count, tall in zip(titles, self._groups, shown, heights, strict=True):
            self._add_group(title, group, count, tall)
        if not any(self._groups):
            nothing = self.tr("Nothing is loose and nothing is left to do.")
            unknown = self.tr("What was loose or left to do is not known.")
            self._put(label(nothing if self._known else unknown, "soft", wrap=True))
        self._lines.addStretch(1)

    def _empty(self) -> None:
        while self._lines.takeAt(0) is not None:
            pass
        for row in (*self._groups[0], *self._groups[1]):
            row.hide()
        for widget in self._between:
            widget.hide()
            widget.deleteLater()
        self._between = []

    def _put(self, widget: QWidget, height: int = 0) -> None:
        if height:
            widget.setFixedHeight(height)
        if not isinstance(widget, LooseRow):
            self._between.append(widget)
        self._lines.addWidget(widget)
        widget.show()

    def _add_group(self, title: str, group: list[LooseRow], count: int, heights: list[int]) -> None:
        if not group:
            return
        self._put(label(title.format(count=len(group)), "heading"), self._heading())
        for row, height in zip(group[:count], heights, strict=False):
            self._put(row, height)
        if count < len(group):
            more = MoreRow(len(group) - count)
            more.clicked.connect(self.all_wanted)
            self._put(more, self._line_height())
