"""Fault codes as a technician meets them. The forms are those of SAE J2012 and ISO 15031-6; the two pairs of text and
bytes below are reckoned by hand from the bits: 5A2B is 01 01 1010 0010 1011, so C, 1, A2B."""

import pytest

from jobbook.core.jobs import FaultCode
from jobbook.core.measured.codes import GONE, NEW, READ, STILL, UNREAD, both_forms, code_words, compare


def code(module, shown, when, status="stored", at="2026-11-25T09:00:00+01:00"):
    return FaultCode(module, shown, "", status, when, at)


@pytest.mark.parametrize("typed", ["C1A2B-14", "c1a2b 14", "5A2B14", "5a 2b 14", "0x5A2B14"])
def test_a_code_is_typed_as_text_or_as_bytes_and_shown_in_both(typed):
    assert both_forms(typed) == "C1A2B-14 (5A2B14)"
    assert code_words(typed).startswith("C1A2B-14, bytes 5A2B14: defined by the maker.")
    assert "short to ground or open" in code_words(typed)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("P0135", "one of the standard's own codes"),
        ("C3000", "kept back by the standard"),
        ("0000", "it fills empty places"),
        ("C1O2B", "the letter O"),
        ("17", "a code begins with P, C, B or U"),
    ],
)
def test_what_kind_of_code_it_is_or_why_it_is_none_is_said_in_words(typed, said):
    assert said in code_words(typed)


def test_an_unknown_form_is_kept_as_it_was_shown():
    assert both_forms("  02-371   open ") == "02-371 open"
    assert code_words("02-371").endswith("It can be kept as it was shown.")
    assert code_words("  ") == ""


def test_before_and_after_are_compared_by_module_whichever_way_they_were_typed():
    codes = [
        code("Level control", "C1A2B", "before"),
        code("Level control", "5B01", "before"),
        code("LEVEL CONTROL ", "5A2B", "after", "active"),
        code("Level control", "C1777", "after"),
    ]
    assert [(one.code, one.found) for one in compare(codes)] == [("5A2B", STILL), ("5B01", GONE), ("C1777", NEW)]
    assert {one.module for one in compare(codes)} == {"Level control"}


def test_a_module_that_was_not_read_again_says_nothing_about_its_codes():
    codes = [code("Level control", "C1A2B", "before"), code("Brakes", "", "after")]
    assert [(one.module, one.found) for one in compare(codes)] == [("Level control", UNREAD), ("Brakes", READ)]


def test_a_module_read_and_found_without_codes_has_none_any_more():
    codes = [
        code("Level control", "C1A2B", "before"),
        code("Level control", "C1A2B", "after"),
        code("Level control", "", "after", at="2026-11-25T15:00:00+01:00"),
    ]
    (one,) = compare(codes)
    assert (one.found, one.last.at, one.last.code) == (GONE, "2026-11-25T15:00:00+01:00", "")


def test_what_was_ever_shown_before_the_work_stays_among_what_was_before():
    codes = [code("Level control", "C1A2B", "before"), code("Level control", "", "before")]
    assert [one.found for one in compare(codes)] == [UNREAD]
    assert compare([code("Brakes", "", "before")])[0].found == READ
    assert compare([]) == ()
