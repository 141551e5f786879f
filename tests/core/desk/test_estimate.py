"""Lines and their sums, against sums worked by hand and against fractions."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.desk.estimate import Line, done, read_figure, standing, totals
from jobbook.core.desk.money import Money
from jobbook.core.desk.price import Priced, above, followed, line_facts, line_of
from jobbook.core.errors import Refused


def line(number, price, quantity="1", tax="19", **more):
    return Line(number, "part", f"part {number}", quantity, price, "EUR", tax, **more)


def test_sums_worked_by_hand_with_two_rates():
    """By hand: 3 × 33.33 = 99.99 at 19 % is 19.00; 2.5 × 78.00 = 195.00 at 7 % is 13.65; together 327.64."""
    sums = totals([line(1, "33.33", "3"), line(2, "78.00", "2.5", "7")], "EUR")
    assert (sums.net.text, sums.gross.text) == ("294.99", "327.64")
    assert {rate: tax.text for rate, tax in sums.taxes.items()} == {"7": "13.65", "19": "19.00"}


def test_tax_is_taken_of_the_sum_and_not_of_each_line():
    """By hand: 19 % of 0.13 is 0.02 five times, 0.10; of the sum 0.65 it is 0.12. The sum is what is billed."""
    assert totals([line(n, "0.13") for n in range(5)], "EUR").taxes["19"].text == "0.12"


@given(st.lists(st.tuples(st.integers(0, 10**7), st.integers(1, 400), st.sampled_from(["0", "7", "19", "20.5"]))))
def test_sums_agree_with_fractions(rows):
    made = [line(n, f"{Decimal(cents) / 100}", f"{Decimal(q) / 4}", rate) for n, (cents, q, rate) in enumerate(rows)]
    sums = totals(made, "EUR")
    exact = sum((Fraction(cents) * q / 4 for cents, q, _ in rows), Fraction(0))
    assert abs(sums.net.units - exact) <= Fraction(len(rows), 2)
    assert sums.gross.units == sums.net.units + sum(tax.units for tax in sums.taxes.values())


def test_a_line_without_a_price_is_counted_and_never_nought():
    sums = totals([line(1, ""), line(2, "10.00", tax="")], "EUR")
    assert (sums.net, sums.unpriced, sums.taxes) == (Money(1000, "EUR"), 1, {})
    assert line(1, "").net is None


def test_what_stands_and_what_is_done():
    four = [line(1, "1"), line(2, "1", state="done"), line(3, "1", state="declined"), line(4, "1", state="struck")]
    assert [one.number for one in standing(four)] == [1, 2]
    assert [one.number for one in done(four)] == [2]


@pytest.mark.parametrize("typed", ["0", "1/3", "1.234", "x", "100001"])
def test_a_quantity_that_is_unclear_or_out_of_bounds_is_refused(typed):
    with pytest.raises(Refused):
        read_figure(typed, "the quantity", Decimal("0.01"), Decimal(100_000))
    assert read_figure("3,50", "the quantity", Decimal("0.01"), Decimal(10)) == "3.5"


def test_a_line_comes_back_from_its_entry_as_it_was_kept():
    told = line(3, "12.00", part="AS-1", condition="used", payer="Tideway", state="done")
    assert line_of(7, line_facts(told)) == Line(**(vars(told) | {"entry": 7}))


def test_an_older_permission_whose_total_cannot_be_read_is_no_limit():
    priced = followed(Priced(), "permission/1", 1, {"scope": "repair", "total": "about 900", "currency": "EUR"})
    priced = followed(priced, "line/1", 2, line_facts(line(1, "100.00")))
    assert "no limit is allowed" in above(priced)
    priced = followed(priced, "permission/1", 3, {"scope": "repair", "total": "1 480.00"})
    assert above(priced) == ""
    assert followed(priced, "note/1", 4, {}) == priced
    assert followed(priced, "signature/1", 5, {"of": 99}) == priced
    assert followed(priced, "permission-changed/1", 6, {"of": 99, "what": "changed"}) == priced
