"""Vehicles and customers that stand in the book twice are found while typing, and brought together with a trace."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.core.vehicle.ownership import Contact, Modification
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.office import desk
from jobbook.services.vehicle import customers, merging, modifications, ownership
from jobbook.services.vehicle.vehicles import keep_vehicle, vehicle, vehicles
from tests.services.two_vehicles import OTHER, WRONG_VIN, audit_is_clean, both, come
from tests.services.workshop import VEHICLE, VIN


@pytest.fixture
def there(at):
    return at("shop")


def test_a_vehicle_taken_in_twice_is_found_by_its_vins_end_and_its_plate_while_typing(there):
    both(there)
    assert [one.id for one in merging.vehicles_alike(there.book, "204117", "")] == [1]
    assert [one.id for one in merging.vehicles_alike(there.book, "XX9VH2AT4KB204117", "")] == [1]
    assert [one.id for one in merging.vehicles_alike(there.book, "", "mr 52 ten")] == [2]
    assert merging.vehicles_alike(there.book, "4117", "ZZ") == merging.vehicles_alike(there.book, VIN, "", 1) == ()


def test_two_numbers_of_one_vehicle_come_together_and_nothing_is_lost(there):
    """A VIN was mistyped at the second visit: one vehicle stood in the book twice."""
    first = come(there)
    second = come(there, vehicle=replace(VEHICLE, vin=WRONG_VIN, plate="", year="2019"), odometer="129 000")
    note = Modification("other tyres", "all", "not known", job=second)
    modifications.add_modification(there.book, there.bram, 2, note)
    said = merging.look_at_vehicles(there.book, 2, 1).warnings
    assert "The VINs differ" in said[0]
    assert "can be taken apart again" in said[-1]
    with pytest.raises(Refused, match="say how it was found"):
        merging.merge_vehicles(there.book, there.jonas, 2, 1, "")
    kept = merging.merge_vehicles(there.book, there.jonas, 2, 1, "VIN read again at the vehicle")
    sheet = vehicle(there.book, 2)
    assert (kept.id, sheet.vehicle.id, sheet.vehicle.vin, sheet.vehicle.plate) == (1, 1, VIN, "KX-07-ALD")
    assert [row.number for row in sheet.jobs] == [second, first]
    assert [one.value for one in sheet.odometers] == [129_000, 128_410]
    assert ownership.belongings(there.book, 1).merged == (2,)
    assert [one.what for one in ownership.belongings(there.book, 1).modifications] == ["other tyres"]
    assert [one.id for one in vehicles(there.book, text=WRONG_VIN[-6:]).rows] == [1]
    assert desk.get_job(there.book, second).vehicle_id == 1
    with pytest.raises(Refused, match="the same vehicle already"):
        merging.merge_vehicles(there.book, there.jonas, 2, 1, "again")
    with pytest.raises(Conflict, match="vehicle 2 was found to be vehicle 1"):
        keep_vehicle(there.book, there.jonas, replace(VEHICLE, id=2, vin=WRONG_VIN))
    assert desk.get_job(there.book, come(there, vehicle=OTHER)).vehicle_id == 3
    assert audit_is_clean(there)


def test_what_only_the_number_that_goes_knew_is_kept_with_the_one_that_stays(there):
    come(there, vehicle=replace(VEHICLE, vin="", plate="", year=""))
    come(there, vehicle=VEHICLE)
    kept = merging.merge_vehicles(there.book, there.jonas, 2, 1, "one vehicle, taken in without its VIN first")
    assert (kept.vin, kept.plate, kept.year) == (VIN, "KX-07-ALD", "2019")
    assert [one.plate for one in ownership.belongings(there.book, 1).plates] == ["KX-07-ALD"]
    assert audit_is_clean(there)


def test_two_numbers_of_one_customer_come_together_with_their_vehicles_jobs_and_people(there):
    both(there)
    fleet = customers.keep_customer(
        there.book, there.jonas, Customer(2, "Sunniva Brack", phone="Quillhaven 0311", fleet=True), ()
    )
    assert [one.id for one in customers.alike(there.book, "", "quillhaven0311")] == [fleet.id]
    assert [one.id for one in customers.alike(there.book, "sunn", "", besides=1)] == [fleet.id]
    with pytest.raises(Refused, match="say how it was found"):
        merging.merge_customers(there.book, there.jonas, 2, 1, " ")
    merging.merge_customers(there.book, there.jonas, 2, 1, "married, same address")
    sheet = customers.customer(there.book, 2)
    assert (sheet.customer.id, sheet.merged, len(sheet.jobs)) == (1, (2,), 2)
    assert {one.vehicle.id for one in sheet.vehicles} == {1, 2}
    assert [one.id for one in customers.customers(there.book, "brack")] == [1]
    with pytest.raises(Refused, match="the same customer already"):
        merging.merge_customers(there.book, there.jonas, 2, 1, "again")
    with pytest.raises(Conflict, match="merged meanwhile"):
        customers.keep_customer(there.book, there.jonas, Customer(2, "Sunniva Brack"))
    with pytest.raises(NotFound):
        customers.customer(there.book, 77)
    assert audit_is_clean(there)


def test_a_vehicle_is_meant_by_its_number_its_vins_end_or_its_plate_and_by_nothing_unclear(there):
    both(there)
    for typed in ("2", "310552", "mr52ten"):
        assert merging.vehicle_meant(there.book, typed, besides=1).id == 2
    with pytest.raises(Refused, match="no other vehicle is meant"):
        merging.vehicle_meant(there.book, "ZZ-77")
    with pytest.raises(NotFound):
        merging.vehicle_meant(there.book, "99")
    ownership.new_plate(there.book, there.jonas, 1, "MR-52-TEN")
    with pytest.raises(Refused, match=r"several vehicles are meant: .*Write the number"):
        merging.vehicle_meant(there.book, "MR 52 TEN")


def test_what_a_customer_needs_is_asked_for_and_who_is_already_there_is_found(there):
    both(there)
    with pytest.raises(Refused, match="a customer needs a name"):
        customers.keep_customer(there.book, there.jonas, Customer(1, " "))
    with pytest.raises(Refused, match="somebody to speak to needs a name"):
        customers.keep_customer(there.book, there.jonas, Customer(1, "Ansel Harrow"), (Contact(0, ""),))
    page = customers.customer_page(there.book, limit=1)
    assert [[one.id for one in page.rows], page.next] == [[2], 2]
    found = customers.alike(there.book, "Ansel Harrow", "")
    assert customers.exactly(found, " ansel harrow ").id == 1
    assert customers.exactly(found, "") is None
