"""Takes the pictures of every page, from the demonstration book, for docs/screens: `python packaging/screens.py`.

A folder may be named for them instead.
Each page at 1366 x 768 and 1920 x 1080, light and dark. They are there to be looked at by whoever changes a page.
"""

import os
import sys
from contextlib import chdir
from datetime import datetime, timedelta
from pathlib import Path
from shutil import copytree
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QWidget
from screen_pages import called, pages, settle

from jobbook.services import work
from jobbook.services.demonstration import build
from jobbook.services.jobs import jobs
from jobbook.services.opened import OpenBook, last_kept, open_book
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.ui import look
from jobbook.ui.duty import Duty
from jobbook.ui.frame import build_window
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.working.work_adapter import AdapterForm
from jobbook.ui.places import (
    JOBS,
    a_job,
)
from jobbook.ui.setting import Setting
from jobbook.ui.start.first_start import FirstStart
from jobbook.ui.tasks import TaskLanes

SIZES = ((1366, 768), (1920, 1080))
COLOURS = 96  # flat pages need no more, and the pictures are a third as large
STEPS_TO_THE_NUT = 4
CROWFOOT = {"lever": "180", "extension": "28"}
ROOT = Path(__file__).resolve().parent.parent


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
            settings = QSettings("window.ini", QSettings.Format.IniFormat)
            take_pictures(book, scheme, folder, settings)
            book.close()
            further = open_book(copytree(place, Path(f"further-{scheme}")), clock=lambda: moment)
            take_adapter_pictures(further, scheme, folder, settings)
            further.close()


def _moment_after(place: Path) -> datetime:
    """Some minutes after the last entry, so that the pictures are the same on every day."""
    book = open_book(place)
    at, _ = last_kept(book)
    book.close()
    return datetime.fromisoformat(at) + timedelta(minutes=4)


def take_pictures(book: OpenBook, scheme: str, folder: Path, settings: QSettings) -> None:
    lanes = TaskLanes()
    technician = called(book, "Bram")
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


def go_on_to_the_line_nut(book: OpenBook) -> tuple[int, tuple[int, int]]:
    """Go on with the job in work until the nut of its air line can be tightened: its number and that step."""
    who = called(book, "Bram")
    number = next(row.number for row in jobs(book).rows if row.stage == "in work")
    for _ in range(STEPS_TO_THE_NUT):
        card = job_sheet(book, number, None, who.id).card
        assert card is not None
        if any(choice.adapter is not None for choice in card.choices):
            return number, (card.step.begun, card.step.number)
        main = next(choice for choice in card.choices if choice.main)
        work.keep(book, who, number, main, {ask.name: "1" for ask in main.asks})
    raise LookupError("the job in work has no joint to tighten soon: name another way to it")


def take_adapter_pictures(book: OpenBook, scheme: str, folder: Path, settings: QSettings) -> None:
    """The card of a joint that is tightened with an adapter, the measures typed."""
    number, step = go_on_to_the_line_nut(book)
    lanes, duty = TaskLanes(), Duty(called(book, "Bram"))
    window = build_window(Setting(book, duty, lanes), duty, lanes, settings, lambda wish: None)
    window.show()
    window.go(a_job(number))
    page = window.rooms[JOBS].page(a_job(number).what)
    assert isinstance(page, JobPage)
    for width, height in SIZES:
        window.resize(width, height)
        page.right.open_tab("work")
        page.presenter.open_step(*step)
        assert page.work.card is not None
        page.work.card.press("A")
        form = page.work.card.findChild(AdapterForm)
        form.measures.show_answers(CROWFOOT)
        form.work_out()
        keep(window, folder / f"job-adapter-{width}-{scheme}.png")
        page.work.card.close_form()
    window.close()
    lanes.close()


def first_start(lanes: TaskLanes, width: int, height: int) -> QWidget:
    made = FirstStart("Documents/job book", lanes)
    made.resize(width, height)
    made.show()
    return made


def keep(widget: QWidget, file: Path) -> None:
    settle()
    widget.grab().save(str(file))
    with Image.open(file) as picture:
        few = picture.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    few.save(file, optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "docs" / "screens")
