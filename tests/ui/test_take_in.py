"""Taking in, through the form and against a real book."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from jobbook.services.jobs import jobs
from jobbook.services.office.desk import get_job
from jobbook.services.vehicle.vehicles import vehicle
from jobbook.ui.jobs.arriving.take_in import TakeInPage
from jobbook.ui.places import TAKE_IN, a_job

GOOD_VIN = "A09VH2AT4KB204117"


@pytest.fixture
def page(qtbot, setting):
    made = TakeInPage(setting)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.arrive(TAKE_IN)
    return made


def type_into(qtbot, page, name, text):
    edit = page._form_of(name).fields[name].focusProxy()
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClick(edit, Qt.Key.Key_Backspace)
    qtbot.keyClicks(edit, text)


def fill(qtbot, page, **changed):
    given = {
        "make": "Varnholt",
        "model": "estate",
        "customer": "Wilma Harcourt-Dene",
        "odometer": "128 410",
        "concerns": "Front left is down in the morning.",
    }
    for name, text in (given | changed).items():
        type_into(qtbot, page, name, text)


def test_a_vehicle_is_taken_in_and_the_job_opens(qtbot, page, book):
    fill(qtbot, page, vin=GOOD_VIN.lower(), plate="KX-07-ALD", fuel="half")
    page.standing.fields["heights"].edits["FL"].setText("366")
    with qtbot.waitSignal(page.go) as went:
        qtbot.mouseClick(page.take_in, Qt.MouseButton.LeftButton)
    assert went.args == [a_job(1)]
    job = get_job(book, 1)
    sheet = vehicle(book, job.vehicle_id)
    assert [concern.words for concern in job.concerns] == ["Front left is down in the morning."]
    assert (sheet.vehicle.vin, sheet.vehicle.plate, job.fuel) == (GOOD_VIN, "KX-07-ALD", "half")
    assert [(reading.value, reading.unit, reading.what) for reading in sheet.odometers] == [(128410, "km", "in")]


def test_each_line_of_the_concern_is_a_concern_of_its_own(qtbot, page, book):
    fill(qtbot, page)
    page.arrival.fields["concerns"].set_text("It is down in the morning.\n\nThe compressor is loud.")
    with qtbot.waitSignal(page.go):
        page.take_in.click()
    assert [c.words for c in get_job(book, 1).concerns] == ["It is down in the morning.", "The compressor is loud."]


def test_a_doubtful_vin_is_warned_of_as_one_types_and_is_no_hindrance(qtbot, page, book):
    fill(qtbot, page, vin="A09VH2AT4KB20411X")
    assert "last four characters" in page.vehicle.fields["vin"].said()
    with qtbot.waitSignal(page.go):
        page.take_in.click()
    assert vehicle(book, 1).vehicle.vin == "A09VH2AT4KB20411X"


def test_a_number_that_can_be_no_vin_opens_no_job(qtbot, page, book):
    fill(qtbot, page, vin="A09VH2AT4KB20411O")
    assert "it may be the digit 0" in page.vehicle.fields["vin"].said()
    page.take_in.click()
    qtbot.waitUntil(lambda: "letter O" in page.said.text())
    assert jobs(book).rows == ()


def test_what_is_missing_is_marked_and_nothing_is_kept(qtbot, page, book):
    fill(qtbot, page)
    page.arrival.fields["odometer"].set_text("")
    with qtbot.assertNotEmitted(page.go):
        page.take_in.click()
    assert page.arrival.fields["odometer"].said() == "Odometer as read, or ? is needed."
    assert page.arrival.fields["odometer"].has_focus()
    assert jobs(book).rows == ()


def test_a_known_vin_brings_the_vehicle_and_its_customer(qtbot, page, strut_job, book):
    type_into(qtbot, page, "vin", GOOD_VIN)
    said = page.answers()
    assert (said["plate"], said["make"], said["customer"]) == ("KX-07-ALD", "Varnholt", "Wilma Harcourt-Dene")
    assert "in the book already" in page.known.text()
    type_into(qtbot, page, "odometer", "128 500")
    type_into(qtbot, page, "concerns", "It is down again.")
    with qtbot.waitSignal(page.go):
        page.take_in.click()
    assert {row.vehicle_id for row in jobs(book).rows} == {1}
    assert get_job(book, 2).customer_id == get_job(book, 1).customer_id


def test_a_vin_changed_to_another_one_is_another_vehicle(qtbot, page, strut_job, book):
    type_into(qtbot, page, "vin", GOOD_VIN)
    type_into(qtbot, page, "vin", "A09VH2AT4KB204118")
    assert page.known.isHidden()
    fill(qtbot, page, plate="ML-44-TOR")
    with qtbot.waitSignal(page.go):
        page.take_in.click()
    assert len({row.vehicle_id for row in jobs(book).rows}) == 2


def test_an_odometer_that_falls_asks_why_and_a_note_answers(qtbot, page, strut_job, book):
    type_into(qtbot, page, "vin", GOOD_VIN)
    type_into(qtbot, page, "odometer", "99 000")
    assert "less than 128410 km read before" in page.arrival.fields["odometer"].said()
    type_into(qtbot, page, "concerns", "It is down again.")
    page.take_in.click()
    qtbot.waitUntil(lambda: "was not taken in yet" in page.said.text())
    assert len(jobs(book).rows) == 1
    type_into(qtbot, page, "odometer_note", "cluster replaced elsewhere")
    with qtbot.waitSignal(page.go):
        page.take_in.click()
    assert vehicle(book, 1).odometers[0].note == "cluster replaced elsewhere"


def test_a_height_of_four_metres_is_doubted_as_one_types_and_refused(qtbot, page, book):
    fill(qtbot, page)
    edit = page.standing.fields["heights"].edits["RR"]
    edit.setFocus()
    qtbot.keyClicks(edit, "4000")
    assert "100 to 1200 mm" in page.standing.fields["heights"].said()
    page.take_in.click()
    qtbot.waitUntil(lambda: "4000" in page.said.text())
    assert jobs(book).rows == ()


def test_nobody_on_duty_takes_nothing_in(qtbot, page, duty, book):
    fill(qtbot, page)
    duty.lock()
    page.take_in.click()
    assert page.said.text().startswith("Nobody is on duty")
    assert jobs(book).rows == ()


def test_who_has_no_permission_hears_so_and_what_was_typed_stays(qtbot, page, duty, bram, book):
    fill(qtbot, page)
    duty.come(bram)
    page.take_in.click()
    qtbot.waitUntil(lambda: "no permission" in page.said.text())
    assert page.answers()["make"] == "Varnholt"


def test_who_may_not_take_in_hears_so_before_typing(page, duty, bram, imke):
    duty.come(bram)
    page.arrive(TAKE_IN)
    assert page.said.text().startswith("Bram Ferro has no permission to take in")
    duty.come(imke)
    page.arrive(TAKE_IN)
    assert page.said.text() == ""


def test_a_form_that_was_left_is_as_it_was_and_can_be_emptied(qtbot, page):
    fill(qtbot, page)
    with qtbot.waitSignal(page.back):
        page.leave.click()
    page.arrive(TAKE_IN)
    assert page.answers()["make"] == "Varnholt"
    page.empty.click()
    assert page.answers()["make"] == ""
    assert page.answers()["arrival"] == "driven"


def test_the_whole_form_is_walked_by_enter(qtbot, page):
    """From the VIN to the field after the last one of the first form, the customer's name."""
    page.vehicle.focus_first()
    for _ in page.vehicle.fields:
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    assert page.customer.fields["customer"].has_focus()


def test_tab_goes_from_the_last_field_to_taking_in(qtbot, page):
    last = page.standing.fields["condition"].focusProxy()
    last.setFocus()
    qtbot.keyClick(last, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is page.take_in


def test_a_promise_is_said_back_while_it_is_typed(qtbot, page):
    type_into(qtbot, page, "promised", "27.11.2030 17:00")
    assert page.arrival.fields["promised"].said() == "Wednesday 27 Nov 2030, 17:00"
    type_into(qtbot, page, "promised", "3/4")
    assert page.arrival.fields["promised"].said() == ""
