"""Doubts about an odometer reading. 1 mi = 1.609344 km exactly: international yard and pound agreement of 1959."""

import pytest

from jobbook.core.odometers import doubt, kilometres
from jobbook.core.vehicles import Odometer


def read(value: int, unit: str = "km") -> Odometer:
    return Odometer(value, unit, "in", "2026-11-25T08:00:00+01:00")


def test_a_first_reading_and_one_that_grew_as_usual_raise_no_doubt():
    assert doubt(None, 10, "km") == doubt(read(128_410), 128_410, "km") == doubt(read(128_410), 140_000, "km") == ""


def test_a_mile_is_taken_exactly():
    assert kilometres(1_000_000, "mi") == 1_609_344


def test_a_reading_that_falls_is_asked_about():
    assert "typing slip" in doubt(read(128_410), 12_841, "km")


def test_a_falling_reading_that_fits_in_miles_names_the_miles():
    assert "in mi it fits" in doubt(read(128_410), 80_000, "km")


def test_the_same_distance_in_the_other_unit_raises_no_doubt():
    assert doubt(read(160_934), 100_000, "mi") == ""


@pytest.mark.parametrize("value", [160_934, 158_000])
def test_a_jump_of_one_and_six_tenths_names_the_units(value: int):
    assert "miles and kilometres mixed up" in doubt(read(100_000), value, "km")


def test_a_jump_of_another_size_is_no_jump_between_units():
    assert doubt(read(100_000), 150_000, "km") == doubt(read(100_000), 180_000, "km") == ""


def test_a_young_vehicle_may_have_run_that_far():
    assert doubt(read(1_000), 1_610, "km") == ""
