"""The steps below one another with the open one as a card among them."""

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import JobSheet
from jobbook.ui import controls, look
from jobbook.ui.jobs.rows import Following, Scrolled, label
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.working.job_steps import StepKey, key_of
from jobbook.ui.jobs.working.work_card import StepCard
from jobbook.ui.jobs.working.work_steps import StepLine

LINES_BEFORE = 3


class StepColumn(Following):
    """The lines stay and are written anew; the card is made anew for each sheet. `above` stands over the first step,
    `below` under the last. While `is_busy` says so the column does not scroll to the open step by itself."""

    step_wanted = Signal(int, int)
    card_made = Signal(object)

    def __init__(self, now: Callable[[], datetime], is_busy: Callable[[], bool]) -> None:
        self._inside = Scrolled()
        super().__init__(self._inside, arrows=False)
        self._now, self._is_busy = now, is_busy
        self.lines: dict[StepKey, StepLine] = {}
        self._titles: list[QWidget] = []
        self.card: StepCard | None = None
        self._beside: QWidget | None = None
        self.above, self._steps, self.below = (controls.column(gap=0) for _ in range(3))
        self._slot = controls.column()
        self._slot.setContentsMargins(0, look.UNIT, 0, look.UNIT)
        self._holder = controls.holding(self._slot)
        self._steps.addWidget(self._holder)
        self._column = QVBoxLayout(self._inside)
        self._column.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self._column.setSpacing(0)
        for part in (self.above, self._steps, self.below):
            self._column.addLayout(part)
        self._column.addStretch(1)
        self._inside.resized.connect(self._bring)

    def show_sheet(self, sheet: JobSheet, signers: Signers, take_focus: bool) -> None:
        """Show the steps and the open one. With `take_focus` the card gets the focus in any case, without it only where
        the focus would be lost."""
        self._show_lines(sheet)
        self._show_card(sheet, signers, take_focus)

    def _show_lines(self, sheet: JobSheet) -> None:
        today = self._now().date()
        if list(self.lines) != [key_of(step) for step in sheet.steps]:
            self._make_lines(sheet)
        for step in sheet.steps:
            line = self.lines[key_of(step)]
            line.show_step(step, today)
            line.setVisible(sheet.card is None or key_of(step) != key_of(sheet.card.step))

    def _make_lines(self, sheet: JobSheet) -> None:
        for old in (*self.lines.values(), *self._titles):
            old.hide()
            self._steps.removeWidget(old)
            old.deleteLater()
        self.lines, self._titles = {}, []
        titles = {m.begun: " · ".join(filter(None, (m.title, m.corner))) for m in sheet.methods}
        begun = -1
        for step in sheet.steps:
            if len(titles) > 1 and step.begun != begun:
                title = label(titles.get(step.begun, ""), "heading")
                self._titles.append(title)
                self._steps.addWidget(title)
                title.show()
            begun = step.begun
            line = StepLine(step, self._now().date())
            line.clicked.connect(lambda _=False, line=line: self.step_wanted.emit(*key_of(line.step)))
            line.correct_wanted.connect(lambda line=line: self._correct(line))
            self.lines[key_of(step)] = line
            self._steps.addWidget(line)

    def _correct(self, line: StepLine) -> None:
        """Open the step and ask what is to stand in place of what was done there."""
        self.step_wanted.emit(*key_of(line.step))
        if self.card is not None and key_of(self.card.card.step) == key_of(line.step):
            self.card.correct_last()

    def _show_card(self, sheet: JobSheet, signers: Signers, take_focus: bool) -> None:
        """Put the sheet's card in place of the old one, unless it is the same or something is being typed into it."""
        if self.card is not None and self.card.is_asking() and self._is_of(sheet):
            return
        take_focus = take_focus or self._would_lose_focus()
        if self.card is not None and (self.card.card, self.card.signers) == (sheet.card, signers):
            if take_focus:
                self.card.take_focus()
            return
        self.drop_card()
        self._holder.setVisible(sheet.card is not None)
        if sheet.card is None:
            return
        self.card = StepCard(sheet.card, signers, self._now)
        line = self.lines.get(key_of(sheet.card.step))
        self._steps.removeWidget(self._holder)
        self._steps.insertWidget(self._steps.indexOf(line) + 1 if line is not None else 0, self._holder)
        self._slot.addWidget(self.card)
        self.card.show()
        self.card.asking.connect(self.show_open_step)
        self.card_made.emit(self.card)
        if take_focus:
            self.card.take_focus()
        self.show_open_step()

    def _is_of(self, sheet: JobSheet) -> bool:
        """Whether the card that is shown is of the step that the sheet has open."""
        return (
            self.card is not None and sheet.card is not None and key_of(self.card.card.step) == key_of(sheet.card.step)
        )

    def _would_lose_focus(self) -> bool:
        """Whether what has the focus goes with the old card, or is the line that the new card takes the place of."""
        focus = self.window().focusWidget()
        if focus is None:
            return False
        in_card = self.card is not None and self.card.isAncestorOf(focus)
        return in_card or (isinstance(focus, StepLine) and focus.isHidden())

    def drop_card(self) -> None:
        """Let the card go; the next sheet brings a new one."""
        if self.card is not None:
            self.card.hide()
            self._slot.removeWidget(self.card)
            self.card.deleteLater()
            self.card = None

    def _bring(self) -> None:
        if not self._is_busy():
            self.show_open_step()
        elif self._beside is not None:
            self.show_widget(self._beside)

    def show_open_step(self) -> None:
        """Bring the card into sight with a few steps before it; what is being asked comes first."""
        if self.card is None:
            return
        self._column.activate()
        bar = self.verticalScrollBar()
        bottom = self._holder.y() + self._holder.height() - self.viewport().height()
        highest = bottom if self.card.is_asking() else self._holder.y()
        wanted = min(max(self._holder.y(), highest), max(self._top_of_the_steps_before(), bottom))
        first = self._holder.y() + self.card.top_of_form() if self.card.is_asking() else wanted
        bar.setValue(min(wanted, first))

    def _top_of_the_steps_before(self) -> int:
        before = [line for line in self.lines.values() if not line.isHidden() and line.y() < self._holder.y()]
        return before[-LINES_BEFORE:][0].y() if before else 0

    def show_widget(self, widget: QWidget) -> None:
        """Scroll to something beside the steps that asks, and keep it in sight while it does."""
        self._beside = widget
        self._column.activate()
        self.bring(widget)

    def go(self, by: int) -> bool:
        """Move the focus to the step above or below, past the card; false at either end."""
        lines = list(self.lines.values())
        here = next((place for place, line in enumerate(lines) if line.hasFocus()), None)
        if here is None:
            here = next((place for place, line in enumerate(lines) if line.isHidden()), -1)
        there = here + by
        while 0 <= there < len(lines) and lines[there].isHidden():
            there += by
        if not 0 <= there < len(lines):
            return False
        lines[there].setFocus(Qt.FocusReason.TabFocusReason)
        return True
