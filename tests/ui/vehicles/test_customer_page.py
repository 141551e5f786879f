"""A customer's page and the list of customers, against a real book."""

import json

import pytest

from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.vehicle.customers import customer, keep_customer
from jobbook.ui.places import CUSTOMERS, VEHICLES, Place, a_customer, a_job, a_vehicle
from jobbook.ui.vehicles import customer_blocks
from jobbook.ui.vehicles.customer_page import CustomerPage
from jobbook.ui.vehicles.customers_page import CustomersPage
from jobbook.ui.vehicles.page import VehiclesPage
from tests.ui.vehicles.test_belongings import deeds


@pytest.fixture
def page(qtbot, at_once, strut_job):
    made = CustomerPage(at_once)
    qtbot.addWidget(made)
    made.show()
    made.arrive(a_customer(1))
    return made


def blocks(book, number=1):
    return {block.title: block for block in customer_blocks.show(book, number).blocks}


def do(page, book, title, key, **given):
    asked = deeds(blocks(book)[title])[key]
    page.blocks.tab.done.emit(asked, {ask.name: ask.value for ask in asked.asks} | given)


def test_a_customers_data_are_shown_and_kept(page, book):
    assert (page.title.text(), page.beside.text()) == ("Wilma Harcourt-Dene", "one vehicle, one job")
    page.form.show_answers({"phone": "01000 555 099", "fleet": "yes"})
    page.keep.click()
    there = customer(book, 1).customer
    assert (there.phone, there.fleet, there.address) == ("01000 555 099", True, "11 Quay Row")
    assert page.said.text() == "Kept."


def test_what_is_refused_is_said_and_what_was_typed_stays(page, duty):
    page.form.show_answers({"name": "Wilma H."})
    duty.lock()
    page.keep.click()
    assert page.said.text().startswith("Nobody is on duty")
    assert page.form.answers()["name"] == "Wilma H."


def test_people_to_speak_to_come_and_go(page, book):
    do(page, book, "People to speak to", "person", name="Runa Holm", phone="0101", role="clerk", may="yes")
    do(page, book, "People to speak to", "person", name="Odo Marsh")
    told = [(one.name, one.role, one.may_authorise) for one in customer(book, 1).contacts]
    assert told == [("Runa Holm", "clerk", True), ("Odo Marsh", "", False)]
    do(page, book, "People to speak to", "person gone")
    assert len(customer(book, 1).contacts) == 1


def test_the_lines_lead_to_vehicle_and_job(qtbot, page, book):
    for title, key, place in (("Vehicles", "vehicle", a_vehicle(1)), ("Jobs, the newest first", "job", a_job(1))):
        with qtbot.waitSignal(page.go) as went:
            do(page, book, title, key)
        assert went.args == [place]


def test_a_copy_of_their_data_is_written_as_a_file_and_never_over_another(page, book, tmp_path):
    for _ in range(2):
        do(page, book, "Their data", "copy", folder=str(tmp_path))
    files = sorted(file for file in tmp_path.glob("customer-1-*.json"))
    assert len(files) == 2
    assert json.loads(files[0].read_bytes())["customer"]["name"] == "Wilma Harcourt-Dene"
    assert page.said.text().startswith("Written: ")
    do(page, book, "Their data", "copy", folder=str(tmp_path / "not there"))
    assert "is no folder" in page.blocks.tab._refusal.text()


def test_forgetting_waits_for_an_open_job_and_says_until_when(page, book):
    do(page, book, "Their data", "forget", reason="asked for")
    assert page.said.text().startswith("Not erased yet: job 1 is open. It is looked at again on ")
    assert "cannot be brought back" in deeds(blocks(book)["Their data"])["forget"].caution


def test_a_customer_without_a_job_is_forgotten_and_shown_as_erased(page, book, imke):
    other = keep_customer(book, imke, Customer(0, "Sunniva Brack", phone="01000 555 300"))
    page.arrive(a_customer(other.id))
    asked = deeds(blocks(book, other.id)["Their data"])["forget"]
    page.blocks.tab.done.emit(asked, {"reason": "asked for"})
    assert (page.title.text(), page.said.text()) == ("(erased)", "2 values were erased.")


def test_two_numbers_of_one_customer_are_brought_together_after_the_other_was_shown(page, book, imke):
    keep_customer(book, imke, Customer(0, "W. Harcourt", phone="01000 555 301"))
    both = deeds(blocks(book)["Their data"])["merge"].live
    assert both({"other": ""}) == ""
    assert "No other customer is meant" in both({"other": "Nobody"})
    assert both({"other": "01000555301"}).startswith("Customer 2: W. Harcourt, 01000 555 301.")
    assert both({"other": "2"}) == both({"other": "W. Harcourt"})
    assert "no customer 77" in both({"other": "77"})
    do(page, book, "Their data", "merge", other="W. Harcourt", reason="same person")
    assert [line.words for line in blocks(book)["Their data"].lines] == ["Customer 2 was found to be this one"]
    do(page, book, "Their data", "apart", reason="two people")
    assert [line.words for line in blocks(book)["Their data"].lines] == [
        "Customer 2 was taken for this one; they are two"
    ]


def test_what_happens_meanwhile_is_shown_and_what_is_typed_stays(page, book, imke):
    page.form.show_answers({"address": "12 Quay Row"})
    do(page, book, "People to speak to", "person", name="Runa Holm")
    page.refresh({"customer/1"})
    assert "Runa Holm" in [line.words for line in blocks(book)["People to speak to"].lines]


def test_the_list_of_customers_is_reached_from_the_vehicles_and_found_in(
    qtbot, at_once, setting, strut_job, book, imke
):
    keep_customer(book, imke, Customer(0, "Sunniva Brack", phone="01000 555 300"))
    vehicles = VehiclesPage(at_once)
    qtbot.addWidget(vehicles)
    with qtbot.waitSignal(vehicles.go) as went:
        vehicles.list.other.click()
    assert went.args == [Place(VEHICLES, CUSTOMERS)]
    page = CustomersPage(at_once)
    qtbot.addWidget(page)
    page.arrive(Place(VEHICLES, CUSTOMERS))
    assert page.list.model.rowCount() == 2
    page.list.asked.emit("01000555300", "")
    assert page.list.model.rowCount() == 1
    with qtbot.waitSignal(page.go) as went:
        page.list.opened.emit(page.list.model.record(0))
    assert went.args == [a_customer(2)]
    page.refresh({"customer/1"})
    assert page.list.model.rowCount() == 1
