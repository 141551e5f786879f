"""The left page: what is known of the vehicle, how it stands, and what is still loose. It never scrolls away."""

import re
from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal, InvalidOperation
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from jobbook.core.drawing import CornerHeights, height_staffs, scaled
from jobbook.services.sheet.sheets import Fact, JobSheet, Staff, StateWord
from jobbook.ui import look
from jobbook.ui.controls import Said, rule
from jobbook.ui.jobs.left_loose import LooseEnds
from jobbook.ui.jobs.rows import Following, RowButton, Scrolled, label, let_clicks_through, rich_label, runs, unbroken
from jobbook.ui.language import said
from jobbook.ui.moments import day_and_hour
from jobbook.ui.paint import DrawingWidget

EDGES = 4 * look.UNIT
INNER = look.LEFT_PAGE_WIDTH - EDGES
NARROWEST = 300  # on a screen at 200 %, so that the right page keeps the larger part
SHARE = 36  # percent of the page's width
LABEL_SHARE = look.UNIT * 10
STAFF_FACTOR = 1.4
STAFF_RULE = 72.0
ISO_TIME = re.compile(r"\d{4}-\d\d-\d\d(T|$)")
BETWEEN = " · "


def in_lines(words: Sequence[StateWord], fits: Callable[[Sequence[StateWord]], bool]) -> list[list[StateWord]]:
    """The conditions in lines as long as they fit; none is broken, and no line ends with what parts them."""
    lines: list[list[StateWord]] = []
    for word in words:
        if lines and fits([*lines[-1], word]):
            lines[-1].append(word)
        else:
            lines.append([word])
    return lines


def state_runs(line: Sequence[StateWord]) -> list[tuple[str, str, bool]]:
    """One line of conditions as runs; what is not as on the road stands in semibold ink."""
    made: list[tuple[str, str, bool]] = []
    for number, word in enumerate(line):
        if number:
            made.append((BETWEEN, "soft", False))
        made.append((unbroken(word.text), "ink" if word.strong else "soft", word.strong))
    return made


def _fits(room: int, line: Sequence[StateWord]) -> bool:
    """Whether the conditions fit side by side, measured as if all of them stood in semibold."""
    metrics = QFontMetrics(look.font(look.BODY, semibold=True))
    return metrics.horizontalAdvance(BETWEEN.join(word.text for word in line)) <= room


def width_beside(page: int) -> int:
    """How wide the left page is on a page of that width: its full width, and less only where that is narrow."""
    return min(look.LEFT_PAGE_WIDTH, max(NARROWEST, page * SHARE // 100))


def as_time(value: str) -> str:
    """A time as people write it; anything else as it is."""
    return day_and_hour(value) if ISO_TIME.match(value) else value


def corner_heights(staff: Staff) -> CornerHeights:
    """The texts of a staff as numbers; a text that is no number is said in words, never drawn as a height."""
    numbers = {name: _number(getattr(staff, name)) for name in ("lower", "target", "upper", "before", "after")}
    before, after = numbers.pop("before"), numbers.pop("after")
    lower, target, upper = numbers["lower"], numbers["target"], numbers["upper"]
    words = staff.before if before is None and staff.before else said("not measured")
    later = staff.after if after is None else ""
    heights = (lower, target, upper, before, after)
    return CornerHeights(staff.corner, *heights, words, later, _number(staff.guard), staff.verdict, staff.unit)


def _number(text: str) -> Decimal | None:
    try:
        return Decimal(text) if text else None
    except InvalidOperation:
        return None


class Held(RowButton):
    """What holds the release; pressing it shows every loose end."""

    def __init__(self) -> None:
        super().__init__("held")
        self._words = rich_label()
        let_clicks_through(self._words)
        line = QHBoxLayout(self)
        line.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT, look.UNIT)
        line.addWidget(self._words)

    def show_words(self, held: str) -> None:
        more = self.tr("show all")
        self._words.setText(runs([(held + "  ", "ochre", True), (more, "ochre", False)]))
        self.setAccessibleName(f"{held}: {more}")
        self.setVisible(bool(held))


class LeftPage(QFrame):
    """Identity, cry, heights, state, loose ends and what holds the release, for one job."""

    all_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "sheet")
        self.setFixedWidth(look.LEFT_PAGE_WIDTH)
        self._facts = QGridLayout()
        self._cry = Said("cry")
        self._heights_title = label("", "heading")
        self._staffs = DrawingWidget()
        self._sheet: JobSheet | None = None
        self._state = rich_label()
        self.loose = LooseEnds()
        self.held = Held()
        self._lay_out()
        self.loose.all_wanted.connect(self.all_wanted)
        self.held.clicked.connect(self.all_wanted)

    def _lay_out(self) -> None:
        inside = Scrolled()
        area = Following(inside)  # only a window lower than a small screen ever needs it
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(1, 1, 1, 1)
        outside.addWidget(area)
        page = QVBoxLayout(inside)
        page.setContentsMargins(0, look.UNIT // 2, 0, look.UNIT)
        page.setSpacing(look.UNIT // 2)
        self._facts.setVerticalSpacing(0)
        self._facts.setHorizontalSpacing(look.UNIT)
        self._facts.setColumnMinimumWidth(0, LABEL_SHARE)
        self._facts.setColumnStretch(1, 1)
        page.addLayout(_inset(self._facts))
        page.addWidget(self._cry)
        self._add_part(page, self._heights_title, self._staffs)
        self._add_part(page, label(self.tr("As it stands now"), "heading"), self._state)
        page.addWidget(rule())
        loose = QVBoxLayout()
        loose.addWidget(self.loose)
        page.addLayout(_inset(loose), 1)
        page.addWidget(self.held)

    def _add_part(self, page: QVBoxLayout, title: QWidget, content: QWidget) -> None:
        part = QVBoxLayout()
        part.setSpacing(look.UNIT // 4)
        part.addWidget(title)
        part.addWidget(content, 0, Qt.AlignmentFlag.AlignLeft if content is self._staffs else Qt.AlignmentFlag(0))
        page.addWidget(rule())
        page.addLayout(_inset(part))

    def show_sheet(self, sheet: JobSheet, today: date) -> None:
        self._show_facts(sheet.facts)
        self._cry.setText(sheet.cry)
        self._heights_title.setText(self.tr("Heights, {where}").format(where=sheet.heights_from))
        self._sheet = sheet
        self._fit()
        self.loose.show_ends(sheet.loose_now, sheet.still_to_do, today, not sheet.from_paper)
        self.held.show_words(sheet.held)

    def stand_beside(self, page: int) -> None:
        """Take the width that is right for a page of that width."""
        wanted = width_beside(page)
        if wanted != self.maximumWidth():
            self.setFixedWidth(wanted)
            self._fit()

    def _fit(self) -> None:
        """Draw the staffs and break the conditions for the width that there is."""
        if self._sheet is None:
            return
        room = self.maximumWidth() - EDGES
        rows = [corner_heights(staff) for staff in self._sheet.staffs]
        drawing = height_staffs(rows, INNER / STAFF_FACTOR, STAFF_RULE)
        self._staffs.show_drawing(scaled(drawing, STAFF_FACTOR * room / INNER))
        lines = in_lines(self._sheet.state, partial(_fits, room))
        self._state.setText("<br>".join(runs(state_runs(line)) for line in lines))

    def _show_facts(self, facts: Sequence[Fact]) -> None:
        while (item := self._facts.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()
                old.deleteLater()
        for row, fact in enumerate(facts):
            value = rich_label([(as_time(fact.value), "ink", fact.strong), (f" {fact.beside}", "soft", False)])
            self._facts.addWidget(label(said(fact.label), "soft"), row, 0, Qt.AlignmentFlag.AlignTop)
            self._facts.addWidget(value, row, 1)


def _inset(inner: QVBoxLayout | QGridLayout) -> QVBoxLayout | QGridLayout:
    inner.setContentsMargins(look.UNIT * 2, look.UNIT // 4, look.UNIT * 2, look.UNIT // 4)
    return inner
