"""What the shop's page asks of its parts."""

from typing import Protocol

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from jobbook.ui.cards import CardFile


class Part(QWidget):
    """One part of the shop. It asks to go elsewhere by `go`."""

    go = Signal(object)  # Place
    key = ""  # the name by which a place leads here, where one does

    def show_one(self, given: dict[str, str]) -> None:
        """A place led here: show what it names."""

    def open(self) -> None:
        """The part is now shown: read what it shows, put the focus where work begins."""

    def refresh(self) -> None:
        """The book changed while the part was in sight."""


class Reads(Protocol):
    """The presenter of a part, as far as every part needs it."""

    def open(self) -> None: ...


class CardPart(Part):
    """A part that shows a list and the card of one thing of it."""

    cards: CardFile
    presenter: Reads

    def open(self) -> None:
        self.presenter.open()
        if self.cards.table.chosen() is None:
            self.cards.table.choose_first()
        self.cards.table.setFocus()

    def refresh(self) -> None:
        self.presenter.open()

    def refuse(self, sentence: str) -> None:
        self.cards.refuse(sentence)
