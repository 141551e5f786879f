"""Whole numbers as they are typed."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.quantities.whole import whole_number
from jobbook.core.vehicle.warranty import read_term


@pytest.mark.parametrize(("typed", "number"), [("12", 12), (" 7 ", 7), ("007", 7), ("0", 0), ("1000000000", 10**9)])
def test_plain_digits_are_a_number(typed: str, number: int) -> None:
    assert whole_number(typed) == number


@pytest.mark.parametrize("typed", ["", " ", "²", "٣", "-1", "+1", "1.0", "1 000", "ten", "1000000001", "9" * 5000])
def test_everything_else_is_none(typed: str) -> None:
    assert whole_number(typed) is None


def test_a_number_outside_its_bounds_is_none() -> None:
    assert [whole_number(typed, most=40, least=1) for typed in ("0", "1", "40", "41")] == [None, 1, 40, None]


def test_months_of_a_warranty_are_held_to_their_bound_behind_noughts() -> None:
    with pytest.raises(Refused, match="is none"):
        read_term("000240000", "", "", "km")
