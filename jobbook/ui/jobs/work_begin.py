"""Choosing a method to begin, and entering the figures that a begun one lacks."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from jobbook.services.added import ADD
from jobbook.services.lacking import Lacking
from jobbook.services.methods import MethodCard
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.job_begin import CONFIRMED, begin_asks, figure_asks
from jobbook.ui.jobs.rows import RowButton, clear, label, let_clicks_through, rich_label


class MethodLine(RowButton):
    """One method that can be begun: its title, where it may be used, and what it is for."""

    def __init__(self, card: MethodCard) -> None:
        super().__init__("step")
        where = ", ".join(card.corners)
        words = rich_label([(card.title, "ink", True), (f" · {where}" if where else "", "soft", False)])
        what = label(card.summary, "soft", wrap=True)
        let_clicks_through(words, what)
        column = controls.column(words, what, gap=0)
        column.setContentsMargins(look.UNIT, look.UNIT // 2, look.UNIT, look.UNIT // 2)
        self.setLayout(column)
        self.setAccessibleName(f"{card.title} {where}. {card.summary}")


class BeginPanel(QFrame):
    """The methods as lines; the chosen one then asks its corner and its options in place."""

    begun = Signal(object, dict)
    added = Signal(dict)
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
        self._page.addWidget(label(self.tr("Which method leads the work?"), "heading"))
        lines = [MethodLine(card) for card in cards]
        for card, line in zip(cards, lines, strict=True):
            line.clicked.connect(lambda _=False, card=card: self.ask(card))
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

    def ask_joint(self) -> None:
        """Ask what is known of a joint that no method names."""
        explain = self.tr("It becomes a loose end as soon as it is touched. Without a torque the papers say “by feel”.")
        form = DeedForm(ADD, self.tr("Add the joint"), explain)
        form.handed_in.connect(self.added)
        form.confirmed.connect(lambda given: self.added.emit({**given, CONFIRMED: "yes"}))
        self.show()
        self._show_form(self.tr("A joint that the method does not name"), form)

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
