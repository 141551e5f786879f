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
from shutil import copytree
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QPushButton, QScrollArea, QWidget

from jobbook.core.people import Person
from jobbook.services import work
from jobbook.services.demonstration import build
from jobbook.services.files import files_of
from jobbook.services.jobs import jobs
from jobbook.services.jobsheet import job_sheet
from jobbook.services.opened import OpenBook, last_kept, open_book
from jobbook.services.people import all_people
from jobbook.services.today import today
from jobbook.services.vehicles import vehicle
from jobbook.ui import look
from jobbook.ui.duty import Duty
from jobbook.ui.frame import build_window
from jobbook.ui.jobs.job_page import ORDER, JobPage
from jobbook.ui.jobs.work_adapter import AdapterForm
from jobbook.ui.lookback.page import LookBackPage
from jobbook.ui.paint import DrawingWidget
from jobbook.ui.places import (
    CUSTOMERS,
    FROM_PAPER,
    JOBS,
    LOOKING_BACK,
    SHOP,
    TAKE_IN,
    TODAY,
    VEHICLES,
    Place,
    a_call,
    a_customer,
    a_figure,
    a_job,
    a_vehicle,
)
from jobbook.ui.setting import Setting
from jobbook.ui.shop.lists import ListsPage
from jobbook.ui.shop.page import ShopPage
from jobbook.ui.start.first_start import FirstStart
from jobbook.ui.tasks import TaskLanes
from jobbook.ui.today.page import TodayPage
from jobbook.ui.vehicles.vehicle_page import VehiclePage
from jobbook.ui.window import Window

SIZES = ((1366, 768), (1920, 1080))
COLOURS = 96  # flat pages need no more, and the pictures are a third as large
LAID_OUT = 4
STEPS_TO_THE_NUT = 4
ADAPTER = {"lever": "400 mm", "extension": "50 mm", "angle": "30°"}
CROWFOOT = {"lever": "180", "extension": "28"}
STAND = {
    "before": "402 mm; 404 mm; 398 mm; 399 mm",
    "after": "366 mm; 399 mm; 394 mm; 395 mm",
    "hours": "13.5 h",
    "start_temperature": "18 °C",
    "end_temperature": "11 °C",
}
LIST = """VIN;Number plate;Make;Model;Year;Owner;Telephone;Colour
A09KS1CR6LB300410;QH-31-CMP;Kestelle;camper;2020;Perpetua Lindqvist;Quillhaven 0311;sand
A09ND2VN0JB400122;ON-12-RYD;Ondry;van;2018;Ropewalk Parcels;Quillhaven 0290;white
1.2E+16;TA-77-XIS;Varnholt;estate;2017;Merrick Ashdown;;
;;Varnholt;estate;19;Odalys Farrow;;
"""
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
    technician = bram(book)
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
    yield "today", lambda: today_counted(window)
    yield "call", lambda: window.go(a_call(expected(book)))
    yield "jobs", lambda: window.go(Place(JOBS))
    yield "take-in", lambda: window.go(TAKE_IN)
    yield "from-paper", lambda: window.go(FROM_PAPER)
    yield "job", lambda: window.go(a_job(in_work.number))
    filed = next(row.number for row in rows if files_of(book, row.number))
    yield "job-pictures", lambda: open_pictures(window, filed)
    yield "job-order", lambda: open_tab(window, in_work.number, "diagnosis")
    yield from job_tabs(window, released.number)
    yield "vehicles", lambda: window.go(Place(VEHICLES))
    yield "vehicle", lambda: window.go(a_vehicle(released.vehicle_id))
    for name, leaf in (("vehicle-parts", "Parts"), ("vehicle-years", "Years"), ("vehicle-plates", "Plates")):
        yield name, lambda leaf=leaf: (window.go(a_vehicle(released.vehicle_id)), turn_to(window, leaf))
    yield "customers", lambda: window.go(Place(VEHICLES, CUSTOMERS))
    yield "customer", lambda: window.go(a_customer(vehicle(book, released.vehicle_id).vehicle.customer_id))
    yield "looking-back", lambda: looked_back(window)
    yield "figures", lambda: window.go(a_figure("adapter", torque="110 N·m", **ADAPTER))
    yield "figures-toe", lambda: window.go(a_figure("toe", single_toe="0°10′", diameter="16 in"))
    yield "figures-stand", lambda: window.go(a_figure("leak-down", **STAND))
    yield from parts_of_the_shop(window)
    yield "lock", duty.lock


def expected(book: OpenBook) -> int:
    """The call that is expected first; a new one where nobody is."""
    return next((line.number for line in today(book).lines if line.kind == "call"), 0)


def today_counted(window: Window) -> None:
    """Go to Today and let it count what is loose; the call that is expected stands open."""
    window.go(Place(TODAY))
    page = window.rooms[TODAY].page(Place(TODAY).what)
    assert isinstance(page, TodayPage)
    while any(line.due.kind == "job" and line.loose is None for line in page.lines):
        settle()
    page.show_kind("call")


def turn_to(window: Window, leaf: str) -> None:
    """Turn the page of the vehicle to the leaf that begins so."""
    page = window.rooms[VEHICLES].page(a_vehicle(1).what)
    assert isinstance(page, VehiclePage)
    next(word for word in page.findChildren(QPushButton) if word.text().startswith(leaf)).click()


def looked_back(window: Window) -> None:
    """Go to Looking back and wait for its curve."""
    window.go(Place(LOOKING_BACK))
    page = window.rooms[LOOKING_BACK].page(Place(LOOKING_BACK).what)
    assert isinstance(page, LookBackPage)
    while not page.words.text():
        settle()


def open_pictures(window: Window, number: int) -> None:
    """Show the pictures and files of a job, all of them."""
    window.go(a_job(number))
    page = window.rooms[JOBS].page(a_job(number).what)
    assert isinstance(page, JobPage)
    page.beside.show_job()
    page.open_pictures()
    page.pictures.part.setCurrentIndex(1)
    page.pictures.part.activated.emit(1)
    while not page.pictures.shelf.is_complete():
        QApplication.processEvents()  # small pictures come one after the other, by a timer


def open_tab(window: Window, number: int, key: str) -> None:
    window.go(a_job(number))
    page = window.rooms[JOBS].page(a_job(number).what)
    assert isinstance(page, JobPage)
    page.right.open_tab(key)


def job_tabs(window: Window, number: int) -> Iterator[Page]:
    """The tabs of a job that is done, so that each has something on it."""
    page = window.rooms[JOBS].page(a_job(number).what)
    assert isinstance(page, JobPage)
    for key in ORDER:
        yield f"job-{key}", lambda key=key: (window.go(a_job(number)), page.right.open_tab(key))
    yield "job-stand", lambda: (window.go(a_job(number)), page.right.open_tab("diagnosis"), bring_the_chart(page))


def bring_the_chart(page: JobPage) -> None:
    """Scroll the Diagnosis tab so that the chart of the stand begins at its top."""
    settle()
    tab = page.tabs["diagnosis"]
    chart = next(one for one in tab.findChildren(DrawingWidget) if one.accessibleName().startswith("Drop in mm"))
    area = tab.findChild(QScrollArea)
    area.verticalScrollBar().setValue(chart.mapTo(area.widget(), chart.rect().topLeft()).y() - look.UNIT * 4)


def go_on_to_the_line_nut(book: OpenBook) -> tuple[int, tuple[int, int]]:
    """Go on with the job in work until the nut of its air line can be tightened: its number and that step."""
    who = bram(book)
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
    lanes, duty = TaskLanes(), Duty(bram(book))
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


def bram(book: OpenBook) -> Person:
    return next(person for person in all_people(book) if person.name.startswith("Bram"))


def parts_of_the_shop(window: Window) -> Iterator[Page]:
    page = window.rooms[SHOP].page(Place(SHOP).what)
    assert isinstance(page, ShopPage)
    for word in page.words.buttons():
        name = f"shop-{word.text().lower().split()[0]}"
        yield name, lambda word=word: (window.go(Place(SHOP)), word.click(), show_a_list(page))


def show_a_list(page: ShopPage) -> None:
    """Where lists come in, let one be looked at: two rows are wrong."""
    part = page.part()
    if not isinstance(part, ListsPage):
        return
    file = Path("vehicles.csv")
    file.write_text(LIST, encoding="utf-8")
    part.kinds.button(1).click()
    part.presenter.open_file(file)
    while not part.take_good.isVisible():
        settle()


def first_start(lanes: TaskLanes, width: int, height: int) -> QWidget:
    made = FirstStart("Documents/job book", lanes)
    made.resize(width, height)
    made.show()
    return made


def settle() -> None:
    """Let everything be laid out as it would be seen: what wraps asks for its height anew."""
    for _ in range(LAID_OUT):
        QApplication.sendPostedEvents()


def keep(widget: QWidget, file: Path) -> None:
    settle()
    widget.grab().save(str(file))
    with Image.open(file) as picture:
        few = picture.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    few.save(file, optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "docs" / "screens")
