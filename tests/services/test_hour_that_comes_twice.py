"""Two visits in the hour that comes twice, when clocks are set back: 31 October 2027 in the European Union."""

from dataclasses import replace
from datetime import datetime

import pytest

from jobbook.core.days import in_time
from jobbook.services.jobs import jobs
from jobbook.services.vehicle.vehicles import vehicle
from tests.services.two_vehicles import come
from tests.services.workshop import VEHICLE


@pytest.fixture
def two_visits(at):
    there = at("shop")
    there.clock.now = datetime.fromisoformat("2027-10-31T02:50:00+02:00")
    come(there, odometer="61 000")
    there.clock.now = datetime.fromisoformat("2027-10-31T02:10:00+01:00")
    come(there, vehicle=replace(VEHICLE, id=1), odometer="61 030")
    return there


def test_the_later_visit_and_the_later_reading_stand_first(two_visits):
    sheet = vehicle(two_visits.book, 1)
    assert [row.number for row in jobs(two_visits.book).rows] == [row.number for row in sheet.jobs] == [2, 1]
    assert [one.value for one in sheet.odometers] == [61_030, 61_000]
    assert [in_time(row.opened_at).hour for row in sheet.jobs] == [1, 0]


def test_pages_meet_both_once(two_visits):
    first = jobs(two_visits.book, limit=1)
    second = jobs(two_visits.book, after=first.next, limit=1)
    assert sorted(row.number for row in (*first.rows, *second.rows)) == [1, 2]
