"""How this window looks, and when it locks itself."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import at_most, column, frame, label
from jobbook.ui.forms import Form
from jobbook.ui.idle import DEFAULT_MINUTES
from jobbook.ui.shop.part import Part

TIMES = (2, 5, 10, 30)


class AppearancePage(Part):
    """Choices that hold at once. `wished` carries "system", "light" or "dark", `lock_wished` the minutes without a
    touch after which the window locks itself, 0 for never."""

    wished = Signal(str)
    lock_wished = Signal(int)

    def __init__(self, wish: str, lock_after: int = DEFAULT_MINUTES, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        ways = (
            Option("system", self.tr("as the system has it")),
            Option("light", self.tr("light")),
            Option("dark", self.tr("dark")),
        )
        times = (
            *(Option(str(one), self.tr("{0} minutes").format(one)) for one in TIMES),
            Option("0", self.tr("never")),
        )
        self.form = Form(
            (
                Ask("scheme", self.tr("The window is"), "choice", ways, value=wish),
                Ask(
                    "lock",
                    self.tr("It locks itself, when nobody touches it, after"),
                    "choice",
                    times,
                    value=str(lock_after),
                ),
            )
        )
        sheet = frame("sheet")
        words = self.tr(
            "Dark spares the eyes in the bay at night. Papers are always light. What is open stays open behind the "
            "lock, also a form that is half filled in."
        )
        sheet.setLayout(column(self.form, label(words, "small", wrap=True), 1, margin=look.UNIT * 2))
        self.setLayout(at_most(sheet, look.READABLE_WIDTH))
        self.form.changed.connect(self._tell)

    def _tell(self, name: str) -> None:
        answer = self.form.answers()[name]
        if name == "scheme":
            self.wished.emit(answer)
        else:
            self.lock_wished.emit(int(answer))

    def open(self) -> None:
        self.form.focus_first()

    def refresh(self) -> None:
        """Nothing here stands in the book."""
