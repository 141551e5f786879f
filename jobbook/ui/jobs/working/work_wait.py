"""A wait that counts down. When it is over stands in the book, so that a restart changes nothing."""

from collections.abc import Callable
from datetime import datetime, timedelta

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from jobbook.ui import look
from jobbook.ui.jobs.rows import label

TICK_MS = 1000
SECOND = timedelta(seconds=1)


def time_left(until: datetime, now: datetime) -> timedelta:
    """What is left of a wait in whole seconds, rounded up; nothing once it is over."""
    whole = -((now - until) // SECOND)
    return max(timedelta(0), timedelta(seconds=whole))


def left_in_words(left: timedelta) -> str:
    """Minutes and seconds, with hours where there are any."""
    minutes, seconds = divmod(int(left.total_seconds()), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"


class Countdown(QWidget):
    """What is left, large, and when it is over. It says `over` once."""

    over = Signal()

    def __init__(self, until: datetime, now: Callable[[], datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._until, self._now = until, now
        self.figure = label("", "figure")
        until_when = label(self.tr("left, over at {time}").format(time=f"{until:%H:%M:%S}"), "soft")
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(look.UNIT)
        line.addWidget(self.figure)
        line.addWidget(until_when)
        line.addStretch(1)
        self._timer = QTimer(self)
        self._timer.setInterval(TICK_MS)
        self._timer.timeout.connect(self.tick)
        self._show()
        if time_left(until, now()):
            self._timer.start()

    def tick(self) -> None:
        """Show what is left now; at nothing stop and say so."""
        self._show()
        if not time_left(self._until, self._now()):
            self._timer.stop()
            self.over.emit()

    def _show(self) -> None:
        self.figure.setText(left_in_words(time_left(self._until, self._now())))
