"""Nasty case 77 of the trade notes: a scan twice in a moment, and a scanner that is set to another keyboard."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.quantities import read_quantity
from jobbook.core.scans import TWICE_SECONDS, Repeats, misread, other_layouts


def test_the_same_code_within_two_seconds_is_dropped_and_afterwards_it_counts_again():
    repeats = Repeats()
    assert [repeats.is_again("TW-02", at) for at in (10.0, 10.4, 12.3, 14.31)] == [False, True, True, False]
    assert TWICE_SECONDS == 2.0


def test_another_code_in_between_counts():
    repeats = Repeats()
    assert [repeats.is_again(code, 10.0) for code in ("TW-02", "TW-04", "TW-02")] == [False] * 3


@pytest.mark.parametrize(
    ("arrived", "meant"),
    [("KXß07ßALD", "KX-07-ALD"), ("QZ77Y1", "QY77Z1"), ("A?B-C", "A_B/C"), ("tzre", "tyre")],
)
def test_what_another_keyboard_made_of_a_code_is_undone(arrived, meant):
    assert meant in other_layouts(arrived)


def test_a_code_that_is_the_same_on_both_keyboards_has_no_other_reading():
    assert other_layouts("7H20611") == ()


@pytest.mark.parametrize("typed", ["12,5 N·m", "12.5 N·m", "12,50 Nm"])
def test_a_decimal_comma_and_a_decimal_point_are_the_same_figure(typed):
    """Nasty case 78 of the trade notes: both are taken."""
    assert str(read_quantity(typed, "torque").amount.normalize()) == "12.5"


@pytest.mark.parametrize("typed", ["1.234 N·m", "1,234 N·m"])
def test_a_point_that_may_part_thousands_is_asked_about(typed):
    """Nasty case 78 of the trade notes: what could be read in two ways is not taken."""
    with pytest.raises(Refused, match=r"not certain|two ways"):
        read_quantity(typed, "torque")


def test_what_was_read_off_a_worn_label_is_tried_otherwise_and_names_are_left_alone():
    assert misread("7H-2O611")[0] == "7H-20611"
    assert misread("7H-20211")[0] == "7H-2O211"
    assert "AS4471-10" in misread("AS447I-1O")
    assert misread("Olsen") == misread("1042") == ()
