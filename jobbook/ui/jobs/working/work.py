"""The Work tab: the steps with the open one as a card, methods to begin, missing figures, and what waits for a
signature."""

from collections.abc import Callable, Sequence
from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from jobbook.services.job.methods import MethodCard
from jobbook.services.sheet.lacking import Lacking
from jobbook.services.sheet.sheets import JobSheet
from jobbook.ui import controls, look
from jobbook.ui.jobs.rows import label
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.working.work_begin import BeginPanel, FigureForm, LackingStrip
from jobbook.ui.jobs.working.work_card import StepCard
from jobbook.ui.jobs.working.work_column import StepColumn
from jobbook.ui.jobs.working.work_keys import key_name
from jobbook.ui.jobs.working.work_passing import PassingStrip
from jobbook.ui.jobs.working.work_sign import UnsignedStrip

UNDO, PASS_ON = "U", "H"


class WorkTab(QWidget):
    """The work of one job. It shows a sheet and says what the person chose."""

    begin_wanted = Signal()
    added = Signal(str, dict)
    passing_wanted = Signal()

    def __init__(self, now: Callable[[], datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._was_asking = False
        self._lack = Lacking("")
        self._loud = controls.Said("caution")
        self._empty = label(self.tr("Nothing is begun. Choose the method that leads the work."), "soft", wrap=True)
        self.begin = controls.button(self.tr("Begin a method…"), "quiet")
        self.add = controls.button(self.tr("Something that the method does not name…"), "quiet")
        self.hand_on = controls.button(self.tr("Pass the job on…"), "quiet")
        self.hand_on.setToolTip(PASS_ON)
        self.passing = PassingStrip()
        self.begin_panel = BeginPanel()
        self.lacking = LackingStrip()
        self.figure_form = FigureForm()
        self.strip = UnsignedStrip()
        self.steps = StepColumn(now, self._asks_beside_the_steps)
        self._lay_out()
        self.begin.clicked.connect(self.begin_wanted)
        self.add.clicked.connect(self.ask_thing)
        self.hand_on.clicked.connect(self.passing_wanted)
        self.begin_panel.added.connect(self.added)
        self.begin_panel.cancelled.connect(self.close_begin)
        self.lacking.enter.clicked.connect(self.ask_figures)

    @property
    def card(self) -> StepCard | None:
        return self.steps.card

    def _lay_out(self) -> None:
        self.steps.above.addWidget(self.figure_form)
        self.steps.above.addWidget(self._empty)
        self.steps.below.addLayout(controls.row(self.begin, self.add, self.hand_on, 1))
        self.steps.below.addWidget(self.begin_panel)
        page = controls.column(self._loud, self.passing, self.lacking, gap=0)
        page.addWidget(self.steps, 1)
        page.addWidget(self.strip)
        self.setLayout(page)

    def _asks_beside_the_steps(self) -> bool:
        return not (self.figure_form.isHidden() and self.begin_panel.isHidden())

    def show_sheet(self, sheet: JobSheet, signers: Signers) -> None:
        """Show the work as it stands; the open step is the sheet's card."""
        loud = [end.sentence for end in (*sheet.loose_now, *sheet.still_to_do) if end.loud]
        self._say("\n".join(loud))
        self._empty.setVisible(not sheet.steps)
        self.begin.setText(self.tr("Begin another method…") if sheet.steps else self.tr("Begin a method…"))
        look.as_role(self.begin, "quiet" if sheet.steps else "main")
        self.add.setVisible(bool(sheet.steps) and self.begin_panel.isHidden())
        self.steps.show_sheet(sheet, signers, self._was_asking)
        self._was_asking = False
        self.strip.show_acts(sheet.unsigned, signers)
        self.passing.show_passing(sheet.passing, signers)
        self.hand_on.setVisible(bool(sheet.steps) and sheet.passing is None and sheet.stage == "in work")

    def _say(self, sentence: str) -> None:
        self._loud.setText(sentence)

    def offer(self, cards: Sequence[MethodCard]) -> None:
        """Offer methods to begin, at the end of the steps."""
        self.begin.hide()
        self.add.hide()
        self.begin_panel.show_methods(cards)
        self.steps.show_widget(self.begin_panel)

    def ask_thing(self) -> None:
        """Ask for something that the method does not name, at the end of the steps."""
        self.begin.hide()
        self.add.hide()
        self.begin_panel.ask_kind()
        self.steps.show_widget(self.begin_panel)

    def show_lacking(self, lack: Lacking) -> None:
        self._lack = lack
        self.lacking.show_lacking(lack)

    def ask_figures(self) -> None:
        """Ask for the figures that are missing, above the steps."""
        self.figure_form.ask(self._lack)
        self.steps.show_widget(self.figure_form)

    def close_begin(self) -> None:
        self.begin_panel.hide()
        self.begin.show()
        self.add.setVisible(bool(self.steps.lines))

    def close_forms(self) -> None:
        """What was asked for is in the book: nothing is being asked any more."""
        focus = self.window().focusWidget()
        self._was_asking = focus is not None and self.isAncestorOf(focus)
        self.close_begin()
        self.figure_form.close_form()
        self.strip.close_form()
        self.passing.close_form()
        if self.card is not None:
            self.card.close_form()

    def refuse(self, sentence: str) -> None:
        """Say why it was not kept, where it was asked."""
        asked = (self.begin_panel, self.figure_form, self.strip, self.passing)
        if any(one.refuse(sentence) for one in asked):
            return
        if self.card is not None:
            self.card.refuse(sentence)
        else:
            self._say(sentence)

    def ask_to_confirm(self, sentence: str) -> None:
        """Say what looks wrong where it was asked, and offer to keep it all the same."""
        if not (self.begin_panel.ask_to_confirm(sentence) or self.figure_form.ask_to_confirm(sentence)):
            self.refuse(sentence)

    def scanned(self, code: str) -> bool:
        """Take a badge as the signature that is asked for; false where none is."""
        if self.strip.scanned(code) or self.passing.scanned(code):
            return True
        return self.card is not None and self.card.scanned(code)

    def take_focus(self) -> None:
        (self.card.take_focus if self.card is not None else self.begin.setFocus)()

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key means here; false where it means nothing."""
        if event.isAutoRepeat():
            return False
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            return self.steps.go(-1 if event.key() == Qt.Key.Key_Up else 1)
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            return False
        key = key_name(event)
        if self.card is not None and self.card.press(key):
            return True
        if self.card is not None and self.card.is_asking():
            return False
        meant = {UNDO: self.strip.undo_last, PASS_ON: self._want_to_pass_on}.get(key)
        if meant is not None:
            meant()
        return meant is not None

    def _want_to_pass_on(self) -> None:
        if not self.hand_on.isHidden():
            self.passing_wanted.emit()
