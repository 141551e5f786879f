"""The numbers that another system has given to customers and vehicles come in with a list, are found, and go out."""

import csv
from dataclasses import replace

import pytest

from jobbook.db.audit import audit
from jobbook.services.lists.exporting import export
from jobbook.services.office.finding import find
from jobbook.services.vehicle import apart, customers, merging
from jobbook.services.vehicle.forgetting import forget
from jobbook.services.vehicle.vehicles import keep_vehicle, vehicle
from tests.services.lists.lists_book import taken_in, written

VEHICLES = "Fahrzeugnummer;FIN\nF-7001;A09VH2AT4KB204117\nF-7002;XX0KSTLLE00654321\n"
CUSTOMERS = "Kd-Nr;Name\nK-4711;Jörg Weißenfels\nK-4712;Berit Ångström\n"


@pytest.fixture
def book(there, tmp_path):
    taken_in(there.book, there.imke, "vehicles", written(tmp_path, VEHICLES))
    taken_in(there.book, there.imke, "customers", written(tmp_path, CUSTOMERS))
    return there.book


def found(book, text):
    told = find(book, text)
    return [one.id for one in told.vehicles], [one.id for one in told.customers]


def test_they_come_in_are_found_and_go_out_again(book, there, tmp_path):
    assert (vehicle(book, 1).vehicle.elsewhere, customers.customer(book, 2).customer.elsewhere) == ("F-7001", "K-4712")
    assert (found(book, "f7002"), found(book, "K-4711")) == (([2], []), ([], [1]))
    for kind, numbers in (("vehicles", {"F-7001", "F-7002"}), ("customers", {"K-4711", "K-4712"})):
        export(book, there.imke, kind, out := tmp_path / f"{kind}.csv")
        rows = csv.DictReader(out.read_text(encoding="utf-8-sig").splitlines())
        assert {row["Number elsewhere"] for row in rows} == numbers
    assert audit(book.store).findings == ()


def test_what_is_kept_of_a_customer_or_vehicle_for_another_reason_leaves_it(book, there):
    keep_vehicle(book, there.imke, replace(vehicle(book, 1).vehicle, model="estate"))
    customers.keep_customer(book, there.imke, replace(customers.customer(book, 1).customer, address="Quay 4"))
    assert (found(book, "F-7001"), found(book, "K-4711")) == (([1], []), ([], [1]))
    keep_vehicle(book, there.imke, replace(vehicle(book, 1).vehicle, elsewhere="F-9"))
    assert (found(book, "F-7001"), found(book, "F-9")) == (([], []), ([1], []))


def test_they_follow_into_a_merge_and_back_out_of_it(book, there):
    for what, merge in (("vehicle", merging.merge_vehicles), ("customer", merging.merge_customers)):
        merge(book, there.imke, 2, 1, "taken for one")
        assert (found(book, "F-7002")[0], found(book, "K-4712")[1]) in (([1], [2]), ([2], [1]))
        apart.take_apart(book, there.imke, what, 2, "they are two")
        assert (found(book, "F-7002"), found(book, "K-4712")) == (([2], []), ([], [2]))
    assert audit(book.store).findings == ()


def test_a_customer_who_is_forgotten_is_found_by_it_no_longer(book, there):
    forget(book, there.imke, 1, "asked for it")
    assert found(book, "K-4711") == ([], [])
    assert customers.customer(book, 1).customer.elsewhere is None
    assert audit(book.store).findings == ()
