"""Readings and decisions against the GUM, an independent library and the decision rule of ISO 14253-1."""

from decimal import Decimal
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from jobbook.services.measured.reckoning import reckon


def test_a_mean_with_display_and_gauge_agrees_with_an_independent_library() -> None:
    # Five heights, display of 1 mm, gauge with U = 0.5 mm (k = 2). The package propagates the three contributions.
    readings, display, gauge = ufloat(403.4, 1.140175 / sqrt(5)), ufloat(0, 1 / sqrt(12)), ufloat(0, 0.25)
    result = reckon("readings", {"values": "402 404 403 403 405", "resolution": "1", "gauge_expanded": "0.5"})
    assert result["mean"] == 403.4
    assert result["combined"] == pytest.approx((readings + display + gauge).std_dev, rel=1e-6)
    assert result["expanded"] == pytest.approx(1.274, abs=5e-4)
    assert result["freedom"] == pytest.approx(9.75, abs=5e-3)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        *(("114.4", "conform"), ("105.6", "conform"), ("108", "conform"), ("114.7", "undecided")),
        *(("105.59", "undecided"), ("104", "undecided"), ("121", "undecided"), ("96.8", "undecided")),
        *(("123.2", "undecided"), ("123.21", "not conform"), ("96.79", "not conform"), ("124.4", "not conform")),
    ],
)
def test_a_reading_on_the_border_stays_on_its_side(value: str, verdict: str) -> None:
    # 110 N·m ± 8 %, U 4.4: with binary numbers 118.8 − 4.4 falls below 114.4, and 114.4 and 105.6 change sides.
    given = {"lower": "101.2", "upper": "118.8", "expanded": "4.4"}
    assert reckon("decide", given | {"value": value})["verdict"] == verdict
    assert (
        reckon("decide", {key: Decimal(text) for key, text in (given | {"value": value}).items()})["verdict"] == verdict
    )
    typed = {key: f"{text} N*m" for key, text in (given | {"value": value}).items()}
    assert reckon("decide", typed)["verdict"] == verdict


@given(st.integers(-3000, 3000), st.integers(-2000, 0), st.integers(0, 2000), st.integers(0, 1000))
def test_the_three_verdicts_part_every_line_as_whole_numbers_do(value: int, lower: int, upper: int, guard: int) -> None:
    # The same rule in tenths as whole numbers, where nothing can round.
    if lower + guard <= value <= upper - guard:
        wanted = "conform"
    else:
        wanted = "not conform" if value < lower - guard or value > upper + guard else "undecided"
    tenths = {"value": value, "lower": lower, "upper": upper, "expanded": guard}
    assert reckon("decide", {key: f"{Decimal(n) / 10}" for key, n in tenths.items()})["verdict"] == wanted


@pytest.mark.parametrize(
    ("shown", "most", "within"),
    [
        *(("10.4", "50", True), ("10.4000001", "50", False), ("9.6", "50", True), ("9.5999999", "50", False)),
        *(("1.06", "10", True), ("1.0600001", "10", False), ("0.94", "10", True), ("0.9399999", "10", False)),
    ],
)
def test_a_tool_at_its_limit_is_within_and_a_hair_beyond_is_not(shown: str, most: str, within: bool) -> None:
    # ISO 6789, II A: 4 %, and 6 % up to 10 N·m. In binary numbers 10.4 against 10 is 4.0000000000000036 % off.
    reference = "10" if most == "50" else "1"
    given = {"set": f"{shown} N*m", "reference": f"{reference} N*m", "tool_max": f"{most} N*m", "tool": "II A"}
    assert reckon("tool-deviation", given)["within"] is within


def test_a_shorter_tolerance_than_twice_the_doubt_is_never_conform() -> None:
    assert reckon("decide", {"value": "5", "lower": "4", "upper": "6", "expanded": "1.1"})["verdict"] == "undecided"
