"""The lock: who is at this window? By name and PIN, or by badge."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QButtonGroup, QLineEdit, QPushButton, QVBoxLayout, QWidget

from jobbook.core.people import Person
from jobbook.ui import look
from jobbook.ui.controls import button, column, frame, label, row
from jobbook.ui.scanner import Scanner
from jobbook.ui.setting import Setting
from jobbook.ui.start.duty_presenter import DutyPresenter


class DutyPage(QWidget):
    """Asks who works here now. `came` carries the person."""

    came = Signal(object)

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = DutyPresenter(setting, self, self.came.emit)
        self.scanner = Scanner(self)
        self.shop_name = label("", "soft")
        self.people = QButtonGroup(self)
        self._last = ""
        self._names = QVBoxLayout()
        self._names.setSpacing(0)
        self.pin = QLineEdit()
        self.pin.setEchoMode(QLineEdit.EchoMode.Password)
        self.pin.setMaximumWidth(look.SHORT_FIELD_WIDTH)
        self.pin.setAccessibleName(self.tr("PIN"))
        look.as_role(self.pin, "figure")
        self.begin = button(self.tr("Begin"), "main")
        self.said = label("", "error", wrap=True)
        self._lay_out()
        self.begin.clicked.connect(self._try)
        self.pin.returnPressed.connect(self._try)
        self.pin.textEdited.connect(lambda _: self.said.clear())
        self.scanner.scanned.connect(lambda code: self.presenter.scanned(code, self.chosen()))

    def _lay_out(self) -> None:
        sheet = frame("sheet")
        sheet.setFixedWidth(look.LEFT_PAGE_WIDTH)
        sheet.setLayout(
            column(
                self.shop_name,
                label(self.tr("Who is at this window?"), "title"),
                self._names,
                label(self.tr("PIN"), "heading"),
                row(self.pin, self.begin, 1),
                self.said,
                label(self.tr("Or hold your badge before the scanner."), "small"),
                margin=look.UNIT * 3,
                gap=look.UNIT,
            )
        )
        self.setLayout(row(1, column(1, sheet, 2), 1))

    def show_people(self, shop: str, people: tuple[Person, ...]) -> None:
        """List those who work here; the one who was here last stays chosen."""
        before = self._last
        self.shop_name.setText(shop)
        for old in self.people.buttons():
            self.people.removeButton(old)
            self._names.removeWidget(old)
            old.deleteLater()
        for person in people:
            self._add_name(person)
        names = self.people.buttons()
        kept = next((one for one in names if one.property("person") == before), names[0] if names else None)
        if kept is not None:
            kept.setChecked(True)
        self.pin.clear()
        self.said.clear()

    def _add_name(self, person: Person) -> QPushButton:
        made = button(person.name, "row")
        made.setCheckable(True)
        made.setAutoDefault(False)
        made.setProperty("person", person.id)
        made.clicked.connect(lambda: self.pin.setFocus())
        self.people.addButton(made)
        self._names.addWidget(made)
        return made

    def chosen(self) -> str:
        checked = self.people.checkedButton()
        return str(checked.property("person")) if checked is not None else ""

    def remember(self, person: str) -> None:
        """The name that will stand chosen when the window is locked next."""
        self._last = person

    def choose(self, person: str) -> None:
        """Take this name; the PIN comes next."""
        for one in self.people.buttons():
            one.setChecked(one.property("person") == person)
        self.pin.setFocus()

    def _try(self) -> None:
        self.presenter.pin(self.chosen(), self.pin.text())

    def refuse(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.pin.clear()
        self.pin.setFocus()

    def show_busy(self, busy: bool) -> None:
        self.begin.setEnabled(not busy)
        self.pin.setReadOnly(busy)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down choose the name, from the PIN too."""
        step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
        names = self.people.buttons()
        if step is None or not names:
            super().keyPressEvent(event)
            return
        here = next((i for i, one in enumerate(names) if one.isChecked()), 0)
        names[(here + step) % len(names)].setChecked(True)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.presenter.open()
        self.scanner.begin()
        self.pin.setFocus()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.scanner.end()
