"""Labelled fields for what is typed: a label above, the control, and under it the sentence about what stands in it."""

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLineEdit, QPlainTextEdit, QVBoxLayout, QWidget

from jobbook.services.sheet.questions import Ask
from jobbook.ui import look
from jobbook.ui.controls import label
from jobbook.ui.picking import phrase_button, reckon_button


class Field(QWidget):
    """One thing asked. `changed` follows every keystroke. The widget that takes the focus is `focusProxy()`."""

    changed = Signal()
    reckon_wanted = Signal()

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

    def _helps(self, edit: QLineEdit | QPlainTextEdit) -> tuple[QWidget, ...]:
        """What stands beside the control: phrases to pick from, and the figure that it can be reckoned by."""
        picked = (phrase_button(self.ask, edit, self._picked),) if self.ask.phrases else ()
        return (*picked, *((reckon_button(self.ask, edit, self.reckon_wanted.emit),) if self.ask.reckoned else ()))

    def _picked(self) -> None:
        """Something was picked, which counts like typing."""
        self.changed.emit()
        self.advise()

    def take(self, text: str) -> None:
        """Put in what somebody reckoned or picked, as if it were typed."""
        self.set_text(text)
        self._picked()

    def advise(self) -> None:
        """Say beside what is typed what its hint has to say, where it has one."""
        if self.ask.hint is not None:
            self.hint(self.ask.hint(self.text()))

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
        self.edit.textEdited.connect(self._picked)
        self._hold(self.edit, *([beside] if beside else []), *self._helps(self.edit), filling=True)

    def text(self) -> str:
        return self.edit.text()

    def set_text(self, text: str) -> None:
        self.edit.setText(text)


class ShortField(LineField):
    """A number, a serial or a time: one short line."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.edit.setMaximumWidth(look.FIELD_WIDTH)


class TimeField(ShortField):
    """A day or a time; how it is understood is said under it, which is no doubt about it."""

    def hint(self, sentence: str) -> None:
        self._say(sentence, "asked")


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
        self.edit.textChanged.connect(self._picked)
        self._hold(self.edit, *self._helps(self.edit), filling=True)

    def text(self) -> str:
        return self.edit.toPlainText()

    def set_text(self, text: str) -> None:
        with QSignalBlocker(self.edit):
            self.edit.setPlainText(text)
