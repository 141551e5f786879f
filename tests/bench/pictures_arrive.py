"""A window that is watched while pictures arrive: `python -m tests.bench.pictures_arrive BOOK FOLDER`.

It prints the longest gap between two beats of the window's event loop in milliseconds: while the pictures are taken in,
kept and shown, and while a plain thread reads the same files and makes small pictures of them, for which the window
does nothing."""

import sys
import threading
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from time import perf_counter

from PIL import Image
from PySide6.QtCore import QEventLoop, QSettings, QTimer
from PySide6.QtWidgets import QApplication

from jobbook.services.house.people import all_people
from jobbook.services.opened import OpenBook, open_book
from jobbook.ui import look
from jobbook.ui.duty import Duty
from jobbook.ui.frame import build_window
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.pictures.arriving import of_paths
from jobbook.ui.places import JOBS, a_job
from jobbook.ui.setting import Setting
from jobbook.ui.tasks import TaskLanes
from jobbook.ui.window import Window

JOB = 3  # of the demonstration: in work
MOST_SECONDS = 120


class Beats:
    """Beats whenever the event loop is free, and notes the longest time that it was not."""

    def __init__(self) -> None:
        self.longest = 0.0
        self._last = perf_counter()
        self._timer = QTimer()
        self._timer.timeout.connect(self._beat)

    def while_running(self, begin: Callable[[], object], over: Callable[[], bool]) -> float:
        """The longest gap in milliseconds from `begin` until `over` is true."""
        self.longest, self._last = 0.0, perf_counter()
        loop, asked, until = QEventLoop(), QTimer(), perf_counter() + MOST_SECONDS
        asked.timeout.connect(lambda: loop.quit() if over() or perf_counter() > until else None)
        self._timer.start(0)
        asked.start(20)
        begin()
        self._beat()
        loop.exec()
        self._timer.stop()
        asked.stop()
        if perf_counter() > until:
            raise RuntimeError("the pictures did not arrive")
        return self.longest * 1000

    def _beat(self) -> None:
        now = perf_counter()
        self.longest, self._last = max(self.longest, now - self._last), now


def bare(paths: list[Path]) -> threading.Thread:
    """What must be done at the least, in a thread that no window waits for."""

    def read() -> None:
        for path in paths:
            with Image.open(BytesIO(path.read_bytes())) as image:
                image.thumbnail((320, 320))

    return threading.Thread(target=read)


def window_on(book: OpenBook, lanes: TaskLanes, settings: Path) -> tuple[Window, JobPage]:
    """The whole window with the pictures of a job open."""
    duty = Duty(next(one for one in all_people(book) if one.may("desk")))
    kept = QSettings(str(settings / "window.ini"), QSettings.Format.IniFormat)
    window = build_window(Setting(book, duty, lanes), duty, lanes, kept, lambda wish: None)
    window.resize(*look.WINDOW_SIZE)
    window.show()
    window.go(a_job(JOB))
    page = window.rooms[JOBS].page(a_job(JOB).what)
    assert isinstance(page, JobPage)
    page.open_pictures()
    return window, page


def main(place: str, folder: str) -> None:
    application = QApplication([])
    look.dress(application, "light")
    lanes, book, paths = TaskLanes(), open_book(place), sorted(Path(folder).glob("*.jpg"))
    window, page = window_on(book, lanes, Path(place))
    beats = Beats()
    shelf = page.pictures.shelf
    thread = bare(paths)
    alone = beats.while_running(thread.start, lambda: not thread.is_alive())
    there = shelf.count()
    ours = beats.while_running(
        lambda: page.pictures.presenter.take_in(of_paths(paths)),
        lambda: shelf.count() == there + len(paths) and shelf.is_complete(),
    )
    window.close()
    lanes.close()
    book.close()
    print(f"{ours:.3f} {alone:.3f}", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
