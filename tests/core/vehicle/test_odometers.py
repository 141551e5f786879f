"""Doubts about an odometer reading. 1 mi = 1.609344 km exactly: international yard and pound agreement of 1959."""

from dataclasses import replace
from fractions import Fraction

import pytest

from jobbook.core.vehicle.odometers import (
    KM_PER_MILE,
    NEVER_KNOWN,
    REPLACED,
    UNIT_CHANGED,
    Distance,
    doubt,
    in_unit,
    kilometres,
    other_unit,
    true_distance,
)
from jobbook.core.vehicle.vehicles import Odometer


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


def history(*readings: Odometer) -> tuple[Odometer, ...]:
    """Readings in their order, as the book gives them: the newest first."""
    return tuple(reversed(readings))


def test_the_distance_of_a_counter_that_never_began_anew_is_its_reading():
    assert true_distance(history(read(100), read(128_410))) == Distance(Fraction(128_410), "exact")
    assert true_distance(()) is None


def test_over_a_replaced_cluster_both_ends_are_added():
    """Arithmetic by hand: 128 500 run on the old one, the new one began at 12, and shows 1 012: 128 500 + 1 000."""
    new = replace(read(1_012), reset=REPLACED, old_end="128500", old_unit="km", new_start="12")
    assert true_distance(history(read(128_410), new)) == Distance(Fraction(129_500), "exact")
    assert true_distance(history(read(128_410), new, read(2_012))) == Distance(Fraction(130_500), "exact")


def test_an_old_cluster_in_miles_is_added_in_kilometres():
    """100 000 mi are 160 934.4 km by the agreement of 1959; 50 km on the new one."""
    new = replace(read(50), reset=REPLACED, old_end="100000", old_unit="mi", new_start="0")
    assert true_distance(history(read(99_000, "mi"), new)) == Distance(Fraction(1_609_844, 10), "exact")


def test_an_end_of_the_old_cluster_that_nobody_knows_makes_the_distance_a_least_one():
    new = replace(read(1_012), reset=REPLACED, new_start="12")
    assert true_distance(history(read(128_410), new)) == Distance(Fraction(129_410), "at least")
    assert true_distance(history(replace(new, new_start=""))) == Distance(Fraction(0), "at least")


def test_a_distance_that_was_never_known_is_told_from_then_on_alone():
    begun = replace(read(40_000), reset=NEVER_KNOWN)
    assert true_distance(history(begun, read(41_500))) == Distance(Fraction(1_500), "unknown")
    replaced = replace(read(10), reset=REPLACED, old_end="41600", old_unit="km", new_start="0")
    assert true_distance(history(begun, read(41_500), replaced)) == Distance(Fraction(1_610), "unknown")


def test_a_counter_set_to_the_other_unit_goes_on():
    """79 790 mi are 128 409.6 km: less than 128 410 km only by rounding."""
    changed = replace(read(79_790, "mi"), reset=UNIT_CHANGED)
    assert doubt(read(128_410), 79_790, "mi") == ""
    assert true_distance(history(read(128_410), changed)) == Distance(79_790 * KM_PER_MILE, "exact")
    assert true_distance(history(read(128_410), read(79_790, "mi"))) == Distance(79_790 * KM_PER_MILE, "exact")


def test_a_fall_that_nobody_explained_leaves_a_least_distance():
    assert true_distance(history(read(128_410), read(9_000))) == Distance(Fraction(128_410), "at least")


def test_a_distance_is_shown_in_whole_units():
    assert (in_unit(Fraction(1_609_344, 1000), "mi"), in_unit(Fraction(5, 2), "km")) == (1000, 3)
    assert (other_unit("km"), other_unit("mi")) == ("mi", "km")
