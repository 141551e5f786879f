"""Choosing a method to begin, and entering the figures that a begun one lacks."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from jobbook.services.job.added import ASKS, TITLES
from jobbook.services.job.methods import MethodCard
from jobbook.services.sheet.lacking import Lacking
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import RowButton, clear, label, let_clicks_through, rich_label
from jobbook.ui.jobs.working.job_begin import CONFIRMED, begin_asks, figure_asks
from jobbook.ui.language import said

EXPLAINED: Mapping[str, str] = {
    "joint": "It becomes a loose end as soon as it is touched. Without a torque the papers say “by feel”.",
    "line": "Its air is let out before it is opened; open it is a loose end until it is joined and proved tight.",
    "part": "Off it is a loose end until it is on again, or a new one is.",
    "connector": "Unplugged it is a loose end until it is plugged in again.",
    "aid": "In place it is a loose end until it is taken away.",
}


class OfferLine(RowButton):
    """One thing to choose: its title, where it may be used, and what it is for."""

    def __init__(self, title: str, summary: str, where: str = "") -> None:
        super().__init__("step")
        words = rich_label([(title, "ink", True), (f" · {where}" if where else "", "soft", False)])
        what = label(summary, "soft", wrap=True)
        let_clicks_through(words, what)
        column = controls.column(words, what, gap=0)
        column.setContentsMargins(look.UNIT, look.UNIT // 2, look.UNIT, look.UNIT // 2)
        self.setLayout(column)
        self.setAccessibleName(f"{title} {where}. {summary}")


class BeginPanel(QFrame):
    """The methods as lines; the chosen one then asks its corner and its options in place."""

    begun = Signal(object, dict)
    added = Signal(str, dict)
    cancelled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "card")
        self._form: DeedForm | None = None
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self.hide()

    def show_methods(self, cards: Sequence[MethodCard]) -> None:
        """Offer these methods. With one alone its questions are asked at once."""
        self._form = None
        clear(self._page)
        self.show()
        if len(cards) == 1:
            self.ask(cards[0])
            return
        lines = [OfferLine(card.title, card.summary, ", ".join(card.corners)) for card in cards]
        self._offer(self.tr("Which method leads the work?"), lines, tuple(cards), self.ask)

    def _offer(
        self, question: str, lines: Sequence[OfferLine], what: Sequence[Any], choose: Callable[[Any], None]
    ) -> None:
        clear(self._page)
        self._page.addWidget(label(question, "heading"))
        for one, line in zip(what, lines, strict=True):
            line.clicked.connect(lambda _=False, one=one: choose(one))
            self._page.addWidget(line)
            line.show()
        cancel = controls.button(self.tr("Cancel"), "quiet")
        cancel.clicked.connect(self.cancelled)
        self._page.addWidget(cancel, 0, Qt.AlignmentFlag.AlignLeft)
        cancel.show()
        (lines[0] if lines else cancel).setFocus(Qt.FocusReason.TabFocusReason)

    def ask(self, card: MethodCard) -> None:
        """Ask where this method is used, and its yes-or-no questions."""
        form = DeedForm(begin_asks(card), self.tr("Begin"), card.summary, columns=1)
        form.handed_in.connect(lambda given: self.begun.emit(card, given))
        self._show_form(card.title, form)

    def ask_kind(self) -> None:
        """Ask what kind of thing is to be added that no method names."""
        self._form = None
        self.show()
        lines = [OfferLine(said(title), said(EXPLAINED[kind])) for kind, title in TITLES.items()]
        self._offer(self.tr("What is it that the method does not name?"), lines, tuple(TITLES), self.ask_thing)

    def ask_thing(self, kind: str) -> None:
        """Ask what is known of a thing that no method names."""
        form = DeedForm(ASKS[kind], self.tr("Add it"), EXPLAINED[kind])
        form.handed_in.connect(lambda given: self.added.emit(kind, given))
        form.confirmed.connect(lambda given: self.added.emit(kind, {**given, CONFIRMED: "yes"}))
        self._show_form(TITLES[kind], form)

    def _show_form(self, title: str, form: DeedForm) -> None:
        clear(self._page)
        self._page.addWidget(label(title, "title", wrap=True))
        form.cancelled.connect(self.cancelled)
        self._page.addWidget(form)
        form.show()
        form.begin()
        self._form = form

    def ask_to_confirm(self, sentence: str) -> bool:
        """Say what looks wrong with the torque of a joint; false where nothing is being asked."""
        if self.isHidden() or self._form is None:
            return False
        self._form.ask_to_confirm(sentence)
        return True

    def refuse(self, sentence: str) -> bool:
        """Say why it was not begun; false where nothing is being asked."""
        if self.isHidden() or self._form is None:
            return False
        self._form.refuse(sentence)
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.cancelled.emit()
        else:
            event.ignore()


class LackingStrip(QFrame):
    """Says in one line which figures the variant still lacks."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "strip")
        self._count = label("", "loose")
        self._names = controls.Elided("", "soft")
        self.enter = controls.button(self.tr("Enter them…"), "quiet")
        line = controls.row(self._count, self._names, self.enter)
        line.setStretchFactor(self._names, 1)
        line.setContentsMargins(look.UNIT * 2, look.UNIT // 2, look.UNIT * 2, look.UNIT // 2)
        self.setLayout(line)
        self.hide()

    def show_lacking(self, lack: Lacking) -> None:
        count = len(lack.figures)
        words = self.tr("{count} figures are missing:") if count != 1 else self.tr("1 figure is missing:")
        self._count.setText(words.format(count=count))
        self._names.show_text(", ".join(title for _, _, title in lack.figures))
        self.setVisible(bool(lack.figures))


class FigureForm(QFrame):
    """Takes the figures that the variant lacks, with the document that they stand in."""

    entered = Signal(object, dict)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "card")
        self._form: DeedForm | None = None
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self.hide()

    def ask(self, lack: Lacking) -> None:
        """Ask for these figures."""
        if self._form is not None:
            return
        explain = self.tr(
            "For {variant}, as they stand in the maker's document. What you leave empty stays missing."
        ).format(variant=lack.variant or self.tr("a vehicle without a variant"))
        self._form = DeedForm(figure_asks(lack), self.tr("Keep the figures"), explain)
        self._form.handed_in.connect(lambda given: self.entered.emit(lack, given))
        self._form.confirmed.connect(lambda given: self.entered.emit(lack, {**given, CONFIRMED: "yes"}))
        self._form.cancelled.connect(self.close_form)
        self._page.addWidget(self._form)
        self._form.show()
        self.show()
        self._form.begin()

    def close_form(self) -> None:
        self.hide()
        if self._form is not None:
            self._form.deleteLater()
            self._form = None

    def ask_to_confirm(self, sentence: str) -> bool:
        """Say which torque looks wrong; false where none is being entered."""
        if self._form is None:
            return False
        self._form.ask_to_confirm(sentence)
        return True

    def refuse(self, sentence: str) -> bool:
        """Say why no figure was kept; false where none is being entered."""
        if self._form is None:
            return False
        self._form.refuse(sentence)
        return True
