"""What the demonstration book shows beside its jobs: each of it is something that a page would stand empty without."""

import pytest

from jobbook.services.opened import open_book
from jobbook.services.vehicle import customers, ownership
from jobbook.services.vehicle.vehicle_history import charts, history
from jobbook.services.vehicle.vehicles import vehicles
from tests.cli.test_commands import built  # noqa: F401


@pytest.fixture(scope="module")
def shown(built):  # noqa: F811
    book = open_book(built)
    yield book
    book.close()


def vehicle_of(book, plate):
    (found,) = vehicles(book, text=plate).rows
    return found


def test_a_sold_van_and_one_whose_cluster_was_replaced_belong_to_one_fleet_with_its_people(shown):
    (bakery,) = customers.customers(shown, "bakery")
    sheet = customers.customer(shown, bakery.id)
    assert bakery.fleet
    assert {one.vehicle.plate for one in sheet.vehicles} == {"ON-44-DRY", "ON-17-MIL"}
    assert [(one.name, one.may_authorise) for one in sheet.contacts] == [
        ("Greta Holloway", True),
        ("Pim Aldous", False),
    ]
    assert [one.apart for one in sheet.together] == [False]
    sold = ownership.belongings(shown, vehicle_of(shown, "ON-17-MIL").id)
    assert [(one.name, one.until) for one in sold.owners] == [("Quillhaven Bakery", ""), ("Hob Tanning", "2025-05-02")]
    replaced = ownership.belongings(shown, vehicle_of(shown, "ON-44-DRY").id)
    assert replaced.distances.true.km == 97_310 + 12_940


def test_two_visits_of_one_vehicle_draw_heights_and_parked_loss_and_leave_a_part_in_its_term(shown):
    number = vehicle_of(shown, "KX-07-ALD").id
    drawn, told = charts(shown, number), history(shown, number)
    assert (drawn.heights.visits, drawn.losses.visits) == (2, 2)
    (strut,) = told.places
    assert (strut.parts.now.serial, [one.serial for one in strut.parts.before]) == ("7H-20611", ["5C-11873"])
    assert "The strut on the other side (FR)" in [one.what for one in told.declined]
