"""A window that nobody touches for a while locks itself; what is open stays open behind the lock."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QSettings, QTimer
from PySide6.QtWidgets import QWidget

from jobbook.ui.duty import Duty

MINUTE_MS = 60_000
DEFAULT_MINUTES = 10  # common practice at shared screens
LOCK_AFTER = "lock_after"  # where the workstation remembers its own
TOUCHES = (
    QEvent.Type.KeyPress,
    QEvent.Type.MouseButtonPress,
    QEvent.Type.MouseMove,
    QEvent.Type.Wheel,
    QEvent.Type.TouchBegin,
    QEvent.Type.TabletPress,
)


def lock_after(settings: QSettings) -> int:
    """The minutes without a touch after which this workstation's window locks itself; 0 for never."""
    kept = str(settings.value(LOCK_AFTER, DEFAULT_MINUTES))
    return int(kept) if kept.isdecimal() else DEFAULT_MINUTES


class IdleLock(QObject):
    """Locks after so many minutes without a key, a touch or a move of the mouse; nought minutes: never.

    It listens at the window itself and not at the application, so that it costs nothing while pages are drawn."""

    def __init__(
        self, duty: Duty, minutes: Callable[[], int], parent: QObject | None = None, minute: int = MINUTE_MS
    ) -> None:
        super().__init__(parent)
        self._duty, self._minutes, self._minute = duty, minutes, minute
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(duty.lock)
        duty.changed.connect(self.begin_anew)

    def watch(self, window: QWidget) -> None:
        """Listen to this window until it closes; touches come to the window of the system, there once it shows."""
        window.installEventFilter(self)
        self._listen(window)
        self.begin_anew()

    def _listen(self, window: QWidget) -> None:
        handle = window.windowHandle()
        if handle is not None:
            handle.installEventFilter(self)

    def begin_anew(self) -> None:
        """Somebody is here: the time begins anew. While nobody is on duty nothing is to be locked."""
        minutes = self._minutes()
        if minutes > 0 and self._duty.person is not None:
            self._rest.start(minutes * self._minute)
        else:
            self._rest.stop()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in TOUCHES:
            self.begin_anew()
        elif event.type() == QEvent.Type.Show and isinstance(watched, QWidget):
            self._listen(watched)
        elif event.type() == QEvent.Type.Close:
            self._rest.stop()
        return False
