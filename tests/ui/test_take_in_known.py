"""What is in the book already is offered while it is typed, through the real form."""

import pytest
from PySide6.QtCore import Qt

from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.jobs import jobs
from jobbook.services.office import parties
from jobbook.services.office.desk import get_job
from jobbook.services.vehicle import odometers, ownership
from jobbook.services.vehicle.customers import customer, keep_customer
from jobbook.services.vehicle.vehicles import vehicle
from jobbook.ui.jobs.arriving.take_in import TakeInPage
from jobbook.ui.places import TAKE_IN
from tests.ui.test_take_in import GOOD_VIN, fill, type_into


@pytest.fixture
def page(qtbot, setting, strut_job):
    made = TakeInPage(setting)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.arrive(TAKE_IN)
    return made


def offered(page):
    return [line.accessibleName() for line in page.alike.lines if line.isVisible()]


def take_in(qtbot, page):
    with qtbot.waitSignal(page.go):
        page.take_in.click()


def test_the_last_six_of_a_vin_offer_the_vehicle_and_a_key_takes_it(qtbot, page):
    type_into(qtbot, page, "vin", "204117")
    assert offered(page) == ["Varnholt estate, KX-07-ALD, VIN …204117, 2019"]
    page.alike.lines[0].click()
    said = page.answers()
    assert (said["vin"], said["plate"], said["customer"]) == (GOOD_VIN, "KX-07-ALD", "Wilma Harcourt-Dene")
    assert page.alike.isHidden()
    assert page.alike.lines[0].shortcut().toString() == "Alt+1"


def test_a_plate_that_another_vehicle_bears_is_said_and_its_vehicle_offered(qtbot, page, book):
    type_into(qtbot, page, "plate", "kx07ald")
    assert "is on another vehicle, Varnholt estate" in page.vehicle.fields["plate"].said()
    assert len(offered(page)) == 1
    fill(qtbot, page, plate="KX 07 ALD", vin="A09VH2AT2LB310552")
    take_in(qtbot, page)
    assert (vehicle(book, 1).vehicle.plate, vehicle(book, 2).vehicle.plate) == ("", "KX 07 ALD")


def test_a_telephone_or_the_beginning_of_a_name_offers_the_customer(qtbot, page, book, imke):
    type_into(qtbot, page, "phone", "01000555077")
    assert offered(page) == ["Wilma Harcourt-Dene, 01000 555 077, 11 Quay Row"]
    type_into(qtbot, page, "phone", "")
    assert offered(page) == []
    type_into(qtbot, page, "customer", "Wilm")
    page.alike.lines[0].click()
    assert page.answers()["address"] == "11 Quay Row"


def test_another_name_takes_away_the_address_of_the_one_before_and_asks_whose_the_vehicle_is(qtbot, page, book):
    """The owner before must not leave an address or a telephone on the form of the new one."""
    type_into(qtbot, page, "vin", GOOD_VIN)
    type_into(qtbot, page, "customer", "Wenzel Ockham-Ray")
    said = page.answers()
    assert (said["phone"], said["address"], said["email"], said["owner"]) == ("", "", "", "")
    assert "another customer's" in page.customer.fields["owner"].said()
    assert "Wilma" not in page.customer.fields["owner"].said()
    type_into(qtbot, page, "odometer", "128 500")
    type_into(qtbot, page, "concerns", "It is down again.")
    page.take_in.click()
    assert "is needed" in page.customer.fields["owner"].said()
    page.fill_in({"owner": "customer"})
    take_in(qtbot, page)
    assert [one.name for one in ownership.belongings(book, 1).owners] == ["Wenzel Ockham-Ray", "Wilma Harcourt-Dene"]
    assert customer(book, get_job(book, 2).customer_id).customer.address == ""


def test_the_owner_as_before_stays_where_somebody_else_brings_the_vehicle(qtbot, page, book, imke):
    keep_customer(book, imke, Customer(0, "Ulf Neighbour"))
    type_into(qtbot, page, "vin", GOOD_VIN)
    type_into(qtbot, page, "customer", "Ulf Neighbour")
    page.fill_in({"owner": "as before"})
    type_into(qtbot, page, "odometer", "128 500")
    type_into(qtbot, page, "concerns", "It is down again.")
    take_in(qtbot, page)
    assert parties.parties(book, 2).owner == "Wilma Harcourt-Dene"


def test_the_four_people_are_asked_for_where_they_differ(qtbot, page, book):
    fill(qtbot, page)
    assert page.customer.fields["may_authorise"].isHidden()
    page.customer.fields["payer"].set_text("insurer")
    page.customer.fields["payer"].changed.emit()
    assert page.customer.fields["payer_name"].isVisible()
    type_into(qtbot, page, "payer_name", "Harbour Mutual")
    type_into(qtbot, page, "may_authorise", "Petra Lent")
    take_in(qtbot, page)
    told = parties.parties(book, 2)
    assert (told.payer, told.payer_name, told.may_authorise) == ("insurer", "Harbour Mutual", "Petra Lent")


def test_a_reading_that_falls_opens_the_questions_about_the_cluster_once_it_is_typed_to_its_end(qtbot, page, book):
    type_into(qtbot, page, "vin", GOOD_VIN)
    type_into(qtbot, page, "odometer", "305")
    assert page.arrival.fields["reset"].isHidden()
    qtbot.keyClick(page.arrival.fields["odometer"].focusProxy(), Qt.Key.Key_Return)
    assert page.arrival.fields["reset"].isVisible()
    page.fill_in({"reset": "cluster replaced", "old_end": "128 700", "old_unit": "km", "new_start": "5"})
    type_into(qtbot, page, "concerns", "It is down again.")
    take_in(qtbot, page)
    assert odometers.true_words(odometers.distances(book, 1).true, "km").startswith("129\u202f000 km")


def test_an_odometer_that_cannot_be_read_is_a_question_mark_with_its_reason(qtbot, page, book):
    fill(qtbot, page, odometer="?")
    assert "Say in the note why" in page.arrival.fields["odometer"].said()
    page.take_in.click()
    qtbot.waitUntil(lambda: "could not be read" in page.said.text())
    assert len(jobs(book).rows) == 1
    type_into(qtbot, page, "odometer_note", "display dark")
    take_in(qtbot, page)
    assert [one.why for one in odometers.distances(book, 2).unread] == ["display dark"]


def test_where_the_vin_was_seen_is_kept(qtbot, page, book):
    fill(qtbot, page, vin="A09VH2AT2LB310552")
    page.fill_in({"vin_from": "body,paper"})
    take_in(qtbot, page)
    assert vehicle(book, 2).vehicle.vin_from == "body,paper"


def test_somebody_at_a_fleet_who_may_allow_work_is_filled_in_with_the_customer(qtbot, page, book, imke):
    people = (Contact(0, "Runa Holm", "0101", "clerk", may_authorise=True), Contact(0, "Odo Marsh"))
    keep_customer(book, imke, Customer(1, "Wilma Harcourt-Dene", "11 Quay Row", "01000 555 077", fleet=True), people)
    type_into(qtbot, page, "vin", GOOD_VIN)
    assert page.answers()["may_authorise"] == "Runa Holm"
    assert page.customer.fields["may_authorise"].isVisible()
    assert page.customer.fields["may_authorise"].said() == "May allow work: Runa Holm."
    type_into(qtbot, page, "customer", "Somebody Else")
    assert page.answers()["may_authorise"] == ""
