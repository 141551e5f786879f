"""What the tests of the window begin with: a real book of the invented workshop, and the window on it."""

import os
from shutil import copytree

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QSettings

from jobbook.core.people import Shop
from jobbook.core.tools import Tool
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.house.people import add_person
from jobbook.services.house.shop import keep_tool
from jobbook.services.office.intake import Arrival, take_in
from jobbook.services.opened import open_book, start_book
from jobbook.ui import look
from jobbook.ui.duty import Duty
from jobbook.ui.frame import build_window
from jobbook.ui.setting import Setting
from jobbook.ui.tasks import TaskLanes
from tests.ui.at_once import AtOnce

SHOP = Shop("Saltmarsh Lane Suspension", "4 Saltmarsh Lane", "01000 555 010")


@pytest.fixture
def dressed(qapp):
    """The application in the house's look, light."""
    look.dress(qapp, "light")
    return qapp


@pytest.fixture(scope="session")
def fresh_book(tmp_path_factory):
    """A book that was begun and closed, to be copied: beginning one takes a third of a second."""
    place = tmp_path_factory.mktemp("fresh") / "book"
    book, imke = start_book(place, SHOP, "Imke Tolland", "1234")
    book.close()
    return place, imke


@pytest.fixture
def opened(fresh_book, tmp_path):
    """A book with its first person, Imke Tolland, who may do everything and whose PIN is 1234."""
    place, imke = fresh_book
    book = open_book(copytree(place, tmp_path / "book"))
    yield book, imke
    book.close()


@pytest.fixture
def book(opened):
    return opened[0]


@pytest.fixture
def imke(opened):
    return opened[1]


@pytest.fixture
def bram(book, imke):
    """A technician with a PIN and a badge, who may neither keep people nor take vehicles in."""
    return add_person(book, imke, "Bram Ferro", frozenset({"work", "check"}), "2222", "BADGE-7781")


@pytest.fixture
def strut_job(book, imke):
    """The number of the job of the estate that is down in front."""
    vehicle = Vehicle(
        0, "A09VH2AT4KB204117", "KX-07-ALD", "Varnholt", "estate", "2019", "Varnholt estate 2019", "front"
    )
    customer = Customer(0, "Wilma Harcourt-Dene", "11 Quay Row", "01000 555 077")
    concern = "Front left is right down in the morning, comes up after a minute."
    return take_in(book, imke, Arrival(vehicle, customer, "128 410", (concern,), promised="2026-11-25 17:00"))


@pytest.fixture
def wrench(book, imke):
    return keep_tool(book, imke, Tool("TW-02", "click wrench", "2", "10", "N·m", "2026-03-14", "2099-03-14", "K-118"))


@pytest.fixture
def lanes(dressed):
    made = TaskLanes()
    yield made
    made.close()


@pytest.fixture
def duty(imke):
    return Duty(imke)


@pytest.fixture
def at_once(book, duty):
    """A setting for presenters: what they ask to be kept is kept at once."""
    return Setting(book, duty, AtOnce())


@pytest.fixture
def setting(book, duty, lanes):
    return Setting(book, duty, lanes)


@pytest.fixture
def settings(tmp_path):
    return QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def window(qtbot, setting, duty, lanes, settings):
    """The whole window with Imke on duty, shown and active."""
    made = build_window(setting, duty, lanes, settings, lambda wish: None)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made
