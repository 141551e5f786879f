"""A person's two hands: they find what is to be seen in the window by its words, click it and type into it."""

from collections.abc import Mapping

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QScrollArea, QWidget

from jobbook.ui.fields import Field
from jobbook.ui.forms import Form

PATIENCE = 20_000  # milliseconds until something that was asked for must have come


def written(where: QWidget) -> str:
    """What stands in a field."""
    reads = ("toPlainText", "currentText", "text")
    return next((getattr(where, read)() for read in reads if hasattr(where, read)), "")


class Hands:
    """Clicks and types, and never calls what the window calls."""

    def __init__(self, qtbot) -> None:
        self.bot = qtbot
        self._seen: object = None

    def until(self, holds) -> None:
        self.bot.waitUntil(lambda: bool(holds()), timeout=PATIENCE)

    def buttons(self, within: QWidget, words: str) -> list[QAbstractButton]:
        """The buttons in sight with these words, or with this accessible name."""
        shown = [b for b in within.findChildren(QAbstractButton) if b.isVisible() and b.isEnabled()]
        return [b for b in shown if words in (b.text(), b.accessibleName())]

    def click(self, within: QWidget, words: str, place: int = 0) -> None:
        """Click a button with these words, as soon as it is there and lies still. It is looked for anew each time,
        since a page that is told of a change may make its buttons anew."""

        def ready() -> bool:
            found = self.buttons(within, words)
            return len(found) > place and self._lies_still(found[place])

        self.until(ready)
        self._press(self.buttons(within, words)[place])

    def press(self, widget: QWidget) -> None:
        """Click what is at hand, once it lies still."""
        self.until(lambda: self._lies_still(widget))
        self._press(widget)

    def _press(self, widget: QWidget) -> None:
        place = QPoint(min(12, widget.width() // 2), widget.height() // 2)
        self.bot.mouseClick(widget, Qt.MouseButton.LeftButton, pos=place)

    def _lies_still(self, widget: QWidget) -> bool:
        """Whether it is in sight where it was a moment ago: a form that has just opened still finds its place."""
        self.into_sight(widget)
        here = (widget.mapTo(widget.window(), QPoint(0, 0)), widget.size())
        before, self._seen = self._seen, here
        return here == before

    def into_sight(self, widget: QWidget) -> None:
        """Scroll as far as the wheel would."""
        above = widget.parentWidget()
        while above is not None:
            if isinstance(above, QScrollArea):
                above.ensureWidgetVisible(widget)
            above = above.parentWidget()

    def key(self, within: QWidget, key: Qt.Key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        self.bot.keyClick(within, key, modifier)

    def forms(self, within: QWidget) -> list[Form]:
        """The forms in sight."""
        return [form for form in within.findChildren(Form) if form.isVisible()]

    def form(self, within: QWidget) -> Form:
        """The form in sight, as soon as it is there."""
        self.until(lambda: self.forms(within))
        return self.forms(within)[0]

    def fill(self, form: Form, answers: Mapping[str, str]) -> None:
        for name, answer in answers.items():
            self.answer(form.fields[name], answer)

    def answer(self, field: Field, answer: str) -> None:
        """Type an answer, or click it where it stands to be chosen; several are parted by semicolons."""
        boxes = field.findChildren(QComboBox)
        choices = [b for b in field.findChildren(QAbstractButton) if b.isCheckable()]
        if boxes:
            self._choose(boxes[0], answer)
        elif choices:
            for words in answer.split("; "):
                chosen = next(b for b in choices if b.text().startswith(words))
                if not chosen.isChecked():
                    self.press(chosen)
                assert chosen.isChecked(), f"“{words}” was clicked and is not chosen"
        else:
            edits = [*field.findChildren(QLineEdit), *field.findChildren(QPlainTextEdit)]
            for edit, text in zip(edits, answer.split("; ") if len(edits) > 1 else [answer], strict=False):
                self.type(edit, text)

    def type(self, edit: QWidget, text: str) -> None:
        """Type as fast as keys go; they are held for a moment, since a scanner types so, and then stand there. What
        stands there already is not typed again."""
        if written(edit) == text:
            return
        self.press(edit)
        self.bot.keyClick(edit, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        self.bot.keyClicks(edit, text)
        self.until(lambda: written(edit).endswith(text))

    def _choose(self, box: QComboBox, words: str) -> None:
        box.setFocus(Qt.FocusReason.TabFocusReason)
        self.bot.keyClick(box, Qt.Key.Key_Home)
        for _ in range(box.count()):
            if box.currentText().startswith(words):
                break
            self.bot.keyClick(box, Qt.Key.Key_Down)
        assert box.currentText().startswith(words), f"“{words}” is not in the list"
