"""Takes the pictures of every page, from the demonstration book, for docs/screens: `python packaging/screens.py`.

A folder may be named for them instead.
Each page at 1366 x 768 and 1920 x 1080, light and dark. They are there to be looked at by whoever changes a page.
"""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import chdir
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QWidget

from jobbook.services.demonstration import build
from jobbook.services.jobs import jobs
from jobbook.services.opened import OpenBook, last_kept, open_book
from jobbook.services.people import all_people
from jobbook.ui import look
from jobbook.ui.duty import Duty
from jobbook.ui.frame import build_window
from jobbook.ui.jobs.job_page import ORDER, JobPage
from jobbook.ui.places import JOBS, SHOP, TAKE_IN, VEHICLES, Place, a_job, a_vehicle
from jobbook.ui.setting import Setting
from jobbook.ui.shop.page import ShopPage
from jobbook.ui.start.first_start import FirstStart
from jobbook.ui.tasks import TaskLanes
from jobbook.ui.window import Window

SIZES = ((1366, 768), (1920, 1080))
COLOURS = 96  # flat pages need no more, and the pictures are a third as large
ROOT = Path(__file__).resolve().parent.parent

Page = tuple[str, Callable[[], object]]


def main(folder: Path) -> None:
    application = QApplication.instance() or QApplication(["screens"])
    assert isinstance(application, QApplication)
    folder = folder.resolve()
    folder.mkdir(parents=True, exist_ok=True)
    place = Path(
        "saltmarsh-lane"
    )  # pictures show where the book lies, and this machine's folders are nobody's business
    with TemporaryDirectory() as scratch, chdir(scratch):
        build(place)
        moment = _moment_after(place)
        for scheme in look.SCHEMES:
            look.dress(application, scheme)
            book = open_book(place, clock=lambda: moment)
            take_pictures(book, scheme, folder, QSettings("window.ini", QSettings.Format.IniFormat))
            book.close()


def _moment_after(place: Path) -> datetime:
    """Some minutes after the last entry, so that the pictures are the same on every day."""
    book = open_book(place)
    at, _ = last_kept(book)
    book.close()
    return datetime.fromisoformat(at) + timedelta(minutes=4)


def take_pictures(book: OpenBook, scheme: str, folder: Path, settings: QSettings) -> None:
    lanes = TaskLanes()
    technician = next(person for person in all_people(book) if person.name.startswith("Bram"))
    duty = Duty(technician)
    window = build_window(Setting(book, duty, lanes), duty, lanes, settings, lambda wish: None)
    window.show()
    for width, height in SIZES:
        window.resize(width, height)
        for name, open_page in pages(window, duty, book):
            open_page()
            keep(window, folder / f"{name}-{width}-{scheme}.png")
        duty.come(technician)
        keep(first_start(lanes, width, height), folder / f"first-start-{width}-{scheme}.png")
    window.close()
    lanes.close()


def pages(window: Window, duty: Duty, book: OpenBook) -> Iterator[Page]:
    """Every page by the name of its picture, with what opens it."""
    rows = jobs(book).rows
    in_work = next((row for row in rows if row.stage == "in work"), rows[0])
    released = next((row for row in rows if row.stage == "released"), rows[-1])
    yield "jobs", lambda: window.go(Place(JOBS))
    yield "take-in", lambda: window.go(TAKE_IN)
    yield "job", lambda: window.go(a_job(in_work.number))
    yield from job_tabs(window, released.number)
    yield "vehicles", lambda: window.go(Place(VEHICLES))
    yield "vehicle", lambda: window.go(a_vehicle(released.vehicle_id))
    yield from parts_of_the_shop(window)
    yield "lock", duty.lock


def job_tabs(window: Window, number: int) -> Iterator[Page]:
    """The tabs of a job that is done, so that each has something on it."""
    page = window.rooms[JOBS].page(a_job(number).what)
    assert isinstance(page, JobPage)
    for key in ORDER:
        yield f"job-{key}", lambda key=key: (window.go(a_job(number)), page.right.open_tab(key))


def parts_of_the_shop(window: Window) -> Iterator[Page]:
    page = window.rooms[SHOP].page(Place(SHOP).what)
    assert isinstance(page, ShopPage)
    for word in page.words.buttons():
        name = f"shop-{word.text().lower()}"
        yield name, lambda word=word: (window.go(Place(SHOP)), word.click())


def first_start(lanes: TaskLanes, width: int, height: int) -> QWidget:
    made = FirstStart("Documents/job book", lanes)
    made.resize(width, height)
    made.show()
    return made


def keep(widget: QWidget, file: Path) -> None:
    QApplication.sendPostedEvents()  # everything is laid out as it would be seen
    widget.grab().save(str(file))
    with Image.open(file) as picture:
        few = picture.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    few.save(file, optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "docs" / "screens")
