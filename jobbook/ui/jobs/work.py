"""The Work tab: the steps before, the open step as a card, the steps after, and what still waits for a signature."""

from collections.abc import Callable, Sequence
from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from jobbook.services.lacking import Lacking
from jobbook.services.methods import MethodCard
from jobbook.services.sheets import JobSheet
from jobbook.ui import controls, look
from jobbook.ui.jobs.job_steps import StepKey, key_of
from jobbook.ui.jobs.rows import Following, Scrolled, label
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.work_begin import BeginPanel, FigureForm, LackingStrip
from jobbook.ui.jobs.work_card import StepCard
from jobbook.ui.jobs.work_keys import key_name
from jobbook.ui.jobs.work_sign import UnsignedStrip
from jobbook.ui.jobs.work_steps import StepLine

LINES_BEFORE = 3


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
        self._was_asking = False
        self._loud = label("", "caution", wrap=True)
        self._empty = label(self.tr("Nothing is begun. Choose the method that leads the work."), "soft", wrap=True)
        self.begin = controls.button(self.tr("Begin a method…"), "quiet")
        self.begin_panel = BeginPanel()
        self.lacking = LackingStrip()
        self.figure_form = FigureForm()
        self._lack = Lacking("")
        self.strip = UnsignedStrip()
        self._column = QVBoxLayout()
        self._slot = controls.column(margin=0)
        self._slot.setContentsMargins(0, look.UNIT, 0, look.UNIT)
        self._holder = controls.holding(self._slot)
        self._inside = Scrolled()
        self._area = Following(self._inside, arrows=False)
        self._lay_out()
        self._inside.resized.connect(self._bring)
        self.begin.clicked.connect(self.begin_wanted)
        self.begin_panel.cancelled.connect(self.close_begin)
        self.lacking.enter.clicked.connect(self.ask_figures)

    def _lay_out(self) -> None:
        self._column.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self._column.setSpacing(0)
        self._inside.setLayout(self._column)
        page = controls.column(gap=0)
        page.addWidget(self._loud)
        page.addWidget(self.lacking)
        page.addWidget(self._area, 1)
        page.addWidget(self.strip)
        self.setLayout(page)
        self._column.addWidget(self.figure_form)
        self._column.addWidget(self._empty)
        self._column.addWidget(self._holder)
        self._column.addWidget(self.begin, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(self.begin_panel)
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
        place = self._column.indexOf(self._empty) + 1
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
        """Put the sheet's card in place of the old one, unless something is being typed into it."""
        if self.card is not None and self.card.is_asking() and self._is_of(sheet):
            return
        here = self._is_here() or self._was_asking
        self._was_asking = False
        self._drop_card()
        self._holder.setVisible(sheet.card is not None)
        if sheet.card is None:
            return
        self.card = StepCard(sheet.card, signers, self._now)
        line = self._lines.get(key_of(sheet.card.step))
        self._column.removeWidget(self._holder)
        self._column.insertWidget(self._column.indexOf(line or self._empty) + 1, self._holder)
        self._slot.addWidget(self.card)
        self.card.show()
        self.card.asking.connect(self.show_open_step)
        self.card_made.emit(self.card)
        if here:
            self.card.take_focus()
        self.show_open_step()

    def _is_of(self, sheet: JobSheet) -> bool:
        """Whether the card that is shown is of the step that the sheet has open."""
        return (
            self.card is not None and sheet.card is not None and key_of(self.card.card.step) == key_of(sheet.card.step)
        )

    def _is_here(self) -> bool:
        """Whether the focus is on this tab and would be lost with the card: a step that stays in sight keeps it."""
        focus = QApplication.focusWidget()
        if focus is None or not self.isAncestorOf(focus):
            return False
        return not isinstance(focus, StepLine) or focus.isHidden()

    def _drop_card(self) -> None:
        if self.card is not None:
            self.card.hide()
            self._slot.removeWidget(self.card)
            self.card.deleteLater()
            self.card = None

    def _bring(self) -> None:
        if self.figure_form.isHidden() and self.begin_panel.isHidden():
            self.show_open_step()

    def show_open_step(self) -> None:
        """Bring the card into sight with a few steps before it; what is being asked comes first."""
        if self.card is None:
            return
        self._column.activate()
        bar = self._area.verticalScrollBar()
        bottom = self._holder.y() + self._holder.height() - self._area.viewport().height()
        highest = bottom if self.card.is_asking() else self._holder.y()
        bar.setValue(min(max(self._holder.y(), highest), max(self._top_of_the_steps_before(), bottom)))

    def _top_of_the_steps_before(self) -> int:
        before = [line for line in self._lines.values() if not line.isHidden() and line.y() < self._holder.y()]
        return before[-LINES_BEFORE:][0].y() if before else 0

    def offer(self, cards: Sequence[MethodCard]) -> None:
        """Offer methods to begin, at the end of the steps."""
        self.begin.hide()
        self.begin_panel.show_methods(cards)
        self._column.activate()
        self._area.ensureWidgetVisible(self.begin_panel)

    def show_lacking(self, lack: Lacking) -> None:
        self._lack = lack
        self.lacking.show_lacking(lack)

    def ask_figures(self) -> None:
        """Ask for the figures that are missing, above the steps."""
        self.figure_form.ask(self._lack)
        self._column.activate()
        self._area.verticalScrollBar().setValue(0)

    def close_begin(self) -> None:
        self.begin_panel.hide()
        self.begin.show()

    def close_forms(self) -> None:
        """What was asked for is in the book: nothing is being asked any more."""
        self._was_asking = self.isAncestorOf(QApplication.focusWidget() or self)
        self.close_begin()
        self.figure_form.close_form()
        self.strip.close_form()
        if self.card is not None:
            self.card.close_form()

    def refuse(self, sentence: str) -> None:
        """Say why it was not kept, where it was asked."""
        if self.begin_panel.refuse(sentence) or self.figure_form.refuse(sentence) or self.strip.refuse(sentence):
            return
        if self.card is not None:
            self.card.refuse(sentence)
        else:
            self._loud.setText(sentence)
            self._loud.setVisible(bool(sentence))

    def scanned(self, code: str) -> bool:
        """Take a badge as the signature that is asked for; false where none is."""
        return self.strip.scanned(code) or (self.card is not None and self.card.scanned(code))

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
