"""A vehicle that came into the book by a list, and was never here, says what will stand on its page."""

import pytest

from jobbook.services.lists.importing import keep
from jobbook.services.lists.planning import headings_of, plan
from jobbook.ui.places import a_vehicle
from jobbook.ui.vehicles.vehicle_page import VehiclePage


@pytest.fixture
def page(qtbot, dressed, at_once, imke, tmp_path):
    file = tmp_path / "list.csv"
    file.write_text("VIN,Plate\nXX0KSTLLE00654321,ML-1\n", encoding="utf-8")
    keep(at_once.book, imke, plan(at_once.book, "vehicles", *headings_of(at_once.book, "vehicles", file)))
    made = VehiclePage(at_once)
    qtbot.addWidget(made)
    made.resize(1200, 640)
    made.show()
    made.arrive(a_vehicle(1))
    return made


def test_each_list_says_what_will_stand_in_it_and_the_first_field_has_the_focus(qtbot, page):
    assert [table.isVisible() for table in (page.visits, page.readings)] == [False, False]
    assert [words.isVisible() for words in page.nothing.values()] == [True, True]
    qtbot.waitUntil(lambda: page.form.isAncestorOf(page.focusWidget()))
