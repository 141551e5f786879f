"""The shop: its people, tools, figures and facts, and the look of the window."""

from collections.abc import Mapping

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QButtonGroup, QStackedWidget, QWidget

from jobbook.ui import look
from jobbook.ui.controls import button, column, label, row
from jobbook.ui.flow import Flow
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.shop.part import Part

KEYS = "1234567890-"  # with Alt, in the order of the parts and of the keyboard


class ShopPage(Page):
    """The parts of the shop behind words in a row; Alt with a key of KEYS goes to each."""

    def __init__(self, parts: Mapping[str, Part], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._stack = QStackedWidget()
        self._parts = tuple(parts.values())
        self.words = QButtonGroup(self)
        for number, (title, part) in enumerate(parts.items()):
            self._stack.addWidget(part)
            part.go.connect(self.go)
            word = button(title, "tab", f"Alt+{KEYS[number]}")
            word.setCheckable(True)
            self.words.addButton(word, number)
        self.words.button(0).setChecked(True)
        words = Flow(gap=look.UNIT)
        for one in self.words.buttons():
            words.addWidget(one)
        head = row(gap=look.UNIT * 2)
        name = label(self.tr("The shop"), "title")
        name.setContentsMargins(0, look.UNIT // 2, 0, 0)  # on the line of the words beside it
        head.addWidget(name, 0, Qt.AlignmentFlag.AlignTop)
        head.addLayout(words, 1)
        self.setLayout(column(head, self._stack, margin=look.MARGIN, gap=look.UNIT * 2))
        self.words.idClicked.connect(self._open)

    def _open(self, number: int) -> None:
        self._stack.setCurrentIndex(number)
        self.part().open()

    def part(self) -> Part:
        shown = self._stack.currentWidget()
        assert isinstance(shown, Part)
        return shown

    def arrive(self, place: Place) -> None:
        named = next((number for number, part in enumerate(self._parts) if place.name and part.key == place.name), None)
        if named is not None:
            self.words.button(named).setChecked(True)
            self._stack.setCurrentIndex(named)
        self.part().open()
        if named is not None:
            self.part().show_one(dict(place.given))

    def refresh(self, kinds: set[str]) -> None:
        self.part().refresh()
