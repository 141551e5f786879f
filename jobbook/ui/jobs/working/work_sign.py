"""The strip under the steps: acts that are kept but not signed yet, to sign with one signature or to undo."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Unsigned
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import Following, Scrolled, label
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.paint import MarkLabel

MOST_LINES = 8


class UnsignedStrip(QFrame):
    """ "3 acts to sign", with what they are. Hidden while there is nothing to sign."""

    signed = Signal(dict)
    undone = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "strip")
        self._acts: tuple[Unsigned, ...] = ()
        self._signers = Signers()
        self._form: DeedForm | None = None
        self._list = QWidget()
        self._count = label("", "strong")
        self._words = controls.Elided("", "soft")
        self.sign = controls.button(self.tr("Sign"), "plain")
        self.undo = controls.button(self.tr("Undo the last"), "quiet")
        self.undo.setToolTip(self.tr("Ctrl+Z"))
        self._line = controls.row(MarkLabel("half", "bluing"), self._count, self._words, self.sign, self.undo)
        self._line.setStretchFactor(self._words, 1)
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self._page.addLayout(self._line)
        self.sign.clicked.connect(self.ask)
        self.undo.clicked.connect(self.undo_last)
        self.hide()

    def show_acts(self, acts: Sequence[Unsigned], signers: Signers) -> None:
        if self._form is not None and (tuple(acts), signers) == (self._acts, self._signers):
            return  # somebody is signing just these
        self._acts, self._signers = tuple(acts), signers
        self.close_form()
        many = self.tr("{count} acts to sign") if len(acts) != 1 else self.tr("1 act to sign")
        self._count.setText(many.format(count=len(acts)))
        self._words.show_text(" · ".join(act.words for act in reversed(acts)))
        self.setVisible(bool(acts))

    def undo_last(self) -> None:
        """Take back the act that was kept last, if it is not signed yet."""
        if self._acts:
            self.undone.emit(max(self._acts, key=lambda act: act.entry).act_id)

    def ask(self) -> None:
        """Ask for the one signature that stands under them all."""
        if self._form is not None or not self._acts:
            return
        asks = self._signers.asks(self.tr("Signed by"), self.tr("PIN or badge"))
        self._form = DeedForm(asks, self.tr("Sign"))
        self._list = _list(self._acts)
        self._form.handed_in.connect(self.signed)
        self._form.cancelled.connect(self.close_form)
        self.sign.hide()
        self._words.hide()
        self._page.addWidget(self._list)
        self._page.addWidget(self._form)
        self._list.show()
        self._form.show()
        self._form.begin()

    def close_form(self) -> None:
        if self._form is not None:
            self._form.hide()
            self._form.deleteLater()
            self._form = None
            self._list.hide()
            self._list.deleteLater()
        self.sign.show()
        self._words.show()

    def scanned(self, code: str) -> bool:
        return self._form is not None and self._form.scanned(code)

    def refuse(self, sentence: str) -> bool:
        """Say why it was not signed; false where nothing is being signed."""
        if self._form is None:
            return False
        self._form.refuse(sentence)
        return True


def _list(acts: Sequence[Unsigned]) -> QWidget:
    """Every act that the signature stands under; a long list scrolls, so that none is signed unseen."""
    lines = controls.column(gap=0)
    for act in acts:
        lines.addWidget(label(f"{act.words} · {act.by}", "soft", wrap=True))
    inside = Scrolled()
    inside.setLayout(lines)
    area = Following(inside)
    area.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # so that the arrow keys read it to its end
    area.setAccessibleName("; ".join(act.words for act in acts))
    area.setFixedHeight(min(len(acts), MOST_LINES) * (look.BODY + look.UNIT // 2 + 1))
    return area
