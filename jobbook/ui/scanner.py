"""A scanner is a fast keyboard: a burst of keys that ends in Enter is one scan, wherever the focus is."""

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from jobbook.core.labels import PARTING

BETWEEN_KEYS_MS = 30  # nobody types this fast
SHORTEST_SCAN = 5
ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab)  # what scanners are set to send last
BESIDE = (
    Qt.Key.Key_Shift,
    Qt.Key.Key_CapsLock,
    Qt.Key.Key_AltGr,
    Qt.Key.Key_Control,
)  # keys that a scanner presses for capitals
KEYS = (QEvent.Type.KeyPress, QEvent.Type.KeyRelease, QEvent.Type.ShortcutOverride)


class Scanner(QObject):
    """Holds each key for a moment. Keys of a burst become `scanned`; the others are given back to who typed them."""

    scanned = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._held: list[tuple[QObject, QKeyEvent]] = []
        self._giving_back = False
        self._at = 0  # when the last key was pressed, in the keyboard's milliseconds
        self._moment = QTimer(self)
        self._moment.setSingleShot(True)
        self._moment.setInterval(BETWEEN_KEYS_MS)
        self._moment.timeout.connect(self._give_back)

    def begin(self) -> None:
        application = QApplication.instance()
        if application is not None:
            application.installEventFilter(self)

    def end(self) -> None:
        application = QApplication.instance()
        if application is not None:
            application.removeEventFilter(self)
        self._moment.stop()
        self._held.clear()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if QApplication.activeModalWidget() is not None:
            return False  # a dialog of its own, as for the name of a file
        if self._giving_back or event.type() not in KEYS or not isinstance(event, QKeyEvent):
            return False
        if not watched.isWidgetType():
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            if self._belongs(event):
                event.accept()  # a letter of a scan must not fire a shortcut
                return True
            return False
        if event.type() == QEvent.Type.KeyRelease:
            return self._released(watched, event)
        return self._pressed(watched, event)

    def _released(self, watched: QObject, event: QKeyEvent) -> bool:
        """A key comes up after it went down, also where it is held back: else a button that it presses stays down."""
        if self._held:
            self._held.append((watched, event.clone()))
        return bool(self._held)

    def _belongs(self, event: QKeyEvent) -> bool:
        plain = event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
        typed = plain and len(event.text()) == 1 and event.text().isprintable()
        typed = typed or event.text() == PARTING  # between the fields of a label; a keyboard has it as Ctrl and ]
        return typed and not event.isAutoRepeat()  # a key that is held down comes as fast as a scanner

    def _typed(self) -> str:
        return "".join(held.text() for _, held in self._held if held.type() == QEvent.Type.KeyPress)

    def _pressed(self, watched: QObject, event: QKeyEvent) -> bool:
        if event.key() in BESIDE:
            return self._beside(watched, event)
        if self._came_later(event):
            self._give_back()
        text = self._typed()
        with_control = event.modifiers() & Qt.KeyboardModifier.ControlModifier
        if event.key() in ENDS and len(text) >= SHORTEST_SCAN and not with_control:
            self._moment.stop()
            self._held.clear()
            self.scanned.emit(text)
            return True
        if not self._belongs(event):
            self._give_back()
            return False
        self._held.append((watched, event.clone()))
        self._moment.start()
        return True

    def _came_later(self, event: QKeyEvent) -> bool:
        """Whether the key was pressed a person's time after the one before, by the keyboard's own clock: a window that
        was busy is handed what somebody typed meanwhile all at once. Where there is no such clock, none came later."""
        before, self._at = self._at, event.timestamp()
        return bool(self._held) and before > 0 and self._at - before > BETWEEN_KEYS_MS

    def _beside(self, watched: QObject, event: QKeyEvent) -> bool:
        """A key for capitals belongs to the burst that it stands in."""
        if self._held:
            self._held.append((watched, event.clone()))
            self._moment.start()
        return bool(self._held)

    def _give_back(self) -> None:
        self._moment.stop()
        held, self._held = self._held, []
        self._giving_back = True
        for target, event in held:
            if isValid(target):
                QApplication.sendEvent(target, event)
        self._giving_back = False
