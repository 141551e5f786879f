"""What a cause line names and what it leaves out: a weak line and a strong one, after the trade notes."""

import pytest

from jobbook.core.measured.causes import FIGURES, advice, lacking

STRONG = (
    "Front left strut: sleeve leaks at the lower roll, soap bubbles at normal height; 32 mm lost in 13.5 h beyond the "
    "other corners; line and block port dry."
)


def test_a_strong_line_lacks_nothing():
    assert lacking(STRONG) == ()
    assert advice(STRONG) == ""


def test_a_weak_line_is_told_its_place_its_test_and_the_figures():
    assert lacking("Leaking strut") == ("the place on it, with the corner", "the test that proves it", FIGURES)
    assert advice("Leaking strut").endswith("the test that proves it and the test's figures, with their units.")


@pytest.mark.parametrize(
    ("line", "missing"),
    [
        ("FL leaks at the lower roll, bubbles, 30 mm in 12 h", "the part"),
        ("Relay at the front, 8 V measured at the compressor", "the kind of failure"),
        ("Sleeve RL chafed through at its clip, seen with a lamp", FIGURES),
    ],
)
def test_each_missing_piece_is_named(line, missing):
    assert lacking(line) == (missing,)


def test_an_empty_line_is_not_judged():
    assert lacking("  ") == ()


def test_where_no_fault_was_found_neither_part_nor_place_is_asked_for_but_what_was_tested():
    assert lacking("No fault found: three nights, all within 2 mm, no codes, no bubbles") == ()
    assert lacking("Nothing found.") == ("the test that proves it", FIGURES)
