"""A sheet with several leaves, one in sight: a word for each over it, and Alt with its number."""

from collections.abc import Mapping

from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QButtonGroup, QFrame, QStackedWidget, QWidget

from jobbook.ui import look
from jobbook.ui.controls import button, column, row, rule


class Leaves(QFrame):
    """The leaves by their words; the first one is open at the beginning."""

    def __init__(self, leaves: Mapping[str, QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "sheet")
        self._stack = QStackedWidget()
        self._words = QButtonGroup(self)
        strong = QFontMetrics(look.font(look.BODY, True))
        line = row(margin=(look.UNIT, look.UNIT // 2, look.UNIT, look.UNIT // 2))
        for number, (title, leaf) in enumerate(leaves.items()):
            word = button(title, "tab", f"Alt+{number + 1}")
            word.setCheckable(True)
            word.setMinimumWidth(strong.horizontalAdvance(title) + look.UNIT * 2)  # the open one is set in semibold
            word.setChecked(number == 0)
            self._words.addButton(word, number)
            self._stack.addWidget(leaf)
            line.addWidget(word)
        line.addStretch(1)
        self.setLayout(column(line, rule(), self._stack, gap=0, margin=1))
        self._words.idClicked.connect(self.open)

    def open(self, number: int) -> None:
        """Turn to a leaf, counted from 0."""
        self._words.button(number).setChecked(True)
        self._stack.setCurrentIndex(number)
