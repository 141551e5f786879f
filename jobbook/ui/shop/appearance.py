"""Light or dark, or as the system has it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from jobbook.services.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import at_most, column, frame, label
from jobbook.ui.forms import Form
from jobbook.ui.shop.part import Part


class AppearancePage(Part):
    """One choice, which shows at once. `wished` carries "system", "light" or "dark"."""

    wished = Signal(str)

    def __init__(self, wish: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        ways = (
            Option("system", self.tr("as the system has it")),
            Option("light", self.tr("light")),
            Option("dark", self.tr("dark")),
        )
        self.form = Form((Ask("scheme", self.tr("The window is"), "choice", ways, value=wish),))
        sheet = frame("sheet")
        words = self.tr("Dark spares the eyes in the bay at night. Papers are always light.")
        sheet.setLayout(column(self.form, label(words, "small", wrap=True), 1, margin=look.UNIT * 2))
        self.setLayout(at_most(sheet, look.READABLE_WIDTH))
        self.form.changed.connect(lambda _: self.wished.emit(self.form.answers()["scheme"]))

    def open(self) -> None:
        self.form.focus_first()

    def refresh(self) -> None:
        """Nothing here stands in the book."""
