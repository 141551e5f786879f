"""A small window with one sentence: why the book cannot be opened, or what the book refused."""

from PySide6.QtWidgets import QDialog, QWidget

from jobbook.ui import look
from jobbook.ui.controls import button, column, label, row


class TroubleDialog(QDialog):
    """Says it, and closes."""

    def __init__(self, title: str, sentence: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Job book"))
        self.setMinimumWidth(look.DIALOG_WIDTH)
        self.sentence = label(sentence, "caution", wrap=True)
        self.close_button = button(self.tr("Close"), "main")
        self.close_button.clicked.connect(self.accept)
        self.setLayout(
            column(
                label(title, "title"), self.sentence, row(1, self.close_button), margin=look.UNIT * 3, gap=look.UNIT * 2
            )
        )
