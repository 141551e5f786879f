"""The labelled field for a height at each of the four corners."""

from collections.abc import Mapping

from PySide6.QtWidgets import QLineEdit, QWidget

from jobbook.core.work.model import CORNERS
from jobbook.services.sheet.questions import Ask
from jobbook.ui import look
from jobbook.ui.controls import label
from jobbook.ui.fields import Field


class HeightsField(Field):
    """A height at each of the four corners, in the unit of the question. The answers are "<name> FL" and so on."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edits: dict[str, QLineEdit] = {}
        row: list[QWidget] = []
        for corner in CORNERS:
            edit = QLineEdit()
            edit.setMaximumWidth(look.SHORT_FIELD_WIDTH)
            edit.setAccessibleName(f"{ask.label} {corner}")
            edit.textEdited.connect(self.changed)
            self.edits[corner] = edit
            row += [label(corner, "strong"), edit]
        if ask.unit:
            row.append(label(ask.unit, "soft"))
        self.set_text(ask.value)
        self._hold(*row, named=self.edits["FL"])

    def text(self) -> str:
        given = ((corner, edit.text().strip()) for corner, edit in self.edits.items())
        return "; ".join(f"{corner} {value}" for corner, value in given if value)

    def set_text(self, text: str) -> None:
        for edit in self.edits.values():
            edit.clear()
        for part in filter(None, (part.strip() for part in text.split(";"))):
            corner, _, value = part.partition(" ")
            self.edits[corner].setText(value)

    def hint_corners(self, sentences: Mapping[str, str]) -> None:
        """Say a warning about the corners that are named; the others lose theirs."""
        self.hint(" ".join(sentences.values()))
        for corner, edit in self.edits.items():
            self._mark(edit, sentences.get(corner, ""), "hint")

    def answers(self) -> dict[str, str]:
        return {f"{self.name} {corner}": edit.text().strip() for corner, edit in self.edits.items()}

    def go_on(self) -> bool:
        """From one corner to the next; False from the last."""
        edits = list(self.edits.values())
        here = next((i for i, edit in enumerate(edits) if edit.hasFocus()), len(edits) - 1)
        if here + 1 < len(edits):
            edits[here + 1].setFocus()
        return here + 1 < len(edits)
