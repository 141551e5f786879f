"""The Work tab: the steps before, the open step as a card, the steps after, and what still waits for a signature."""

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from jobbook.services.sheets import JobSheet, StepRow
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import Signers
from jobbook.ui.jobs.rows import Page, label
from jobbook.ui.jobs.work_card import StepCard
from jobbook.ui.jobs.work_keys import key_name
from jobbook.ui.jobs.work_sign import UnsignedStrip
from jobbook.ui.jobs.work_steps import StepLine

LINES_BEFORE = 3
StepKey = tuple[int, int]


def key_of(step: StepRow) -> StepKey:
    return step.begun, step.number


class WorkTab(QWidget):
    """The work of one job. It shows a sheet and says what the person chose."""

    step_wanted = Signal(int, int)
    begin_wanted = Signal()
    card_made = Signal(object)

    def __init__(self, now: Callable[[], datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._now = now
        self._lines: dict[StepKey, StepLine] = {}
        self._titles: list[QWidget] = []
        self.card: StepCard | None = None
        self._loud = label("", "caution", wrap=True)
        self._empty = label(self.tr("Nothing has been begun. Choose the method that leads the work."), "soft", wrap=True)
        self.begin = controls.button(self.tr("Begin a method…"), "quiet")
        self.strip = UnsignedStrip()
        self._column = QVBoxLayout()
        self._inside = Page()
        self._area = controls.scrolling(self._inside)
        self._lay_out()
        self.begin.clicked.connect(self.begin_wanted)

    def _lay_out(self) -> None:
        self._column.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self._column.setSpacing(0)
        self._inside.setLayout(self._column)
        page = controls.column(gap=0)
        page.addWidget(self._loud)
        page.addWidget(self._area, 1)
        page.addWidget(self.strip)
        self.setLayout(page)
        self._column.addWidget(self._empty)
        self._column.addWidget(self.begin, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addStretch(1)

    def show_sheet(self, sheet: JobSheet, signers: Signers) -> None:
        """Show the work as it stands; the open step is the sheet's card."""
        loud = [end.sentence for end in (*sheet.loose_now, *sheet.still_to_do) if end.loud]
        self._loud.setText("\n".join(loud))
        self._loud.setVisible(bool(loud))
        self._empty.setVisible(not sheet.steps)
        self.begin.setText(self.tr("Begin another method…") if sheet.steps else self.tr("Begin a method…"))
        look.as_role(self.begin, "quiet" if sheet.steps else "main")
        self._show_lines(sheet)
        self._show_card(sheet, signers)
        self.strip.show_acts(sheet.unsigned, signers)

    def _show_lines(self, sheet: JobSheet) -> None:
        today = self._now().date()
        if list(self._lines) != [key_of(step) for step in sheet.steps]:
            self._make_lines(sheet)
        for step in sheet.steps:
            line = self._lines[key_of(step)]
            line.show_step(step, today)
            line.setVisible(sheet.card is None or key_of(step) != key_of(sheet.card.step))

    def _make_lines(self, sheet: JobSheet) -> None:
        for old in (*self._lines.values(), *self._titles):
            old.hide()
            self._column.removeWidget(old)
            old.deleteLater()
        self._lines, self._titles = {}, []
        titles = {method.begun: f"{method.title} · {method.corner}" for method in sheet.methods}
        place = 1
        for step in sheet.steps:
            if len(titles) > 1 and step.number == 1:
                title = label(titles.get(step.begun, ""), "heading")
                self._titles.append(title)
                self._column.insertWidget(place, title)
                place += 1
            line = StepLine(step, self._now().date())
            line.clicked.connect(lambda _=False, line=line: self.step_wanted.emit(*key_of(line.step)))
            self._lines[key_of(step)] = line
            self._column.insertWidget(place, line)
            place += 1

    def _show_card(self, sheet: JobSheet, signers: Signers) -> None:
        if self.card is not None:
            self.card.hide()
            self._column.removeWidget(self.card)
            self.card.deleteLater()
            self.card = None
        if sheet.card is None:
            return
        self.card = StepCard(sheet.card, signers, self._now)
        line = self._lines.get(key_of(sheet.card.step))
        place = self._column.indexOf(line) + 1 if line is not None else 1
        self._column.insertWidget(place, self.card)
        self.card_made.emit(self.card)
        QTimer.singleShot(0, self.card, self.show_open_step)

    def show_open_step(self) -> None:
        """Bring the card into sight with a few steps before it."""
        if self.card is None:
            return
        self._column.activate()
        above = LINES_BEFORE * (look.ROW_HEIGHT - look.UNIT // 2)
        bar = self._area.verticalScrollBar()
        bottom = self.card.y() + self.card.height() + look.UNIT - self._area.viewport().height()
        bar.setValue(min(self.card.y() - look.UNIT, max(self.card.y() - above, bottom)))

    def take_focus(self) -> None:
        (self.card.take_focus if self.card is not None else self.begin.setFocus)()

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key means here; false where it means nothing."""
        if event.isAutoRepeat():
            return False
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            return self._go(-1 if event.key() == Qt.Key.Key_Up else 1)
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            return False
        return self.card is not None and self.card.press(key_name(event))

    def _go(self, by: int) -> bool:
        """Move the focus to the step above or below, past the card."""
        lines = list(self._lines.values())
        here = next((place for place, line in enumerate(lines) if line.hasFocus()), None)
        if here is None:
            here = next((place for place, line in enumerate(lines) if line.isHidden()), -1)
        there = here + by
        while 0 <= there < len(lines) and lines[there].isHidden():
            there += by
        if not 0 <= there < len(lines):
            return False
        lines[there].setFocus(Qt.FocusReason.TabFocusReason)
        self._area.ensureWidgetVisible(lines[there])
        return True
