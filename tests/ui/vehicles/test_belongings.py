"""Plates, owners, modifications and the other number of a vehicle, on its page and against a real book."""

import pytest

from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.office.intake import Arrival, take_in
from jobbook.services.papers.leaving import issue
from jobbook.services.vehicle.vehicles import vehicle
from jobbook.ui.places import a_customer, a_job, a_vehicle
from jobbook.ui.vehicles import belongings
from jobbook.ui.vehicles.blocks import BlocksView
from jobbook.ui.vehicles.vehicle_page import VehiclePage

OTHER = Vehicle(0, "A09VH2AT2LB310552", "MR-52-TEN", "Varnholt", "estate")


@pytest.fixture
def view(qtbot, at_once, strut_job):
    made = BlocksView(at_once, belongings)
    qtbot.addWidget(made)
    made.open(1)
    return made


@pytest.fixture
def second(book, imke):
    take_in(book, imke, Arrival(OTHER, Customer(0, "Sunniva Brack", "", "01000 555 300"), "9 000", ("It hisses.",)))
    return 2


def blocks(book, number=1):
    return {block.title: block for block in belongings.show(book, number).blocks}


def deeds(block):
    return {deed.key: deed for deed in (*block.deeds, *(deed for line in block.lines for deed in line.deeds))}


def do(view, book, title, key, **given):
    asked = deeds(blocks(book, view._number)[title])[key]
    answers = {ask.name: ask.value for ask in asked.asks} | given
    view.tab.done.emit(asked, answers)


def lines(book, title, number=1):
    return [(line.words, line.beside) for line in blocks(book, number)[title].lines]


def test_a_plate_is_moved_and_put_right_again(view, book, second):
    said = deeds(blocks(book)["Plates"])["plate"].live
    assert "is on another vehicle" in said({"plate": "mr52ten"})
    assert said({"plate": ""}) == ""
    do(view, book, "Plates", "plate", plate="MR-52-TEN")
    assert vehicle(book, 2).vehicle.plate == ""
    do(view, book, "Plates", "plate wrong", plate="KX-07-ALD", reason="the other vehicle")
    assert vehicle(book, 2).vehicle.plate == "MR-52-TEN"
    assert [words for words, _ in lines(book, "Plates")] == ["KX-07-ALD"]


def test_a_sale_names_the_new_owner_and_the_one_before_no_more(view, book, second):
    known = deeds(blocks(book)["Owners"])["sold"].live
    assert "A customer of the shop already: Sunniva Brack" in known({"name": "sunniva brack", "phone": ""})
    assert "Perhaps known already: Sunniva Brack" in known({"name": "Sunni", "phone": ""})
    assert known({"name": "Nobody Here", "phone": ""}) == ""
    do(view, book, "Owners", "sold", name="Sunniva Brack")
    told = lines(book, "Owners")
    assert [words for words, _ in told] == ["Sunniva Brack", "An earlier owner"]
    assert vehicle(book, 1).customer.id == 2
    do(view, book, "Owners", "owner wrong", name="Wilma Harcourt-Dene", reason="the other estate was sold")
    assert [words for words, _ in lines(book, "Owners")] == ["Wilma Harcourt-Dene"]


def test_a_refusal_is_said_in_place_and_nothing_is_kept(qtbot, view, book):
    view.tab.show()
    do(view, book, "Plates", "plate", plate="ZZ-1", since="2999-01-01")
    assert "lies ahead" in view.tab._refusal.text()
    assert [words for words, _ in lines(book, "Plates")] == ["KX-07-ALD"]


def test_a_modification_is_written_down_and_taken_back(view, book):
    told = {"what": "lowering links", "where": "front", "effect": "25 mm lower", "changed_by": "elsewhere"}
    assert "no longer the maker's" in deeds(blocks(book)["Changed by others"])["modification"].live(told)
    do(view, book, "Changed by others", "modification", **told)
    ((words, beside),) = lines(book, "Changed by others")
    assert (words, beside.startswith("25 mm lower · by elsewhere · found ")) == ("lowering links, front", True)
    do(view, book, "Changed by others", "gone")
    assert lines(book, "Changed by others")[0][1].startswith("taken back")


def test_two_numbers_of_one_vehicle_are_brought_together_after_both_were_shown(view, book, second):
    both = deeds(blocks(book)["Identity"])["merge"].live
    assert both({"other": ""}) == ""
    assert "No other vehicle is meant" in both({"other": "ZZ-77"})
    told = both({"other": "310552"})
    assert told.startswith("Vehicle 2, Varnholt estate, A09VH2AT2LB310552, MR-52-TEN.")
    assert "The VINs differ" in told
    assert "can be taken apart again" in told
    do(view, book, "Identity", "merge", other="2", reason="seen at the vehicle")
    ((words, beside),) = lines(book, "Identity")
    assert words == "Vehicle 2 was found to be this one"
    assert beside.endswith(" · seen at the vehicle")
    assert len(vehicle(book, 1).jobs) == 2
    do(view, book, "Identity", "apart", reason="two VINs read")
    ((words, beside),) = lines(book, "Identity")
    assert words == "Vehicle 2 was taken for this one; they are two"
    assert beside.endswith(" · two VINs read")
    assert [len(vehicle(book, number).jobs) for number in (1, 2)] == [1, 1]


def test_a_wrong_vin_lists_the_papers_that_left_with_it(qtbot, view, book, imke):
    issue(book, imke, 1, "handover")
    with qtbot.waitSignal(view.kept) as kept:
        do(view, book, "Identity", "vin wrong", vin="A09VH2AT2LB310552", reason="misread")
    assert kept.args == ["1 papers left with the wrong VIN; they stand under Identity."]
    ((words, _),) = lines(book, "Identity")
    assert words == "The handover of job 1, version 1, left with another VIN"


def test_a_reading_is_corrected_from_the_vehicle_too(view, book):
    do(view, book, "Odometer", "odometer wrong", value="128 401", reason="digits swapped")
    assert lines(book, "Odometer")[0][0] == "128\u202f401 km (79\u202f785 mi)"


def test_a_line_leads_to_the_customer_or_the_job(qtbot, view, book, imke):
    with qtbot.waitSignal(view.go) as went:
        do(view, book, "Owners", "customer")
    assert went.args == [a_customer(1)]
    issue(book, imke, 1, "handover")
    do(view, book, "Identity", "vin wrong", vin="A09VH2AT2LB310552", reason="misread")
    with qtbot.waitSignal(view.go) as went:
        do(view, book, "Identity", "job")
    assert went.args == [a_job(1)]


def test_nobody_on_duty_changes_nothing(qtbot, view, book, duty):
    view.tab.show()
    duty.lock()
    do(view, book, "Plates", "plate", plate="ZZ-1")
    assert "Nobody is on duty" in view.tab._refusal.text()


def test_the_page_of_a_vehicle_turns_to_its_plates_and_owners(qtbot, setting, strut_job, book):
    page = VehiclePage(setting)
    qtbot.addWidget(page)
    page.arrive(a_vehicle(1))
    assert page.belongings._number == 1
    asked = deeds(blocks(book)["Plates"])["plate"]
    with qtbot.waitSignal(page.belongings.kept):
        page.belongings.tab.done.emit(asked, {"plate": "ZZ-12", "since": ""})
    assert page.plate.text() == "ZZ-12"


def test_a_plate_typed_into_the_vehicles_facts_says_what_it_means(qtbot, at_once, strut_job, second, book):
    page = VehiclePage(at_once)
    qtbot.addWidget(page)
    page.arrive(a_vehicle(1))
    page.form.show_answers({"plate": "MR52TEN"})
    page.form.changed.emit("plate")
    said = page.form.fields["plate"].said()
    assert "is on another vehicle" in said
    assert "holds from today on" in said
    page.form.show_answers({"plate": "KX-07-ALD"})
    page.form.changed.emit("plate")
    assert page.form.fields["plate"].said() == ""


def test_a_vin_changed_in_passing_is_refused_and_the_way_is_named(qtbot, at_once, strut_job):
    page = VehiclePage(at_once)
    qtbot.addWidget(page)
    page.arrive(a_vehicle(1))
    page.form.show_answers({"vin": "A09VH2AT2LB310552"})
    page.keep.click()
    assert "VIN typed wrong" in page.said.text()
