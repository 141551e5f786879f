"""The labelled field for an angle of several wheels; where toe is typed in mm it asks for the diameter too."""

from PySide6.QtWidgets import QLineEdit, QWidget

from jobbook.core.measured.alignment import ACROSS, wants_diameter
from jobbook.services.sheet.questions import Ask
from jobbook.ui import look
from jobbook.ui.controls import label
from jobbook.ui.fields import Field

DIAMETER = "diameter"
ANGLE_WIDTH = look.UNIT * 11


class AnglesField(Field):
    """An angle of each wheel that the question names. The answers are "<name> FL" and so on."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edits: dict[str, QLineEdit] = {}
        row: list[QWidget] = []
        for wheel in (option.value for option in ask.options):
            row += [label(wheel, "strong"), self._edit(wheel, f"{ask.label} {wheel}")]
        row.append(label(ask.unit, "soft"))
        self.across: tuple[QWidget, ...] = ()
        if ACROSS.startswith(f"{ask.name} "):
            words = self.tr("at diameter")
            self.across = (label(words, "strong"), self._edit(DIAMETER, f"{ask.label} {words}"))
            row += self.across
        self.set_text(ask.value)
        self.changed.connect(self._ask_across)
        self._hold(*row, named=next(iter(self.edits.values())))

    def _edit(self, wheel: str, name: str) -> QLineEdit:
        edit = QLineEdit()
        edit.setMaximumWidth(ANGLE_WIDTH)
        edit.setAccessibleName(name)
        edit.textEdited.connect(self.changed)
        self.edits[wheel] = edit
        return edit

    def _ask_across(self) -> None:
        """The diameter is asked only where a distance is typed."""
        wanted = any(wants_diameter(edit.text()) for wheel, edit in self.edits.items() if wheel != DIAMETER)
        for part in self.across:
            part.setVisible(wanted)

    def text(self) -> str:
        given = ((wheel, edit.text().strip()) for wheel, edit in self.edits.items())
        return "; ".join(f"{wheel} {value}" for wheel, value in given if value)

    def set_text(self, text: str) -> None:
        for edit in self.edits.values():
            edit.clear()
        for part in filter(None, (part.strip() for part in text.split(";"))):
            wheel, _, value = part.partition(" ")
            self.edits[wheel].setText(value)
        self._ask_across()

    def answers(self) -> dict[str, str]:
        return {f"{self.name} {wheel}": edit.text().strip() for wheel, edit in self.edits.items()}

    def go_on(self) -> bool:
        """From one wheel to the next; False from the last."""
        edits = [edit for edit in self.edits.values() if not edit.isHidden()]
        here = next((i for i, edit in enumerate(edits) if edit.hasFocus()), len(edits) - 1)
        if here + 1 < len(edits):
            edits[here + 1].setFocus()
        return here + 1 < len(edits)
