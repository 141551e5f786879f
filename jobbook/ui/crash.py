"""What happens when the program meets an error of its own: a report that can be copied, and the work goes on."""

import re
import sys
import traceback
from collections.abc import Callable, Mapping
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QPlainTextEdit, QWidget

from jobbook.core.errors import BookError
from jobbook.ui import look
from jobbook.ui.controls import button, column, label, row
from jobbook.ui.start.trouble import TroubleDialog

MOST_PLACES = 40
QUOTED = re.compile(r"'[^']*'|\"[^\"]*\"|“[^”]*”|\[parameters:.*", re.DOTALL)
LONG_NUMBER = re.compile(r"\d{5,}")


def report(error: BaseException, facts: Mapping[str, str]) -> str:
    """The report of an error: versions, kind, and the places in the program where it passed.

    Whatever stood in quotes in the message, long numbers, and the folders of this machine are left out: they could be
    a customer's.
    """
    lines = [f"{name}: {value}" for name, value in facts.items()]
    lines.append(f"error: {type(error).__name__}: {without_data(str(error))}")
    for place in traceback.extract_tb(error.__traceback__)[-MOST_PLACES:]:
        lines.append(f"  {_file(place.filename)}, line {place.lineno}, in {place.name}")
    return "\n".join(lines)


def without_data(message: str) -> str:
    """The message with its quotations and long numbers taken out."""
    return LONG_NUMBER.sub("…", QUOTED.sub("…", message))


def _file(name: str) -> str:
    parts = Path(name).parts
    for root in ("jobbook", "site-packages"):
        if root in parts:
            return "/".join(parts[len(parts) - parts[::-1].index(root) - 1 :])
    return parts[-1] if parts else name


class CrashDialog(QDialog):
    """Says what happened, what was kept, what to do; holds the report to copy."""

    def __init__(self, text: str, kept: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("The job book met an error"))
        self.setMinimumWidth(look.DIALOG_WIDTH)
        self.report = QPlainTextEdit(text)
        self.report.setReadOnly(True)
        self.report.setTabChangesFocus(True)
        self.report.setAccessibleName(self.tr("Report of the error"))
        self.title = label(self.tr("The program met an error of its own."), "title")
        self.copy = button(self.tr("Copy the report"))
        self.go_on = button(self.tr("Go on"), "main")
        self.go_on.setDefault(True)
        self.setLayout(
            column(
                self.title,
                label(kept, "", wrap=True),
                label(self._advice(), "", wrap=True),
                self.report,
                row(1, self.copy, self.go_on),
                margin=look.UNIT * 3,
                gap=look.UNIT * 2,
            )
        )
        self.copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(self.report.toPlainText()))
        self.go_on.clicked.connect(self.accept)

    def _advice(self) -> str:
        return self.tr(
            "You can go on. If it comes again, close the program, open it again, and send the report to whoever looks "
            "after the program. It names places in the program, not people or vehicles; read it before you send it."
        )


class CrashWatch(QObject):
    """Catches what nobody caught. `facts` and `kept` tell, at that moment, of the program, and of what is safely in the
    book."""

    def __init__(
        self, facts: Callable[[], Mapping[str, str]], kept: Callable[[], str], above: Callable[[], QWidget | None]
    ) -> None:
        super().__init__()
        self._facts, self._kept, self._above = facts, kept, above
        self._before = sys.excepthook
        self.dialog: CrashDialog | None = None
        self.trouble: TroubleDialog | None = None

    def begin(self) -> None:
        sys.excepthook = self.caught

    def end(self) -> None:
        sys.excepthook = self._before

    def _say(self, sentence: str) -> None:
        """An expected error that no page took: the disk, the server, a thing that is gone. No report is needed."""
        if self.trouble is None or not self.trouble.isVisible():
            self.trouble = TroubleDialog(self.tr("That could not be done"), sentence, self._above())
            self.trouble.open()

    def caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        """Show the error. A second one while the dialog stands is added to its report."""
        if issubclass(kind, KeyboardInterrupt):
            QCoreApplication.quit()
            return
        if isinstance(error, BookError):
            self._say(str(error))
            return
        text = report(error.with_traceback(trace), self._facts())
        sys.stderr.write(text + "\n")
        if self.dialog is not None and self.dialog.isVisible():
            self.dialog.report.appendPlainText("\n" + text)
            return
        self.dialog = CrashDialog(text, self._kept(), self._above())
        self.dialog.open()
