"""What stands beside a field of text: phrases to pick from, and the figure that its answer can be reckoned by."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QPoint, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QLineEdit, QMenu, QPlainTextEdit, QPushButton

from jobbook.services.sheet.questions import Ask
from jobbook.ui.controls import button

Edit = QLineEdit | QPlainTextEdit
PHRASE_KEY, RECKON_KEY = "Alt+Down", "Ctrl+R"
SHOWN_LETTERS = 90


def phrase_button(ask: Ask, edit: Edit, picked: Callable[[], None]) -> QPushButton:
    """A button, and a key in the field, that open the phrases of this question; the one picked goes in at the cursor.

    `picked` is called once it stands there. What was typed stays as it is."""

    def choose() -> None:
        menu = phrase_menu(ask, edit, picked)
        menu.aboutToHide.connect(menu.deleteLater, Qt.ConnectionType.QueuedConnection)
        menu.popup(made.mapToGlobal(QPoint(0, made.height())))
        menu.setActiveAction(menu.actions()[0])

    made = _beside(QCoreApplication.translate("Field", "Phrases"), ask, edit, PHRASE_KEY, choose)
    return made


def phrase_menu(ask: Ask, edit: Edit, picked: Callable[[], None]) -> QMenu:
    """The phrases as a menu."""

    def take(phrase: str) -> None:
        put_in(edit, phrase)
        picked()
        edit.setFocus()

    menu = QMenu(edit)
    menu.setAccessibleName(QCoreApplication.translate("Field", "Phrases: {0}").format(ask.label))
    for phrase in ask.phrases:
        shown = phrase if len(phrase) <= SHOWN_LETTERS else f"{phrase[: SHOWN_LETTERS - 1]}…"
        menu.addAction(shown.replace("&", "&&")).triggered.connect(lambda _=False, phrase=phrase: take(phrase))
    return menu


def reckon_button(ask: Ask, edit: Edit, wanted: Callable[[], None]) -> QPushButton:
    """A button, and a key in the field, that ask for the figure that the answer can be reckoned by."""
    return _beside(QCoreApplication.translate("Field", "Reckon"), ask, edit, RECKON_KEY, wanted)


def _beside(words: str, ask: Ask, edit: Edit, key: str, act: Callable[[], None]) -> QPushButton:
    """The button has no place in the order of Tab, so that typing goes on from field to field; the key reaches it."""
    made = button(words, "quiet")
    made.setAccessibleName(f"{ask.label}: {words}")
    made.setToolTip(f"{words}  {QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)}")
    made.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
    made.clicked.connect(lambda _=False: act())
    shortcut = QShortcut(QKeySequence(key), edit)
    shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
    shortcut.activated.connect(act)
    return made


def put_in(edit: Edit, phrase: str) -> None:
    """Put a phrase in at the cursor, with a space before it where a word ends there; nothing else is changed."""
    if isinstance(edit, QPlainTextEdit):
        cursor = edit.textCursor()
        before = edit.toPlainText()[: cursor.selectionStart()]
        cursor.insertText(_parted(before, phrase))
        edit.setTextCursor(cursor)
        return
    at = edit.selectionStart() if edit.hasSelectedText() else edit.cursorPosition()
    edit.insert(_parted(edit.text()[:at], phrase))


def _parted(before: str, phrase: str) -> str:
    return f" {phrase}" if before and not before[-1].isspace() else phrase
