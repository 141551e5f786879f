"""Limits as people write them; a reading on the limit is inside. The figures are made up for the arithmetic."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.measured.bounds import INSIDE, OUTSIDE, judged, read_bounds
from jobbook.core.quantities import read_quantity


@pytest.mark.parametrize(
    ("limit", "kind", "unit", "inside", "outside"),
    [
        ("at most 120 s", "time", "s", ("120 s", "2 min", "0 s"), ("120.1 s", "2.1 min")),
        ("≤ 120", "time", "s", ("120 s",), ("121 s",)),
        ("at least 12 V", "voltage", "V", ("12 V", "12000 mV"), ("11.99 V",)),
        ("15 to 16 bar", "pressure", "bar", ("15 bar", "16 bar", "1.55 MPa"), ("14.9 bar", "16.1 bar")),
        ("between 0.5 and 4.5 V", "voltage", "V", ("0.5 V", "4500 mV"), ("0.49 V", "4.51 V")),
        ("15 ± 1 bar", "pressure", "bar", ("14 bar", "16 bar"), ("13.9 bar", "16.1 bar")),
        ("2.5 V ± 10 %", "voltage", "V", ("2.25 V", "2.75 V"), ("2.24 V", "2.76 V")),
        ("-10 to 40 °C", "temperature", "degC", ("−10 °C", "40 °C", "41 °F"), ("−11 °C", "110 °F")),
    ],
)
def test_a_limit_is_read_as_it_is_written_and_belongs_to_the_inside(limit, kind, unit, inside, outside):
    bounds = read_bounds(limit, kind, unit)
    assert {judged(read_quantity(text, kind), bounds) for text in inside} == {INSIDE}
    assert {judged(read_quantity(text, kind), bounds) for text in outside} == {OUTSIDE}


@pytest.mark.parametrize(
    ("limit", "said"),
    [
        ("120 s", "says no side"),
        ("16 to 15 bar", "upside down"),
        ("15 ± -1 bar", "below nought"),
        ("at most 12 mm", "is a length"),
        ("at most soon", "number"),
    ],
)
def test_a_limit_that_cannot_be_read_for_certain_is_refused(limit, said):
    with pytest.raises(Refused, match=said):
        read_bounds(limit, "pressure", "bar")


def test_a_tolerance_of_a_temperature_is_refused_because_a_difference_has_no_zero_point():
    with pytest.raises(Refused, match="15 to 25"):
        read_bounds("20 ± 5 °C", "temperature", "degC")
