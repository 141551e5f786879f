"""The open step as a card: what to do, its caution, its joints, and only what the rules allow."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from jobbook.services.job.late import written_down_asks
from jobbook.services.sheet.asks import as_it_was
from jobbook.services.sheet.sheets import Ask, Card, Choice
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import label
from jobbook.ui.jobs.signing import WHY, Signers
from jobbook.ui.jobs.working.work_adapter import AdapterForm
from jobbook.ui.jobs.working.work_joints import JointSheet
from jobbook.ui.jobs.working.work_keys import KeyButton, KeyRow
from jobbook.ui.jobs.working.work_quiet import DoneLines, QuietActs, is_settled
from jobbook.ui.jobs.working.work_wait import Countdown
from jobbook.ui.language import said


class StepCard(QFrame):
    """One open step. It asks what a choice asks, in place, and says what was chosen."""

    chosen = Signal(object, dict)
    happened = Signal(object, dict)
    allowed = Signal(str, dict)
    corrected = Signal(int, dict)
    undone = Signal(str)
    figures_wanted = Signal()
    wait_over = Signal()
    asking = Signal()

    def __init__(self, card: Card, signers: Signers, now: Callable[[], datetime]) -> None:
        super().__init__()
        self.card = card
        self.signers = signers
        self._form: DeedForm | None = None
        self.buttons = [KeyButton(said(c.label), c.shortcut, c.main) for c in card.choices]
        self._keys = KeyRow(self.buttons)
        self._refusal = controls.Said("caution")
        self._quiet = QuietActs(card)
        self._done = DoneLines(card, now)
        look.as_role(self, "card")
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(look.UNIT * 2, look.UNIT * 3 // 2, look.UNIT * 2, look.UNIT * 3 // 2)
        self._page.setSpacing(look.UNIT)
        self._lay_out(now)
        self._connect()

    def _lay_out(self, now: Callable[[], datetime]) -> None:
        card = self.card
        self._page.addLayout(self._head())
        for words, role in ((card.text, ""), (card.caution, "caution")):
            if words:
                self._page.addWidget(label(words, role, wrap=True))
        if card.waits_until:
            countdown = Countdown(datetime.fromisoformat(card.waits_until), now)
            countdown.over.connect(self.wait_over)
            self._page.addWidget(countdown)
        if card.joints:
            self._page.addWidget(JointSheet(card.joints))
        for source in card.sources:
            self._page.addWidget(label(source, "small", wrap=True))
        self._page.addWidget(self._done)
        for sentence in () if is_settled(card) else card.needs:
            self._page.addWidget(label(sentence, "needs", wrap=True))
        self._page.addWidget(self._refusal)
        self._page.addWidget(self._keys)
        self._page.addWidget(self._quiet)

    def _head(self) -> QVBoxLayout:
        step = self.card.step
        title = label(f"{step.number}  {step.title}", "title", wrap=True)
        corner = label(step.corner, "soft")
        line = controls.row(gap=look.UNIT * 2)
        line.addWidget(title, 1)
        line.addWidget(corner, 0, Qt.AlignmentFlag.AlignTop)
        return controls.column(line)

    def _connect(self) -> None:
        for button, choice in zip(self.buttons, self.card.choices, strict=True):
            button.clicked.connect(lambda _=False, choice=choice: self.choose(choice))
        self._quiet.happened.connect(self._ask_happened)
        self._quiet.on_paper.connect(self._ask_on_paper)
        self._quiet.allow.connect(self._ask_allow)
        self._quiet.figures.connect(self.figures_wanted)
        self._done.correct.connect(self._ask_correction)
        self._done.undo.connect(self.undone)

    def press(self, key: str) -> bool:
        """Do what the key stands for; false where it stands for nothing on this card."""
        wanted = next((choice for choice in self.card.choices if choice.shortcut.casefold() == key.casefold()), None)
        if wanted is None or self._form is not None:
            return False
        self.choose(wanted)
        return True

    def choose(self, choice: Choice) -> None:
        """Take a choice: ask what it asks, or say at once that it was chosen."""
        signs = self._sign_asks(choice) if choice.signs else ()
        if not choice.asks and not signs:
            self.chosen.emit(choice, {})
            return
        keep = self.tr("Sign") if signs else self.tr("Keep")
        if choice.adapter is not None:
            form: DeedForm = AdapterForm(choice, signs, keep)
        else:
            form = DeedForm((*choice.asks, *signs), keep, said(choice.label))
        self._show_form(form, lambda given: self.chosen.emit(choice, given))

    def _sign_asks(self, choice: Choice) -> tuple[Ask, ...]:
        who = self.tr("Second check by") if choice.second_person else self.tr("Signed by")
        return self.signers.asks(who, self.tr("PIN or badge"), choice.second_person)

    def _ask_happened(self, choice: Choice) -> None:
        reason = Ask(WHY, self.tr("How did it come to be done, and what was done about it?"), "long text")
        signs = self._sign_asks(choice) if choice.signs else ()
        explain = self.tr("Kept with the rule's name and your reason; it stays a loose end until it is put right.")
        asks = (*map(_as_it_was, choice.asks), reason, *signs)
        self._ask(asks, self.tr("Keep as happened"), explain, lambda given: self.happened.emit(choice, given))

    def _ask_on_paper(self, choice: Choice) -> None:
        """Ask for what stands on somebody's paper. It waits for that person's own signature."""
        explain = self.tr("{act}, as it stands on the paper. Whoever did it signs it later; no value is made up.")
        asks = (*choice.asks, *written_down_asks(self.signers.people))
        keep = self.tr("Keep from paper")
        self._ask(asks, keep, explain.format(act=said(choice.label)), lambda given: self.chosen.emit(choice, given))

    def _ask_allow(self, rule: str) -> None:
        reason = Ask("reason", self.tr("Why is it allowed this once?"), "long text")
        signs = self.signers.asks(self.tr("Allowed by"), self.tr("PIN or badge"))
        explain = self.tr("Allows what the rule “{rule}” refuses, on this job. The papers print the reason.")
        keep = self.tr("Allow")
        self._ask((reason, *signs), keep, explain.format(rule=rule), lambda given: self.allowed.emit(rule, given))

    def correct_last(self) -> None:
        """Ask what is to stand in place of the last signed act of this step; what is unsigned is undone instead."""
        signed = [done for done in self.card.done if done.signed]
        if signed:
            self._ask_correction(signed[-1].entry, signed[-1].asks)

    def _ask_correction(self, entry: int, asks: Sequence[Ask]) -> None:
        reason = Ask(WHY, self.tr("Why is it corrected?"), "long text")
        explain = self.tr("Entry {entry} stays readable; the correction stands beside it.").format(entry=entry)
        keep = self.tr("Keep the correction")
        signs = self.signers.asks(self.tr("Corrected by"), self.tr("PIN or badge"))
        self._ask((*asks, reason, *signs), keep, explain, lambda given: self.corrected.emit(entry, given))

    def _ask(self, asks: Sequence[Ask], keep: str, explain: str, hand_in: Callable[[dict[str, str]], None]) -> None:
        self._show_form(DeedForm(asks, keep, explain), hand_in)

    def _show_form(self, form: DeedForm, hand_in: Callable[[dict[str, str]], None]) -> None:
        self.close_form()
        form.handed_in.connect(hand_in)
        form.cancelled.connect(self.close_form)
        self._form = form
        self._page.addWidget(form)
        form.show()
        for hidden in (self._keys, self._quiet, self._refusal):
            hidden.hide()
        form.begin()
        self.asking.emit()

    def close_form(self) -> None:
        """Give up what is being asked and show the choices again."""
        if self._form is None:
            return
        self._form.hide()
        self._form.deleteLater()
        self._form = None
        self._keys.show()
        self._quiet.show()
        self.take_focus()

    def is_asking(self) -> bool:
        return self._form is not None

    def top_of_form(self) -> int:
        """How far below the card's edge begins what is being asked."""
        return self._form.y() if self._form is not None else 0

    def scanned(self, code: str) -> bool:
        return self._form is not None and self._form.scanned(code)

    def refuse(self, sentence: str) -> None:
        """Say on the card why what was chosen was not kept."""
        if self._form is not None:
            self._form.refuse(sentence)
            return
        self._refusal.setText(sentence)

    def take_focus(self) -> None:
        """Put the focus on the main act, or where there is none on the first thing that can be pressed."""
        main = next((button for button in self.buttons if button.main), None)
        first: QWidget | None = main or next(iter(self.buttons), None) or self._quiet.first()
        (first or self).setFocus(Qt.FocusReason.OtherFocusReason)


def _as_it_was(ask: Ask) -> Ask:
    """What was done can have been done with a tool that must not be taken: it can be named then."""
    return replace(ask, options=as_it_was(ask.options)) if ask.kind == "tool" else ask
