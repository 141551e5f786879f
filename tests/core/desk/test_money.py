"""Money as whole smallest units, against the decimal library, and against ISO 4217 for the number of decimals."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.desk.money import Money, decimals, money_or_none, percent, read_money, times, total
from jobbook.core.errors import Refused


@pytest.mark.parametrize(
    ("typed", "units"),
    [
        ("1480", 148000), ("1 480.00", 148000), ("1.480,00", 148000), ("1,480.50", 148050), ("12,5", 1250),
        ("0", 0), ("-20", -2000), ("1480.00 EUR", 148000),
    ],
)  # fmt: skip
def test_an_amount_is_read_with_point_or_comma_and_thousands(typed, units):
    assert read_money(typed, "EUR") == Money(units, "EUR")


@pytest.mark.parametrize("typed", ["1.480", "1,480"])
def test_one_or_a_thousand_is_asked_about_and_never_guessed(typed):
    """Nasty case 78 of the trade notes, for money."""
    with pytest.raises(Refused, match="can be read in two ways"):
        read_money(typed, "EUR")


@pytest.mark.parametrize("typed", ["1.005", "12.3456", "1/3", "99999999999999"])
def test_what_is_finer_than_the_smallest_unit_or_beyond_belief_is_refused(typed):
    with pytest.raises(Refused):
        read_money(typed, "EUR")


@pytest.mark.parametrize(("currency", "places"), [("EUR", 2), ("GBP", 2), ("JPY", 0), ("KWD", 3), ("CAD", 2)])
def test_currencies_have_the_decimals_of_iso_4217(currency, places):
    """ISO 4217, minor units of these currencies, from memory."""
    assert decimals(currency) == places
    assert read_money("7", currency).units == 7 * 10**places


@given(st.integers(-(10**9), 10**9), st.decimals("-1000", "1000", places=4))
def test_shares_are_rounded_half_away_from_nought_as_the_decimal_library_does(units, factor):
    expected = (Decimal(units) * factor).quantize(Decimal(1), ROUND_HALF_UP)
    assert times(Money(units, "EUR"), factor).units == int(expected)


def test_a_tax_of_nineteen_per_cent_is_worked_out_to_the_cent():
    """By hand: 19 % of 83.95 is 15.9505."""
    assert percent(Money(8395, "EUR"), Decimal(19)).text == "15.95"


def test_an_amount_is_written_for_entries_and_for_people():
    assert Money(148000, "EUR").text == "1480.00"
    assert Money(148000, "EUR").shown == "1\u202f480.00 EUR"
    assert Money(-5, "EUR").figures == "\u22120.05"
    assert Money(5, "JPY").text == "5"


def test_two_currencies_are_never_added():
    assert total([Money(1, "EUR"), Money(2, "EUR")], "EUR") == Money(3, "EUR")
    with pytest.raises(ValueError, match="cannot be added"):
        total([Money(1, "EUR"), Money(1, "GBP")], "EUR")


def test_an_amount_of_an_older_entry_that_cannot_be_read_is_unknown_and_not_nought():
    assert money_or_none("about 300", "EUR") is None
    assert money_or_none(" ", "EUR") is None
    assert money_or_none("0", "EUR") == Money(0, "EUR")
