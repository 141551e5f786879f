"""Work away from the window's thread: one lane that writes the book, and a pool for slow work that only reads."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any, TypeVar

from PySide6.QtCore import QObject, Qt, Signal, Slot

from jobbook.core.errors import BookError, Refused
from jobbook.ui.setting import Progress, Refusal

Result = TypeVar("Result")
READERS = 2
FINDERS = 3  # a question that takes long holds up neither the next one nor the one after it
STOPPED = "{0} was stopped. What it would have shown is not shown; begin it again if it is wanted."
FAILED = "The program failed at this, so it was not done to its end; see what stands here before it is done again."


class Task(QObject):
    """One piece of slow work: its title, how far it is, and the wish to stop it."""

    progress = Signal(int, int)
    held = Signal()  # nobody can stop it from here on
    ended = Signal()

    def __init__(self, title: str, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.title = title
        self._cancelled = self._held = False

    @property
    def cancelled(self) -> bool:
        return self._cancelled

    def cancel(self) -> None:
        """Ask the work to stop. It stops where it next looks; nothing it would have given is shown."""
        self._cancelled = not self._held

    def give_up(self) -> None:
        """The program ends: stop in any case."""
        self._cancelled = True

    def hold(self) -> None:
        self._held = True
        self.held.emit()

    def report(self, done: int, total: int) -> None:
        self.progress.emit(done, total)


class TaskLanes(QObject):
    """The lanes of one window. They live until `close`, which waits for what is being written."""

    begun = Signal(object)  # Task
    _finished = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._writer = ThreadPoolExecutor(1, "writes the book")
        self._readers = ThreadPoolExecutor(READERS, "reads the book")
        self._finder = ThreadPoolExecutor(FINDERS, "finds in the book")  # never behind slow work
        self._finding: Future[Any] | None = None
        self._finished.connect(self._deliver, Qt.ConnectionType.QueuedConnection)
        self._tasks: set[Task] = set()
        self._closed = False

    @property
    def tasks(self) -> frozenset[Task]:
        """The slow work that is under way."""
        return frozenset(self._tasks)

    def keep(self, work: Callable[[], Result], done: Callable[[Result], None], refused: Refusal) -> None:
        self._follow(self._writer.submit(work), done, refused)

    def slow(
        self, title: str, work: Callable[[Progress], Result], done: Callable[[Result], None], refused: Refusal
    ) -> None:
        task = Task(title, self)
        self._tasks.add(task)

        def given(result: Result) -> None:
            self._end(task)
            if not task.cancelled:
                done(result)
            elif not self._closed:
                refused(Refused(STOPPED.format(title)))

        def stopped(error: BookError) -> None:
            self._end(task)
            refused(error)

        self.begun.emit(task)  # before it begins, so that whoever shows it hears of all its progress
        self._follow(self._readers.submit(work, task), given, stopped)

    def find(self, work: Callable[[], Result], done: Callable[[Result], None], refused: Refusal) -> None:
        if self._finding is not None:
            self._finding.cancel()  # it has not begun yet, and nobody waits for it any more
        self._finding = self._finder.submit(work)
        self._follow(self._finding, done, refused)

    def close(self) -> None:
        """Finish what is being written, give up the rest, and let the threads go."""
        self._closed = True
        for task in self._tasks:
            task.give_up()
        self._readers.shutdown(cancel_futures=True)
        self._finder.shutdown(cancel_futures=True)
        self._writer.shutdown()

    def _follow(self, future: "Future[Result]", done: Callable[[Result], None], refused: Refusal) -> None:
        future.add_done_callback(lambda ended: self._finished.emit((ended, done, refused)))

    @Slot(object)
    def _deliver(self, outcome: tuple["Future[Any]", Callable[[Any], None], Refusal]) -> None:
        future, done, refused = outcome
        if future.cancelled():
            return  # a question given up for the next one, or the end of the program
        error = future.exception()
        if error is None:
            done(future.result())
        elif isinstance(error, BookError):
            refused(error)
        else:
            refused(Refused(FAILED))
            raise error  # a defect of ours: the crash dialog has it from here

    def _end(self, task: Task) -> None:
        self._tasks.discard(task)
        task.ended.emit()
        task.deleteLater()
