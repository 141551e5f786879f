"""A person's ten fingers and no mouse: keys go to whatever has the focus, and Tab is how one gets there."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from tests.e2e.hands import PATIENCE, written


class Keys:
    """Types, and moves by Tab; it looks at what has the focus, by the name that is read aloud, and at nothing else."""

    def __init__(self, qtbot) -> None:
        self.bot = qtbot

    def until(self, holds) -> None:
        self.bot.waitUntil(lambda: bool(holds()), timeout=PATIENCE)

    def focus(self) -> QWidget:
        """What has the focus, as soon as something has it."""
        self.until(lambda: QApplication.focusWidget() is not None)
        return QApplication.focusWidget()

    def press(self, key: Qt.Key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        self.bot.keyClick(self.focus(), key, modifier)

    def type(self, text: str) -> None:
        """Type as fast as keys go; they are held for a moment, since a scanner types so, and then stand there."""
        where = self.focus()
        self.bot.keyClicks(where, text)
        self.until(lambda: text.casefold() in written(where).casefold())

    def to(self, *words: str) -> None:
        """Tab to what is called so, round the window until it is there: a page may still be finding its place."""
        self.until(lambda: self._is_at(words) or self.press(Qt.Key.Key_Tab))

    def _is_at(self, words: tuple[str, ...]) -> bool:
        name = self.focus().accessibleName() or getattr(self.focus(), "text", str)()
        return any(name.startswith(word) for word in words)

    def fill(self, *told: tuple[str, str]) -> None:
        """Tab to each field by its name and type into it."""
        for words, text in told:
            self.to(words)
            self.type(text)

    def choose(self, words: str) -> None:
        """Tab to a button that can be pressed or ticked, and press it."""
        self.to(words)
        self.press(Qt.Key.Key_Space)
