"""The quiet acts of a card: what was done at this step, and what remains where the rules refuse."""

from collections.abc import Callable
from datetime import datetime
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Card, Done
from jobbook.ui import controls, look
from jobbook.ui.jobs.rows import SMALL_MARK, level_with_text, rich_label, runs
from jobbook.ui.moments import beside
from jobbook.ui.paint import MarkLabel


def is_settled(card: Card) -> bool:
    """Whether the open step is done: then what the rules would refuse a second time is of no interest."""
    return bool(card.done) and card.step.mark in ("disc", "double")


class QuietActs(QWidget):
    """ "It has already happened" and "Allow beforehand" for what is refused, the way to missing figures, and "Written
    on paper" for what somebody else did and wrote down."""

    happened = Signal(object)
    on_paper = Signal(object)
    allow = Signal(str)
    figures = Signal()

    def __init__(self, card: Card) -> None:
        super().__init__()
        self._buttons: list[QPushButton] = []
        self._line = QHBoxLayout(self)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(look.UNIT)
        if card.figures:
            self._add(self.tr("Enter the figure"), self.figures.emit, "plain")
        if card.blocked and not is_settled(card):
            choice = card.blocked[0].choice
            self._add(self.tr("It has already happened…"), lambda: self.happened.emit(choice))
        refused = () if is_settled(card) else card.blocked
        rules = dict.fromkeys(rule for blocked in refused for rule in blocked.may_allow)
        for rule in rules:
            words = self.tr("Allow beforehand…") if len(rules) == 1 else self.tr("Allow {rule}…").format(rule=rule)
            self._add(words, partial(self.allow.emit, rule))
        main = next((choice for choice in card.choices if choice.main), None)
        if main is not None and not main.second_person and main.key != "wait-begun" and not is_settled(card):
            self._add(self.tr("Written on paper…"), lambda: self.on_paper.emit(main))
        self._line.addStretch(1)
        if not self._buttons:
            self.hide()

    def _add(self, words: str, press: Callable[[], None], role: str = "quiet") -> None:
        button = controls.button(words, role)
        button.clicked.connect(lambda _=False: press())
        self._buttons.append(button)
        self._line.addWidget(button)

    def show(self) -> None:
        self.setVisible(bool(self._buttons))

    def first(self) -> QPushButton | None:
        return next(iter(self._buttons), None)


class DoneLines(QWidget):
    """What was done at this step, by whom and when. What is unsigned can be undone; what is signed, corrected."""

    correct = Signal(int, object)
    undo = Signal(str)

    def __init__(self, card: Card, now: Callable[[], datetime]) -> None:
        super().__init__()
        self._now = now
        self._lines = QVBoxLayout(self)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(look.UNIT // 2)
        for done in card.done:
            self._lines.addWidget(self._line(done))
        if not card.done:
            self.hide()

    def _line(self, done: Done) -> QWidget:
        holder = QWidget()
        line = QHBoxLayout(holder)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(look.UNIT)
        by = ", ".join(filter(None, (done.by, beside(done.at, self._now().date()))))
        signed = "" if done.signed else self.tr(" · not signed yet")
        was = self.tr(" · corrected, was: {was}").format(was=done.corrected) if done.corrected else ""
        parts = [(done.words, "ink", False), (f" · {by}{signed}{was}", "soft", False)]
        line.addLayout(level_with_text(MarkLabel("disc" if done.signed else "half", "patina", size=SMALL_MARK)))
        words = rich_label()
        words.setText(runs(parts))
        line.addWidget(words, 1)
        line.addWidget(self._act(done), 0, Qt.AlignmentFlag.AlignTop)
        return holder

    def _act(self, done: Done) -> QPushButton:
        if not done.signed:
            button = controls.button(self.tr("Undo"), "line")
            button.clicked.connect(lambda _=False: self.undo.emit(done.act_id))
        else:
            button = controls.button(self.tr("Correct…"), "line")
            button.clicked.connect(lambda _=False: self.correct.emit(done.entry, done.asks))
        button.setAccessibleName(f"{button.text()} {done.words}")
        return button
