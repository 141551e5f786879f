"""What opens each page that a picture is taken of, by the name of the picture."""

from collections.abc import Callable, Iterator
from pathlib import Path

from PySide6.QtWidgets import QApplication, QPushButton, QScrollArea

from jobbook.core.people import Person
from jobbook.services.files import files_of
from jobbook.services.house.people import all_people
from jobbook.services.jobs import jobs
from jobbook.services.office.today import today
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicles import vehicle
from jobbook.ui import look
from jobbook.ui.duty import Duty
from jobbook.ui.jobs.job_page import ORDER, JobPage
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
from jobbook.ui.shop.lists import ListsPage
from jobbook.ui.shop.page import ShopPage
from jobbook.ui.today.page import TodayPage
from jobbook.ui.vehicles.vehicle_page import VehiclePage
from jobbook.ui.window import Window

LAID_OUT = 4
ADAPTER = {"lever": "400 mm", "extension": "50 mm", "angle": "30°"}
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

Page = tuple[str, Callable[[], object]]


def pages(window: Window, duty: Duty, book: OpenBook) -> Iterator[Page]:
    """Every page by the name of its picture, with what opens it. The owner takes vehicles in, a technician works."""
    owner, technician = called(book, "Imke"), called(book, "Bram")
    rows = jobs(book).rows
    in_work = next((row for row in rows if row.stage == "in work"), rows[0])
    released = next((row for row in rows if row.stage == "released"), rows[-1])
    yield "today", lambda: today_counted(window)
    yield "call", lambda: (duty.come(owner), window.go(a_call(expected(book))))
    yield "jobs", lambda: window.go(Place(JOBS))
    yield "take-in", lambda: window.go(TAKE_IN)
    yield "from-paper", lambda: window.go(FROM_PAPER)
    yield "job", lambda: (duty.come(technician), window.go(a_job(in_work.number)))
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
    duty.come(owner)
    yield from parts_of_the_shop(window)
    yield "lock", duty.lock


def called(book: OpenBook, name: str) -> Person:
    return next(person for person in all_people(book) if person.name.startswith(name))


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


def settle() -> None:
    """Let everything be laid out as it would be seen: what wraps asks for its height anew."""
    for _ in range(LAID_OUT):
        QApplication.sendPostedEvents()
