"""Two that were brought together by mistake are taken apart again: each has what was its own, and both show it."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused
from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.office import desk
from jobbook.services.vehicle import apart, customers, merging, ownership
from jobbook.services.vehicle.vehicles import vehicle, vehicles
from tests.services.two_vehicles import OTHER, audit_is_clean, come
from tests.services.workshop import VEHICLE, VIN


@pytest.fixture
def there(at):
    return at("shop")


def shown(there, number):
    sheet = vehicle(there.book, number)
    plates = [one.plate for one in ownership.belongings(there.book, number).plates if not one.until]
    readings = [one.value for one in sheet.odometers]
    jobs = [row.number for row in sheet.jobs]
    return sheet.vehicle, jobs, readings, plates


def join(there, gone=2, kept=1):
    merging.merge_vehicles(there.book, there.jonas, gone, kept, "the same plate frame")


def part(there, what="vehicle", gone=2):
    apart.take_apart(there.book, there.jonas, what, gone, "two VINs read at two vehicles")


def test_two_vehicles_taken_for_one_are_two_again_with_their_own_visits_readings_plates_and_owners(there):
    come(there)
    come(there, vehicle=OTHER, odometer="61 000")
    before = [shown(there, number) for number in (1, 2)]
    join(there)
    assert shown(there, 2)[0].id == 1
    part(there)
    assert [shown(there, number) for number in (1, 2)] == before
    assert [one.id for one in vehicles(there.book, text=OTHER.vin[-6:]).rows] == [2]
    assert audit_is_clean(there)


def test_what_was_written_since_stays_where_it_was_written(there):
    come(there)
    second = come(there, vehicle=OTHER)
    join(there)
    third = come(there, vehicle=replace(VEHICLE, id=1), odometer="131 000")
    part(there)
    assert (shown(there, 1)[1], shown(there, 2)[1]) == ([third, 1], [second])
    assert desk.get_job(there.book, third).vehicle_id == 1
    assert 131_000 in shown(there, 1)[2]
    assert audit_is_clean(there)


def test_a_plate_that_another_vehicle_bears_by_now_is_not_given_back(there):
    come(there)
    come(there, vehicle=OTHER)
    join(there)
    come(there, vehicle=replace(VEHICLE, vin="", plate=OTHER.plate))
    part(there)
    assert [one.vehicle_id for one in _bearing(there, OTHER.plate)] == [3]
    assert shown(there, 2)[0].plate == ""
    assert audit_is_clean(there)


def _bearing(there, plate):
    with there.book.store.read() as reading:
        return [one for one in reading.vehicles.bearers(plate) if not one.until]


def test_what_only_one_of_them_knew_goes_back_with_it(there):
    come(there, vehicle=replace(VEHICLE, vin="", plate="", year=""))
    come(there, vehicle=VEHICLE)
    join(there)
    part(there)
    one, other = shown(there, 1)[0], shown(there, 2)[0]
    assert (one.vin, one.plate, one.year) == ("", "", "")
    assert (other.vin, other.plate, other.year) == (VIN, "KX-07-ALD", "2019")
    assert audit_is_clean(there)


def test_three_that_were_taken_for_one_come_apart_in_the_order_in_which_they_came_together(there):
    for vin in ("", VIN, OTHER.vin):
        come(there, vehicle=replace(VEHICLE, vin=vin, plate=vin[-3:]))
    join(there, 3, 2)
    join(there, 2, 1)
    with pytest.raises(Refused, match="Take vehicle 2 apart from it first"):
        part(there, gone=3)
    part(there, gone=2)
    assert (shown(there, 3)[0].id, shown(there, 2)[1], shown(there, 1)[1]) == (2, [3, 2], [1])
    assert [one.id for one in vehicles(there.book, text=OTHER.vin[-6:]).rows] == [2]
    part(there, gone=3)
    assert [shown(there, number)[1] for number in (1, 2, 3)] == [[1], [2], [3]]
    assert audit_is_clean(there)


def test_both_numbers_show_the_trace_of_what_was_done_and_why(there):
    come(there)
    come(there, vehicle=OTHER)
    with pytest.raises(Refused, match="stands by itself"):
        part(there)
    join(there)
    assert [one.apart for one in ownership.belongings(there.book, 1).together] == [False]
    with pytest.raises(Refused, match="say how it was found"):
        apart.take_apart(there.book, there.jonas, "vehicle", 2, "  ")
    part(there)
    for number in (1, 2):
        (trace,) = ownership.belongings(there.book, number).together
        told = (trace.gone, trace.kept, trace.who, trace.reason, trace.apart)
        assert told == (2, 1, there.jonas.name, "two VINs read at two vehicles", True)
    join(there)
    assert [one.apart for one in ownership.belongings(there.book, 1).together] == [True, False]
    assert audit_is_clean(there)


def test_two_customers_taken_for_one_are_two_again_with_vehicles_jobs_and_people(there):
    come(there)
    come(there, vehicle=OTHER, customer=Customer(0, "Sunniva Brack", phone="Quillhaven 0311"))
    people = (Contact(0, "Odo Marsh", "0311 44", "driver", True),)
    customers.keep_customer(there.book, there.jonas, Customer(2, "Sunniva Brack", phone="Quillhaven 0311"), people)
    before = [customers.customer(there.book, number) for number in (1, 2)]
    merging.merge_customers(there.book, there.jonas, 2, 1, "thought to be a married name")
    part(there, "customer")
    after = [customers.customer(there.book, number) for number in (1, 2)]
    assert [replace(one, together=()) for one in after] == before
    assert [one.id for one in customers.customers(there.book, "odo")] == [2]
    assert [one.id for one in customers.customers(there.book, "brack")] == [2]
    assert audit_is_clean(there)
