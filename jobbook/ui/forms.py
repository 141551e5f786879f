"""Forms made from what is asked: fields in a grid, Enter goes on to the next, the last Enter hands the answers in."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from jobbook.services.sheet.questions import Ask, Reckoned
from jobbook.ui import language, look
from jobbook.ui.angles import AnglesField
from jobbook.ui.choosing import ChoiceField, ListField, PiecesField, ToolField
from jobbook.ui.controls import button, label
from jobbook.ui.corners import HeightsField
from jobbook.ui.fields import Field, LineField, LongField, QuantityField, SecretField, ShortField, TimeField
from jobbook.ui.place_fields import FileField, FolderField
from jobbook.ui.signature_pad import SignatureField

FEW = 4  # so many answers stand side by side; more go into a list to open
FEW_LETTERS = 60
MOST_NAMED = 3  # of what is folded away, on the button that unfolds it
WIDE_LETTERS = 24  # answers with more letters between them take a whole row


@dataclass(frozen=True)
class Section:
    """A heading between the fields of a form."""

    title: str


def _choice(ask: Ask) -> Field:
    return ChoiceField(ask) if _side_by_side(ask) else ListField(ask)


def _side_by_side(ask: Ask) -> bool:
    return len(ask.options) <= FEW and sum(len(option.label) for option in ask.options) <= FEW_LETTERS


KINDS: Mapping[str, Callable[[Ask], Field]] = {
    "text": LineField,
    "long text": LongField,
    "choice": _choice,
    "list": ListField,
    "quantity": QuantityField,
    "heights": HeightsField,
    "angles": AnglesField,
    "tool": ToolField,
    "pieces": PiecesField,
    "serial": ShortField,
    "number": ShortField,
    "time": TimeField,
    "secret": SecretField,
    "signature": SignatureField,
    "folder": FolderField,
    "file": FileField,
}
UNREMEMBERED = ("secret", "signature")  # what stands for a person is given anew each time
WHOLE_ROW = ("long text", "heights", "angles", "tool", "folder", "file", "signature")


def field_for(ask: Ask) -> Field:
    """The field for one question. A kind that is not one of KINDS is a KeyError."""
    return KINDS[ask.kind](language.asked(ask))


def takes_a_row(ask: Ask) -> bool:
    """Whether a question needs the whole width of its form."""
    letters = sum(len(option.label) for option in ask.options)
    spread = ask.kind == "pieces" or (ask.kind == "choice" and _side_by_side(ask))
    return ask.kind in WHOLE_ROW or (spread and letters > WIDE_LETTERS)


class Form(QWidget):
    """Asks everything it is given. `handed_in` carries name to answer; Enter on the last field brings it about, unless
    something is missing."""

    handed_in = Signal(dict)
    changed = Signal(str)  # the name of the field

    def __init__(self, asked: Sequence[Ask | Section], columns: int = 1, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}
        self._reckoned: dict[str, tuple[str, Reckoned]] = {}  # what was reckoned into a field, and how
        self.goes_on_in: Form | None = None  # the form that Enter leads to from the last field
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(look.UNIT * 2)
        self._grid.setVerticalSpacing(look.UNIT * 3 // 4)
        self._columns = columns
        self._folded = [one.name for one in asked if isinstance(one, Ask) and one.folded]
        self._lay_out(asked)
        self._began = {name: field.text() for name, field in self.fields.items()}
        self.more.clicked.connect(lambda: self.unfold())

    def _lay_out(self, asked: Sequence[Ask | Section]) -> None:
        place = 0
        for one in asked:
            whole = isinstance(one, Section) or takes_a_row(one)
            if whole and place % self._columns:
                place += self._columns - place % self._columns
            made = label(one.title, "section") if isinstance(one, Section) else self._add(one)
            span = self._columns if whole else 1
            if isinstance(one, Ask) and one.name in self._folded:
                made.hide()
            self._grid.addWidget(made, place // self._columns, place % self._columns, 1, span)
            place += span
        place = self._lay_more(asked, place)
        self._grid.setRowStretch(place, 1)
        for number in range(self._columns):
            self._grid.setColumnStretch(number, 1)
            self._grid.setColumnMinimumWidth(number, look.SHORT_FIELD_WIDTH)

    def _lay_more(self, asked: Sequence[Ask | Section], place: int) -> int:
        """The button that unfolds what most people leave out, named for what it asks; returns the next free place."""
        folded = [self.fields[one.name].ask.label for one in asked if isinstance(one, Ask) and one.folded]
        self.more = button(QCoreApplication.translate("Form", "More"), "quiet")  # made last: Tab comes to it last
        self.more.setParent(self)
        self.more.setVisible(bool(folded))
        if not folded:
            return place
        words = dict.fromkeys(label.split(",")[0].split(":")[0].lower() for label in folded)
        named = ", ".join(list(words)[:MOST_NAMED])
        self.more.setText(QCoreApplication.translate("Form", "More: {0}…").format(named))
        self.more.setAccessibleName(self.more.text())
        row = -(-place // self._columns)
        self._grid.addWidget(self.more, row, 0, 1, self._columns, Qt.AlignmentFlag.AlignLeft)
        return (row + 1) * self._columns

    def unfold(self, go_there: bool = True) -> None:
        """Show what was folded away, and go to the first of it."""
        self.more.hide()
        for name in self._folded:
            self.fields[name].show()
        if self._folded and go_there:
            self.fields[self._folded[0]].setFocus(Qt.FocusReason.OtherFocusReason)
        self._folded = []

    def _add(self, ask: Ask) -> Field:
        field = field_for(ask)
        field.changed.connect(lambda: field.refuse(""))
        field.changed.connect(lambda name=ask.name: self.changed.emit(name))
        field.reckon_wanted.connect(lambda: self._reckon(field))
        self.fields[ask.name] = field
        return field

    def _reckon(self, field: Field) -> None:
        """Open the figure that the field can be reckoned by; its result goes into the field, its name is kept too."""
        from jobbook.ui.figures.reckoner import Reckoner  # reads every figure, which no start waits for

        asked = field.ask.reckoned
        assert asked is not None
        told = self.answers()
        known = {key: told[name] for key, name in asked.fields if told.get(name, "").strip()}
        sheet = Reckoner(asked, field.ask.label, dict(asked.given) | known, self)
        sheet.used.connect(lambda result: self._take(field, result))
        sheet.finished.connect(lambda _: field.setFocus(Qt.FocusReason.OtherFocusReason))
        sheet.finished.connect(sheet.deleteLater)
        sheet.open()

    def _take(self, field: Field, result: str) -> None:
        asked = field.ask.reckoned
        assert asked is not None
        self._reckoned[field.name] = (result, asked)
        field.take(result)

    def _noted(self) -> dict[str, str]:
        """By which figures answers were reckoned, as long as what came out still stands there."""
        noted: dict[str, list[str]] = {}
        for name, (result, asked) in self._reckoned.items():
            if self.fields[name].text() == result:
                noted.setdefault(asked.note, []).append(f"{self.fields[name].ask.label}: {asked.figure}")
        return {note: "; ".join(said) for note, said in noted.items()}

    def answers(self) -> dict[str, str]:
        """What stands in the fields now."""
        given: dict[str, str] = {}
        for field in self.fields.values():
            given |= field.answers()
        return given | self._noted()

    def typed(self) -> dict[str, str]:
        """What stands otherwise than when the form was made, by field; never a PIN or a signature."""
        fields = (field for field in self.fields.values() if field.ask.kind not in UNREMEMBERED)
        return {field.name: field.text() for field in fields if field.text() != self._began[field.name]}

    def show_answers(self, answers: Mapping[str, str]) -> None:
        """Put the answers into the fields of these names; the others stay as they are."""
        for name, text in answers.items():
            self.fields[name].set_text(text)

    def clear(self) -> None:
        """Put every field back to what stood there beforehand."""
        for field in self.fields.values():
            field.set_text(field.ask.value)
            field.refuse("")

    def refuse(self, name: str, sentence: str) -> None:
        """Say under that field why this cannot be kept, and go there."""
        self.fields[name].refuse(sentence)
        self.fields[name].setFocus(Qt.FocusReason.OtherFocusReason)

    def is_complete(self) -> bool:
        """Whether everything that must be there is there; where it is not, the field says so."""
        missing = [field for field in self.fields.values() if field.ask.required and field.is_empty()]
        for field in missing:
            field.refuse(QCoreApplication.translate("Form", "{0} is needed.").format(field.ask.label))
        if missing:
            missing[0].setFocus(Qt.FocusReason.OtherFocusReason)
        return not missing

    def hand_in(self) -> None:
        """Hand the answers in if nothing is missing."""
        if self.is_complete():
            self.handed_in.emit(self.answers())

    def leads_to(self, *controls: QWidget) -> None:
        """Let Tab go from the last field to these, wherever they stand on the page."""
        tab, field = Qt.FocusPolicy.TabFocus.value, list(self.fields.values())[-1]
        inside = (one for one in field.findChildren(QWidget) if one.window() is self.window())  # not an open list
        last = [one for one in inside if one.focusPolicy().value & tab][-1]
        for before, after in zip((last, *controls), controls, strict=False):
            QWidget.setTabOrder(before, after)

    def focus_first(self) -> None:
        next(iter(self.fields.values())).setFocus(Qt.FocusReason.TabFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._go_on()
        else:
            super().keyPressEvent(event)

    def _go_on(self) -> None:
        """From the field that has the focus to the next; from the last one hand in."""
        fields = [field for field in self.fields.values() if field.name not in self._folded and not field.isHidden()]
        here = next((i for i, field in enumerate(fields) if field.has_focus()), len(fields) - 1)
        within = fields[here]
        if isinstance(within, HeightsField | AnglesField) and within.go_on():
            return
        if here + 1 < len(fields):
            fields[here + 1].setFocus(Qt.FocusReason.TabFocusReason)
        elif self.goes_on_in is not None:
            self.goes_on_in.focus_first()
        else:
            self.hand_in()
