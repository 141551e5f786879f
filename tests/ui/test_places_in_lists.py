"""The lists of jobs and vehicles, one vehicle, and the find line."""

import pytest
from PySide6.QtCore import Qt
from sqlalchemy import event
from sqlalchemy.engine import Engine

from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.office.intake import Arrival, take_in
from jobbook.services.vehicle.vehicles import vehicle
from jobbook.ui.finding import FindLine
from jobbook.ui.found import groups
from jobbook.ui.jobs.page import JobsPage
from jobbook.ui.places import JOBS, TAKE_IN, VEHICLES, Place, a_job, a_vehicle
from jobbook.ui.vehicles.page import VehiclesPage
from jobbook.ui.vehicles.vehicle_page import VehiclePage


@pytest.fixture
def camper_job(book, imke, strut_job):
    camper = Vehicle(0, "", "ML-44-TOR", "Kestelle", "camper", "2020")
    return take_in(book, imke, Arrival(camper, Customer(0, "Edmund Achterberg"), "61 000", ("It never comes up.",)))


@pytest.fixture
def jobs_page(qtbot, setting):
    made = JobsPage(setting.book)
    qtbot.addWidget(made)
    made.show()
    made.arrive(Place(JOBS))
    return made


def numbers(page):
    model = page.list.model
    return [model.record(row).number for row in range(model.rowCount())]


def test_an_empty_list_says_what_will_stand_there_and_offers_the_first_act(qtbot, jobs_page):
    assert not jobs_page.list.empty.isHidden()
    with qtbot.waitSignal(jobs_page.go) as went:
        jobs_page.list.empty.act.click()
    assert went.args == [TAKE_IN]


def test_jobs_stand_newest_first_with_the_customers_words_in_quotes(camper_job, strut_job, jobs_page):
    assert numbers(jobs_page) == [camper_job, strut_job]
    assert (
        jobs_page.list.model.index(1, 3).data() == "“Front left is right down in the morning, comes up after a minute.”"
    )


def test_typing_narrows_the_list(qtbot, camper_job, strut_job, jobs_page):
    qtbot.keyClicks(jobs_page.list.find_field, "kx-07")
    qtbot.waitUntil(lambda: numbers(jobs_page) == [strut_job])
    qtbot.keyClicks(jobs_page.list.find_field, "zzz")
    qtbot.waitUntil(lambda: numbers(jobs_page) == [])
    assert not jobs_page.list.empty.act.isVisible()


def test_a_stage_narrows_the_list(qtbot, camper_job, jobs_page):
    released = next(b for b in jobs_page.list._filters.buttons() if b.property("value") == "released")
    released.click()
    assert numbers(jobs_page) == []


def test_enter_goes_from_the_words_into_the_list_and_opens_a_job(qtbot, camper_job, jobs_page):
    qtbot.keyClick(jobs_page.list.find_field, Qt.Key.Key_Return)
    with qtbot.waitSignal(jobs_page.go) as went:
        qtbot.keyClick(jobs_page.list.table, Qt.Key.Key_Return)
    assert went.args == [a_job(camper_job)]


def test_vehicles_are_found_by_the_last_six_of_the_vin(qtbot, setting, camper_job):
    page = VehiclesPage(setting)
    qtbot.addWidget(page)
    page.show()
    page.arrive(Place(VEHICLES))
    assert page.list.model.rowCount() == 2
    qtbot.keyClicks(page.list.find_field, "204117")
    qtbot.waitUntil(lambda: page.list.model.rowCount() == 1)
    assert page.list.model.record(0).plate == "KX-07-ALD"


@pytest.fixture
def vehicle_page(qtbot, setting, camper_job):
    made = VehiclePage(setting)
    qtbot.addWidget(made)
    made.show()
    made.arrive(a_vehicle(1))
    return made


def test_a_vehicle_shows_its_identity_customer_readings_and_visits(vehicle_page, strut_job):
    assert vehicle_page.form.answers()["vin"] == "A09VH2AT4KB204117"
    assert vehicle_page.customer.text().startswith("Wilma Harcourt-Dene")
    assert vehicle_page.readings.model().index(0, 1).data() == "128\u202f410 km"
    assert vehicle_page.visits.model().record(0).number == strut_job


def test_a_visit_opens_its_job(qtbot, vehicle_page, strut_job):
    with qtbot.waitSignal(vehicle_page.go) as went:
        qtbot.keyClick(vehicle_page.visits, Qt.Key.Key_Return)
    assert went.args == [a_job(strut_job)]


def test_a_vehicles_facts_are_kept_when_they_change(qtbot, vehicle_page, book):
    vehicle_page.form.show_answers({"variant": "adaptive dampers, air in front only"})
    vehicle_page.keep.click()
    qtbot.waitUntil(lambda: vehicle_page.said.text() == "Kept.")
    assert vehicle(book, 1).vehicle.variant == "adaptive dampers, air in front only"


def test_a_vehicle_in_sight_follows_what_is_written_and_what_is_typed_stays(qtbot, vehicle_page, book, imke):
    vehicle_page.form.show_answers({"plate": "half typed"})
    known = vehicle(book, 1)
    again = take_in(book, imke, Arrival(known.vehicle, known.customer, "128 500", ("It is down again.",)))
    vehicle_page.refresh({"job-opened/1"})
    assert vehicle_page.visits.model().record(0).number == again
    assert vehicle_page.form.answers()["plate"] == "half typed"


def questions_to(book, act):
    """How many statements the act sends to the database, BEGIN and COMMIT left out."""
    asked = []

    def note(connection, cursor, statement, parameters, context, many):
        asked.append(statement)

    event.listen(Engine, "before_cursor_execute", note)
    act()
    event.remove(Engine, "before_cursor_execute", note)
    return len([statement for statement in asked if statement.lstrip().upper().startswith("SELECT")])


def test_a_list_asks_the_database_as_often_for_many_jobs_as_for_few(setting, jobs_page, book, imke, camper_job):
    few = questions_to(book, jobs_page.list.reload)
    known = vehicle(book, 1)
    for count in range(10):
        odometer = str(129_000 + count)
        take_in(book, imke, Arrival(known.vehicle, known.customer, odometer, ("It is down again.",)))
    assert questions_to(book, jobs_page.list.reload) == few
    assert few <= 2


def test_another_vehicles_vin_is_refused(qtbot, vehicle_page, book):
    vehicle_page.arrive(a_vehicle(2))
    vehicle_page.form.show_answers({"vin": "A09VH2AT4KB204117"})
    vehicle_page.keep.click()
    qtbot.waitUntil(lambda: "belongs to another vehicle" in vehicle_page.said.text())
    assert vehicle(book, 2).vehicle.vin == ""


def test_what_is_found_is_grouped_and_nothing_is_found_for_nothing(book, camper_job):
    assert groups(book, "  ") == ()
    assert [(group.title, len(group.found)) for group in groups(book, "varnholt")] == [("Jobs", 1), ("Vehicles", 1)]


@pytest.mark.parametrize("typed", ['"', "%", "_", "' OR 1=1 --", "a" * 500, "MATCH*", "(("])
def test_strange_text_finds_nothing_and_breaks_nothing(book, camper_job, typed):
    assert groups(book, typed) == ()


def test_the_find_line_leads_to_what_was_chosen_by_keyboard(qtbot, setting, camper_job):
    line = FindLine(setting)
    qtbot.addWidget(line)
    line.show()
    qtbot.keyClicks(line, "camper")
    qtbot.waitUntil(lambda: line.results.count() == 4)
    qtbot.keyClick(line, Qt.Key.Key_Down)
    with qtbot.waitSignal(line.chosen) as chosen:
        qtbot.keyClick(line, Qt.Key.Key_Return)
    assert chosen.args == [a_vehicle(2)]
    assert line.text() == ""


def test_what_was_found_opens_with_a_click(qtbot, setting, camper_job):
    line = FindLine(setting)
    qtbot.addWidget(line)
    with qtbot.waitActive(line):
        line.show()
        line.activateWindow()
    line.setFocus()
    qtbot.keyClicks(line, "camper")
    qtbot.waitUntil(lambda: line.results.count() == 4)
    place = line.results.visualItemRect(line.results.item(3)).center()
    with qtbot.waitSignal(line.chosen) as chosen:
        qtbot.mouseClick(line.results.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert chosen.args == [a_vehicle(2)]
