"""The loose ends on the left page, in two groups, as many as there is room for."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLayout, QSizePolicy, QVBoxLayout, QWidget

from jobbook.core.work.model import LooseEnd
from jobbook.ui import look
from jobbook.ui.jobs.left_fit import fitting, loudest_first
from jobbook.ui.jobs.rows import SMALL_MARK, RowButton, clear, label, let_clicks_through, level_with_text
from jobbook.ui.moments import beside
from jobbook.ui.paint import MarkLabel


class LooseRow(QWidget):
    """One loose end: its mark, what it is, and since when."""

    def __init__(self, end: LooseEnd, today: date) -> None:
        super().__init__()
        self.words = label(end.sentence, "loud" if end.loud else "", wrap=True)
        since = label(beside(end.since, today), "small")
        mark = MarkLabel(end.mark, "oxide" if end.loud else "ochre", self.tr("loose end"), size=SMALL_MARK)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(look.UNIT)
        line.addLayout(level_with_text(mark))
        line.addWidget(self.words, 1)
        line.addWidget(since, 0, Qt.AlignmentFlag.AlignTop)


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
        self._groups: tuple[tuple[LooseEnd, ...], ...] = ((), ())
        self._today = date.min
        self._shown: tuple[int, int, int] = (-1, -1, -1)
        self._lines = QVBoxLayout(self)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(0)
        self._lines.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    def show_ends(self, loose_now: Sequence[LooseEnd], still_to_do: Sequence[LooseEnd], today: date) -> None:
        self._groups = (loudest_first(loose_now), loudest_first(still_to_do))
        self._today = today
        self._shown = (-1, -1, -1)
        self.setMinimumHeight(self._least())
        self._fill()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fill()

    def hasHeightForWidth(self) -> bool:
        return False  # it takes the room that there is

    def sizeHint(self) -> QSize:
        return QSize(0, self._least())

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self._least())

    def _least(self) -> int:
        return sum(self._heading() + 2 * self._line_height() for group in self._groups if group) or self._line_height()

    def _line_height(self) -> int:
        return self.fontMetrics().height() + 2

    def _heading(self) -> int:
        return self._line_height() + look.UNIT // 2

    def _fill(self) -> None:
        heights = [[self._height_of(end) for end in group] for group in self._groups]
        room = self.height() - sum(self._heading() for group in self._groups if group)
        shown = fitting(heights[0], heights[1], room, self._line_height())
        if (*shown, self.width()) == self._shown:
            return
        self._shown = (*shown, self.width())
        clear(self._lines)
        titles = (self.tr("Loose now, {count}"), self.tr("Still to do, {count}"))
        for title, group, count in zip(titles, self._groups, shown, strict=True):
            self._add_group(title, group, count)
        if not any(self._groups):
            nothing = label(self.tr("Nothing is loose and nothing is left to do."), "soft", wrap=True)
            self._lines.addWidget(nothing)
            nothing.show()
        self._lines.addStretch(1)

    def _height_of(self, end: LooseEnd) -> int:
        """The height of this line where it wraps beside its mark and its time."""
        since = QFontMetrics(look.font(look.SMALL)).horizontalAdvance(beside(end.since, self._today))
        room = max(self.width() - round(SMALL_MARK) - 2 * look.UNIT - since, look.UNIT * 8)
        metrics = QFontMetrics(look.font(look.BODY, semibold=end.loud))
        flags = Qt.TextFlag.TextWordWrap
        box = metrics.boundingRect(0, 0, room, look.UNIT * 100, flags, end.sentence)
        return max(box.height() + 2, self._line_height())

    def _add_group(self, title: str, group: tuple[LooseEnd, ...], count: int) -> None:
        if not group:
            return
        heading: QLabel = label(title.format(count=len(group)), "heading")
        heading.setFixedHeight(self._heading())
        self._lines.addWidget(heading)
        heading.show()
        for end in group[:count]:
            row = LooseRow(end, self._today)
            row.setFixedHeight(self._height_of(end))
            self._lines.addWidget(row)
            row.show()
        if count < len(group):
            more = MoreRow(len(group) - count)
            more.setFixedHeight(self._line_height())
            more.clicked.connect(self.all_wanted)
            self._lines.addWidget(more)
            more.show()
