"""What the shop's page asks of its parts."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget


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
