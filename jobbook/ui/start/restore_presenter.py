"""Restoring a backup where no book lies yet."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.services.house.restoring import Witnesses, read_entry, restore_and_open
from jobbook.services.opened import OpenBook
from jobbook.ui.setting import Lanes, Progress


class RestoreView(Protocol):
    """What the page can show."""

    def show_busy(self, busy: bool) -> None: ...

    def show_how_far(self, done: int, total: int) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_restored(self, sentences: tuple[str, ...]) -> None: ...


class Told:
    """The running work, told on to the page's own bar; the page can wish it stopped."""

    def __init__(self, running: Progress | None, tell: Callable[[int, int], None], wish: Callable[[], bool]) -> None:
        self._running, self._tell, self._wish = running, tell, wish

    @property
    def cancelled(self) -> bool:
        return self._wish() or (self._running is not None and self._running.cancelled)

    def report(self, done: int, total: int) -> None:
        self._tell(done, total)


class RestorePresenter:
    """Begins the restoring, follows it, and hands over the open book."""

    def __init__(self, place: str, lanes: Lanes, view: RestoreView, done: Callable[[OpenBook], None]) -> None:
        self._place, self._lanes, self._view, self._done = place, lanes, view, done
        self._book: OpenBook | None = None
        self._busy = self._stop = False

    def restore(self, answers: Mapping[str, str]) -> None:
        if self._busy:
            return
        try:
            witnesses = _witnesses(answers)
        except BookError as error:
            self._view.refuse(str(error))
            return
        self._busy, self._stop = True, False
        self._view.show_busy(True)
        file = Path(answers["file"].strip()).expanduser()

        def work(running: Progress | None) -> tuple[OpenBook, tuple[str, ...]]:
            told = Told(running, self._view.show_how_far, lambda: self._stop)
            return restore_and_open(file, Path(self._place), witnesses, running=told)

        self._lanes.slow("Restoring", work, self._restored, self._refused)

    def stop(self) -> None:
        self._stop = True

    def _restored(self, restored: tuple[OpenBook, tuple[str, ...]]) -> None:
        self._free()
        self._book, sentences = restored
        self._view.show_restored(sentences)

    def _refused(self, error: BookError) -> None:
        self._free()
        self._view.refuse(str(error))

    def _free(self) -> None:
        self._busy = False
        self._view.show_busy(False)

    def open(self) -> None:
        if self._book is not None:
            self._done(self._book)


def _witnesses(answers: Mapping[str, str]) -> Witnesses:
    left = answers["left"].strip()
    return Witnesses(read_entry(answers["last_entry"]), (), Path(left).expanduser() if left else None)
