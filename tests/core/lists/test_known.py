"""A row finds the customer, vehicle or part that it means, or says that it cannot."""

import pytest

from jobbook.core.lists.columns import CUSTOMERS, PARTS, VEHICLES
from jobbook.core.lists.known import CHANGED, NEW, SAME, Known, decide
from jobbook.core.vehicle.parts import KnownPart
from jobbook.core.vehicle.vehicles import Customer, Vehicle

VIN, OTHER_VIN = "A09VH2AT4KB204117", "A09VH2AT4KB204118"
WEBER = Customer(1, "Ottilie Weber", "Quay 4\nQuillhaven", "0700 12", "ow@example.org")
ESTATE = Vehicle(1, VIN, "KX-07-ALD", "Varnholt", "estate", "2019", customer_id=1)


def known(*records):
    made = Known()
    for record in records:
        made.learn(record)
    return made


def decided(kind, facts, *records):
    return decide(known(*records), kind, facts)


@pytest.mark.parametrize(
    ("facts", "what"),
    [
        ({"name": "OTTILIE WEBER", "phone": "0700-12"}, CHANGED),
        ({"name": "Ottilie Weber", "phone": "0700 12"}, SAME),
        ({"name": "Ottilie Weber"}, SAME),
        ({"name": "Ottilie Weber", "address": "Quay 4 Quillhaven"}, SAME),
        ({"name": "Ottilie Weber", "phone": "0700 13"}, NEW),
        ({"name": "Ottilie Weber", "email": "x@example.org"}, NEW),
        ({"name": "Ottilie Weber", "address": "Other Row 1"}, NEW),
        ({"name": "Ottilie Weber", "phone": "0700 12", "address": "Other Row 1"}, CHANGED),
        ({"name": "Ottilie Webber", "phone": "0700 12"}, NEW),
        ({"number_here": "1", "name": "Ottilie Weber", "phone": "0711"}, CHANGED),
    ],
)
def test_a_customer_is_known_by_name_and_by_what_does_not_contradict(facts, what):
    assert decided(CUSTOMERS, facts, WEBER).what == what


def test_a_name_that_several_have_is_not_guessed_at():
    other = Customer(2, "Ottilie Weber", phone="0711")
    with pytest.raises(ValueError, match=r"several customers of that name could be meant \(1, 2\)"):
        decided(CUSTOMERS, {"name": "Ottilie Weber"}, WEBER, other)
    assert decided(CUSTOMERS, {"name": "Ottilie Weber", "phone": "0711"}, WEBER, other).record.id == 2


@pytest.mark.parametrize("facts", [{"number_here": "1", "name": "Somebody Else"}, {"number_here": "9", "name": "X"}])
def test_a_number_that_means_somebody_else_here_stops_the_row(facts):
    with pytest.raises(ValueError, match="in this book"):
        decided(CUSTOMERS, facts, WEBER)


def test_an_empty_cell_empties_nothing():
    decision = decided(VEHICLES, {"vin": VIN, "model": "estate L"}, WEBER, ESTATE)
    assert decision.what == CHANGED
    assert (decision.record.plate, decision.record.year, decision.record.customer_id) == ("KX-07-ALD", "2019", 1)


@pytest.mark.parametrize(
    ("facts", "what"),
    [
        ({"vin": VIN, "plate": "KX-07-ALD"}, SAME),
        ({"plate": "KX-07-ALD"}, SAME),
        ({"plate": "kx07ald"}, CHANGED),
        ({"vin": OTHER_VIN, "plate": "ZZ-1"}, NEW),
        ({"number_here": "1", "vin": VIN}, SAME),
    ],
)
def test_a_vehicle_is_known_by_its_vin_or_by_its_plate(facts, what):
    assert decided(VEHICLES, facts, WEBER, ESTATE).what == what


def test_a_vehicle_kept_without_vin_is_given_the_one_of_its_plate():
    decision = decided(VEHICLES, {"vin": VIN, "plate": "ML-1"}, Vehicle(4, "", "ML-1"))
    assert (decision.what, decision.record.id, decision.record.vin) == (CHANGED, 4, VIN)


def test_a_plate_of_another_vehicle_moves_and_that_is_said():
    there = known(WEBER, ESTATE)
    decision = decide(there, VEHICLES, {"vin": OTHER_VIN, "plate": "KX-07-ALD"})
    assert (decision.what, decision.note) == (NEW, f"the plate KX-07-ALD moves here from Varnholt estate, {VIN}")
    there.learn(Vehicle(2, OTHER_VIN, "KX-07-ALD"))
    assert there.vehicle("1").plate == ""


def test_another_vehicles_number_stops_the_row():
    with pytest.raises(ValueError, match="another vehicle in this book"):
        decided(VEHICLES, {"number_here": "1", "vin": OTHER_VIN}, ESTATE)
    with pytest.raises(ValueError, match="no vehicle 7 in this book"):
        decided(VEHICLES, {"number_here": "7", "vin": OTHER_VIN}, ESTATE)


def test_an_owner_is_found_by_name_and_telephone_or_is_a_new_one():
    facts = {"vin": OTHER_VIN, "owner": "Ottilie Weber", "owner_phone": "0700 12"}
    assert decided(VEHICLES, facts, WEBER).record.customer_id == 1
    decision = decided(VEHICLES, facts | {"owner_phone": "0711"}, WEBER)
    assert (decision.what, decision.owner) == (NEW, Customer(0, "Ottilie Weber", "", "0711"))
    assert decided(VEHICLES, {"vin": VIN, "owner": "Anselm Marsh"}, WEBER, ESTATE).what == CHANGED
    assert decided(VEHICLES, {"vin": VIN, "owner_here": "1"}, WEBER, ESTATE).what == SAME


def test_a_part_is_known_by_its_number_whatever_its_separators():
    strut = KnownPart(3, "AS-44.201", "Air strut", warranty_months="24")
    assert decided(PARTS, {"number": "as 44 201", "title": "Air strut"}, strut).record.warranty_months == "24"
    assert decided(PARTS, {"number": "AS-44.201", "title": "Air strut"}, strut).what == SAME
    assert decided(PARTS, {"number": "AS-44.202", "title": "Air strut"}, strut).what == NEW


def test_what_is_learnt_anew_is_no_longer_found_by_what_it_was():
    there = known(ESTATE, Vehicle(1, VIN, "ZZ-9"))
    assert there.vehicles("plate", "KX-07-ALD") == []
    assert [one.id for one in there.vehicles("plate", "zz9")] == [1]


def test_of_thousands_who_share_a_name_only_those_are_looked_at_whom_the_telephone_does_not_rule_out():
    phones = {number: f"0700 {number:04}" if number > 3 else "" for number in range(1, 2001)}
    cabs = known(*(Customer(number, "Quillhaven Cabs", phone=phone) for number, phone in phones.items()))
    assert {one.id for one in cabs.customers({"name": "quillhaven cabs", "phone": "07000007"})} == {1, 2, 3, 7}
    assert {one.id for one in cabs.customers({"name": "Quillhaven Cabs", "phone": "0700 9999"})} == {1, 2, 3}
    assert len(list(cabs.customers({"name": "Quillhaven Cabs"}))) == 2000
    with pytest.raises(ValueError, match=r"could be meant \(1, 2, 3, 4\); add the telephone"):
        decide(cabs, CUSTOMERS, {"name": "Quillhaven Cabs"})


@pytest.mark.parametrize(
    ("row", "meant"),
    [
        ({"phone": "0700-0001", "email": "c@mail.example"}, 1),
        ({"email": "B@mail.example"}, 2),
        ({"phone": "0700 0009", "email": "b@mail.example"}, 2),
        ({"phone": "0700 0009", "email": "c@mail.example"}, 0),
    ],
)
def test_the_telephone_decides_then_the_mail(row, meant):
    one = Customer(1, "Tobin Arkwell", phone="0700 0001", email="a@mail.example")
    other = Customer(2, "Tobin Arkwell", email="b@mail.example")
    assert decided(CUSTOMERS, {"name": "Tobin Arkwell", **row}, one, other).record.id == meant
