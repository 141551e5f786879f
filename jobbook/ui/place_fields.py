"""Fields for a folder or a file: typed, or chosen in the system's own window."""

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from jobbook.services.sheet.questions import Ask
from jobbook.ui.controls import button
from jobbook.ui.fields import LineField


class PlaceField(LineField):
    """A line for a path, with a button that opens the system's window."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        self.choose: QPushButton = button(QCoreApplication.translate("PlaceField", "Choose…"))
        self.choose.setAccessibleName(QCoreApplication.translate("PlaceField", "Choose: {0}").format(ask.label))
        super().__init__(ask, parent, self.choose)
        self.choose.clicked.connect(self._choose)

    def _ask_system(self) -> str:
        raise NotImplementedError

    def _choose(self) -> None:
        chosen = self._ask_system()
        if chosen:
            self.set_text(chosen)
            self.changed.emit()
            self.setFocus()


class FolderField(PlaceField):
    """A folder that is there."""

    def _ask_system(self) -> str:
        return QFileDialog.getExistingDirectory(self, self.ask.label, self.text())


class FileField(PlaceField):
    """A file that is there."""

    def _ask_system(self) -> str:
        return QFileDialog.getOpenFileName(self, self.ask.label, self.text())[0]
