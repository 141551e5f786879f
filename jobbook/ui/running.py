"""Running tasks at the foot of the window: title, how far, and a way to stop each."""

from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QWidget

from jobbook.ui import look
from jobbook.ui.controls import button, label
from jobbook.ui.tasks import Task, TaskLanes


class RunningTask(QWidget):
    """One task."""

    def __init__(self, task: Task, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(look.UNIT)
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedWidth(look.SHORT_FIELD_WIDTH)
        self.bar.setRange(0, 0)
        self.bar.setAccessibleName(task.title)
        self.stop = button(self.tr("Cancel"), "quiet")
        self.stop.setAccessibleName(self.tr("Cancel: {0}").format(task.title))
        self.stop.clicked.connect(task.cancel)
        self.stop.clicked.connect(lambda: self.stop.setEnabled(False))
        for thing in (label(task.title, "small"), self.bar, self.stop):
            line.addWidget(thing)
        task.progress.connect(self._show)
        task.held.connect(lambda: self.stop.setEnabled(False))

    def _show(self, done: int, total: int) -> None:
        self.bar.setRange(0, total)
        self.bar.setValue(done)


class RunningTasks(QWidget):
    """All that run now, beside one another."""

    def __init__(self, lanes: TaskLanes, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._line = QHBoxLayout(self)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(look.UNIT * 2)
        self.shown: dict[Task, RunningTask] = {}
        lanes.begun.connect(self._add)

    def _add(self, task: Task) -> None:
        made = RunningTask(task)
        self.shown[task] = made
        self._line.addWidget(made)
        task.ended.connect(lambda: self._remove(task))

    def _remove(self, task: Task) -> None:
        self.shown.pop(task).deleteLater()
