"""Labelled fields: a label above, the control, and under it the sentence about what was typed."""

from collections.abc import Mapping

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QApplication,
    QButtonGroup,
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from jobbook.core.work.model import CORNERS
from jobbook.services.sheets import Ask
from jobbook.ui import look
from jobbook.ui.controls import ListBox, label

SHORT_LETTERS = 40  # ticks with so few letters between them stand in a row


class Field(QWidget):
    """One thing asked. `changed` follows every keystroke. The widget that takes the focus is `focusProxy()`."""

    changed = Signal()

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.ask = ask
        self.name = ask.name
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(look.UNIT // 4)
        self._column.addWidget(label(ask.label, "needed" if ask.required else "asked"))
        self._said = label("", "error", wrap=True)
        self._said.hide()
        self._control: QWidget = self

    def _hold(self, *controls: QWidget, named: QWidget | None = None, filling: bool = False) -> None:
        """Lay the controls in a row under the label; the first takes the focus and bears the name.

        `filling`: it is as wide as its place, up to its own greatest width."""
        row = QHBoxLayout()
        row.setSpacing(look.UNIT)
        for place, control in enumerate(controls):
            row.addWidget(control, 1 if filling and place == 0 else 0)
        row.addStretch(0 if filling else 1)  # past the first one's greatest width the rest stays empty
        self._column.addLayout(row)
        self._finish(named or controls[0])

    def _finish(self, first: QWidget) -> None:
        self._column.addWidget(self._said)
        self._column.addStretch(0)
        self._control = first
        first.setAccessibleName(first.accessibleName() or self.ask.label)
        self.setFocusProxy(first)

    def text(self) -> str:
        raise NotImplementedError

    def set_text(self, text: str) -> None:
        raise NotImplementedError

    def answers(self) -> dict[str, str]:
        """The answer under this field's name; a field of several parts gives several."""
        return {self.name: self.text()}

    def is_empty(self) -> bool:
        return not self.text().strip()

    def has_focus(self) -> bool:
        """Whether the focus is in this field or in a part of it."""
        at = QApplication.focusWidget()
        return at is not None and self.isAncestorOf(at)

    def refuse(self, sentence: str) -> None:
        """Say under the field why this cannot be kept; an empty sentence takes it away."""
        self._say(sentence, "error")

    def hint(self, sentence: str) -> None:
        """Say a warning or a question under the field that does not stop anything."""
        self._say(sentence, "hint")

    def said(self) -> str:
        return self._said.text()

    def _say(self, sentence: str, role: str) -> None:
        self._said.setText(sentence)
        look.as_role(self._said, role)
        self._said.setVisible(bool(sentence))
        self._mark(self._control, sentence, role)

    def _mark(self, control: QWidget, sentence: str, role: str) -> None:
        """Give a control the border that goes with a sentence, and let the sentence be read aloud with it."""
        control.setProperty("state", role if sentence else "")
        control.setAccessibleDescription(sentence)
        control.style().unpolish(control)
        control.style().polish(control)


class LineField(Field):
    """One line of text."""

    def __init__(self, ask: Ask, parent: QWidget | None = None, beside: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edit = QLineEdit(ask.value)
        self.edit.textEdited.connect(self.changed)
        self._hold(self.edit, *([beside] if beside else []), filling=True)

    def text(self) -> str:
        return self.edit.text()

    def set_text(self, text: str) -> None:
        self.edit.setText(text)


class ShortField(LineField):
    """A number, a serial or a time: one short line."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edit.setMaximumWidth(look.FIELD_WIDTH)


class SecretField(LineField):
    """A PIN: dots in place of what is typed."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edit.setEchoMode(QLineEdit.EchoMode.Password)
        self.edit.setMaximumWidth(look.SHORT_FIELD_WIDTH)


class QuantityField(LineField):
    """A figure as read, with its unit large beside it. The field never fills in a value that was to be reached."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent, label(ask.unit, "unit") if ask.unit else None)
        look.as_role(self.edit, "figure" if ask.unit else "")
        self.edit.setMaximumWidth(look.SHORT_FIELD_WIDTH)


class LongField(Field):
    """Several lines. Tab goes on, Enter begins a new line."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edit = QPlainTextEdit(ask.value)
        self.edit.setTabChangesFocus(True)
        self.edit.setFixedHeight(look.LONG_TEXT_HEIGHT)
        self.edit.textChanged.connect(self.changed)
        self._hold(self.edit, filling=True)

    def text(self) -> str:
        return self.edit.toPlainText()

    def set_text(self, text: str) -> None:
        with QSignalBlocker(self.edit):
            self.edit.setPlainText(text)


class ListField(Field):
    """One of many answers, in a list that opens."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.box = ListBox()
        if not ask.value:
            self.box.addItem("", "")
        for option in ask.options:
            self.box.addItem(option.label, option.value)
        self.set_text(ask.value)
        self.box.activated.connect(lambda _: self.changed.emit())
        self._hold(self.box, filling=True)

    def text(self) -> str:
        return str(self.box.currentData() or "")

    def set_text(self, text: str) -> None:
        if text and self.box.findData(text) < 0:
            self.box.addItem(text, text)  # an answer of before that is no longer offered stays what it is
        self.box.setCurrentIndex(self.box.findData(text))


class ChoiceField(Field):
    """One of a few answers side by side, or one below the other where an answer needs a reason beside it."""

    def __init__(self, ask: Ask, parent: QWidget | None = None, upright: bool = False) -> None:
        super().__init__(ask, parent)
        self._group = QButtonGroup(self)
        self._buttons: dict[str, QRadioButton] = {}
        grid = QGridLayout()
        grid.setHorizontalSpacing(look.UNIT)
        grid.setVerticalSpacing(0)
        for place, option in enumerate(ask.options):
            made = QRadioButton(option.label)
            made.setAccessibleName(f"{ask.label}: {option.label}" + (f". {option.unfit}" if option.unfit else ""))
            made.setEnabled(not option.unfit)
            self._group.addButton(made)
            self._buttons[option.value] = made
            grid.addWidget(made, place if upright else 0, 0 if upright else place)
            if option.unfit:
                grid.addWidget(label(option.unfit, "error", wrap=True), place, 1)
        grid.setColumnStretch(1 if upright else len(ask.options), 1)
        self._column.addLayout(grid)
        self.set_text(ask.value)
        self._group.buttonClicked.connect(lambda _: self.changed.emit())
        self._finish(self._first())

    def _first(self) -> QWidget:
        fit = [made for made in self._buttons.values() if made.isEnabled()]
        if fit:
            return next((made for made in fit if made.isChecked()), fit[0])
        nothing = label(self.tr("There is none that may be taken."), "error")
        self._column.addWidget(nothing)
        return nothing

    def text(self) -> str:
        return next((value for value, made in self._buttons.items() if made.isChecked()), "")

    def set_text(self, text: str) -> None:
        self._group.setExclusive(False)  # an exclusive group cannot be brought back to no answer
        for value, made in self._buttons.items():
            made.setChecked(value == text and made.isEnabled())
        self._group.setExclusive(True)


class ToolField(ChoiceField):
    """The tools of the crib; one that is unfit cannot be taken and says why."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent, upright=True)


class PiecesField(Field):
    """Which of the issued pieces: a tick for each. The answer names those that are ticked, parted by commas."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self._ticks: dict[str, QCheckBox] = {}
        line = QHBoxLayout()
        short = sum(len(option.label + option.unfit) for option in ask.options) <= SHORT_LETTERS
        for option in ask.options:
            tick = QCheckBox(option.label + (f" · {option.unfit}" if option.unfit else ""))
            tick.setEnabled(not option.unfit)
            tick.setAccessibleName(f"{ask.label}: {tick.text()}")
            tick.clicked.connect(lambda _: self.changed.emit())
            self._ticks[option.value] = tick
            (line if short else self._column).addWidget(tick)
        line.addStretch(1)
        self._column.addLayout(line)
        self.set_text(ask.value)
        none = label(self.tr("Nothing has been issued for this yet."), "soft")
        if not self._ticks:
            self._column.addWidget(none)
        self._finish(next(iter(self._ticks.values()), none))

    def text(self) -> str:
        return ",".join(value for value, tick in self._ticks.items() if tick.isChecked())

    def set_text(self, text: str) -> None:
        wanted = {part.strip() for part in text.split(",")}
        for value, tick in self._ticks.items():
            tick.setChecked(value in wanted and tick.isEnabled())


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
