"""What may be known already, offered while it is typed: one line for each, taken by a click or Alt and its number."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QPushButton, QWidget

from jobbook.ui import look
from jobbook.ui.controls import button, column, label, row

MOST = 4
ALT_KEYS = ("Alt+1", "Alt+2", "Alt+3", "Alt+4")
FUNCTION_KEYS = ("F2", "F3", "F4", "F5")  # on a job's page Alt and a number opens its tabs


class AlikeOffer(QFrame):
    """Offers what looks alike, under a heading, each line with its key. `taken` carries what, and its number."""

    taken = Signal(str, int)

    def __init__(self, heading: str = "", keys: Sequence[str] = ALT_KEYS, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "card")
        self._keys = keys
        self._what, self._numbers = "", [0] * MOST
        self.lines = [self._line(place) for place in range(MOST)]
        said = heading or self.tr("In the book already? Take it, so that there is one history:")
        self.setLayout(
            column(label(said, "soft", wrap=True), *(row(line, 1) for line in self.lines), margin=look.UNIT, gap=0)
        )
        self.hide()

    def _line(self, place: int) -> QPushButton:
        made = button("", "line")
        made.clicked.connect(lambda: self._take(place))
        return made

    def _take(self, place: int) -> None:
        what, number = self._what, self._numbers[place]
        self.hide()
        self.taken.emit(what, number)

    def offer(self, what: str, found: Sequence[tuple[int, str]]) -> None:
        """Show what was found of a kind; nothing of it takes away what was offered of that kind."""
        if not found and what != self._what:
            return
        self._what = what
        for place, line in enumerate(self.lines):
            line.setVisible(place < len(found))
            if place < len(found):
                self._numbers[place], words = found[place]
                line.setText(f"{words}  {self._keys[place]}")
                line.setAccessibleName(words)
                line.setShortcut(self._keys[place])
        self.setVisible(bool(found))
