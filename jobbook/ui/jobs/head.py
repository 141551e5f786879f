"""The line above both pages: which job, which vehicle, what the customer said, and where the job stands."""

from PySide6.QtWidgets import QHBoxLayout, QWidget

from jobbook.services.sheet.sheets import JobSheet
from jobbook.ui import controls, look
from jobbook.ui.jobs.rows import label


class JobHead(QWidget):
    """The concern gives way where the line is too short: it ends in dots and stands whole in its tool tip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._number = label("", "title")
        self._vehicle = label("", "strong")
        self._plate = label("")
        self._concern = controls.Elided("", "soft")
        self._stage = label("", "stage")
        self.files = controls.button("", "quiet")
        line = QHBoxLayout(self)
        line.setContentsMargins(0, look.UNIT, 0, look.UNIT)
        line.setSpacing(look.UNIT // 2)
        line.addWidget(self._number)
        line.addSpacing(look.UNIT)
        line.addWidget(self._vehicle)
        line.addWidget(self._plate)
        line.addSpacing(look.UNIT)
        line.addWidget(self._concern, 1)
        line.addSpacing(look.UNIT)
        line.addWidget(self._stage)
        line.addWidget(self.files)

    def show_sheet(self, sheet: JobSheet) -> None:
        self._number.setText(str(sheet.number))
        self._vehicle.setText(sheet.vehicle)
        self._plate.setText(f"· {sheet.plate}" if sheet.plate else "")
        self._concern.show_text(self.tr("“{words}”").format(words=" ".join(sheet.concern.split())))
        self._concern.setVisible(bool(sheet.concern))
        self._stage.setText(sheet.stage_words)
        self.show_files(sheet.files)

    def show_files(self, count: int) -> None:
        """How many pictures and files there are stands on the button that shows them."""
        words = self.tr("Pictures and files")
        self.files.setText(f"{words} · {count}" if count else words)
        self.files.setAccessibleName(self.files.text())
        self.files.setToolTip(f"{words}  P")
