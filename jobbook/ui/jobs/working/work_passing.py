"""Passing a job on: the note that the next person is asked to read, and their signature for having read it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Passing
from jobbook.ui import look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import clear, label
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.working.job_passing import passing_asks
from jobbook.ui.moments import day_and_hour


class PassingStrip(QFrame):
    """Hidden, until a job is to be passed on or waits to be taken on."""

    passed = Signal(dict)
    taken = Signal(dict)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "card")
        self._form: DeedForm | None = None
        self._shown: Passing | None = None
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT)
        self.hide()

    def show_passing(self, passing: Passing | None, signers: Signers) -> None:
        """Show the note of a job that was passed on, until somebody takes it on; what is being asked stays."""
        if passing is not None and passing != self._shown:
            self._show_note(passing, signers)
        elif passing is None and self._shown is not None:
            self.close_form()
        self._shown = passing

    def _show_note(self, passing: Passing, signers: Signers) -> None:
        to = self.tr("to {person}").format(person=passing.to) if passing.to else self.tr("to whoever takes it on")
        title = self.tr("Passed on by {person} {to}, {at}").format(
            person=passing.by, to=to, at=day_and_hour(passing.at)
        )
        asks = signers.asks(self.tr("Read, and taken on by"), self.tr("PIN or badge"))
        form = DeedForm(asks, self.tr("Take it on"))
        form.cancel.hide()
        form.handed_in.connect(self.taken)
        self._show(title, passing.note, passing.open, form)

    def ask(self, loose: tuple[str, ...], signers: Signers) -> None:
        """Ask to whom the job goes and what they must know; what is loose goes along by itself."""
        if self._form is not None:
            return
        form = DeedForm(passing_asks(signers), self.tr("Pass it on"))
        form.handed_in.connect(self.passed)
        form.cancelled.connect(self.close_form)
        self._show(self.tr("Pass the job on"), "", loose, form)
        form.begin()

    def _show(self, title: str, note: str, loose: tuple[str, ...], form: DeedForm) -> None:
        clear(self._page)
        self._page.addWidget(label(title, "section", wrap=True))
        if note:
            self._page.addWidget(label(note, wrap=True))
        said = " ".join(loose) if loose else self.tr("Nothing is loose.")
        self._page.addWidget(label(self.tr("Loose now: {what}").format(what=said), "soft", wrap=True))
        self._page.addWidget(form)
        for shown in self.findChildren(QWidget):
            if shown.parent() is self:
                shown.show()
        self._form = form
        self.show()

    def close_form(self) -> None:
        self._form, self._shown = None, None
        clear(self._page)
        self.hide()

    def is_asking(self) -> bool:
        """Whether somebody is passing the job on, or is asked to take it on."""
        return self._form is not None

    def scanned(self, code: str) -> bool:
        return self._form is not None and self._form.scanned(code)

    def refuse(self, sentence: str) -> bool:
        """Say why it was not kept; false where nothing is being asked."""
        if self._form is None:
            return False
        self._form.refuse(sentence)
        return True
