"""A column of blocks about a vehicle or a customer: each with its lines, and what can be done there, asked in place."""

from datetime import date
from typing import Protocol

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.services.opened import OpenBook
from jobbook.ui.controls import column
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.tabs.page import TabPage
from jobbook.ui.jobs.tabs.records import Answers, Deed, TabSheet
from jobbook.ui.places import Place
from jobbook.ui.setting import Setting


class Source(Protocol):
    """What the blocks say, and how what is done there is kept. A module is one."""

    def show(self, book: OpenBook, number: int) -> TabSheet: ...

    def keep(self, book: OpenBook, who: Person, number: int, deed: Deed, given: Answers) -> str:
        """Keep it, and return a sentence for what was kept, or ""."""

    def place(self, deed: Deed) -> Place:
        """Where a deed leads that opens something."""


def while_typing(error: BookError) -> str:
    """A refusal as it is said while something is still being typed: nothing was to be changed yet."""
    said = str(error).removeprefix("Nothing was changed: ")
    return said[:1].upper() + said[1:]


class BlocksView(QWidget):
    """Shows the blocks of one number. `kept` carries what was kept; `go` where somebody wants to go."""

    go = Signal(object)  # Place
    kept = Signal(str)

    def __init__(self, setting: Setting, source: Source, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._setting, self._source, self._number = setting, source, 0
        self.tab = TabPage(self._today)
        self.setLayout(column(self.tab))
        self.tab.done.connect(self._do)

    def _today(self) -> date:
        return self._setting.book.today()

    def open(self, number: int) -> None:
        """Show another number; what was being asked about the one before is given up."""
        self.tab.close_form()
        self._number = self.tab.about = number
        self.refresh()

    def refresh(self) -> None:
        if self._number:
            self.tab.show_tab(self._source.show(self._setting.book, self._number), Signers())

    def _do(self, deed: Deed, given: dict[str, str]) -> None:
        if deed.opens:
            self.go.emit(self._source.place(deed))
            return
        book, number = self._setting.book, self._number
        self._setting.keep(lambda who: self._source.keep(book, who, number, deed, given), self._kept, self._refused)

    def _kept(self, sentence: str) -> None:
        self.tab.kept()
        self.refresh()
        self.kept.emit(sentence)

    def _refused(self, error: BookError) -> None:
        self.tab.refuse(str(error))
