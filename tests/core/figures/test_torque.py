"""Torque tools: the setting with an adapter, the usable range, a figure typed in another unit."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.figures.torque import adapter_setting, cosine, other_unit_hint, tool_range
from jobbook.core.quantities import Quantity, read_quantity


def torque(text: str) -> Quantity:
    return read_quantity(text, "torque")


def setting(wanted: str, lever: str, extension: str, angle: str) -> Quantity:
    length = (read_quantity(text, "length") for text in (lever, extension))
    return adapter_setting(torque(wanted), *length, read_quantity(angle, "angle"))


@pytest.mark.parametrize(
    ("given", "printed"),
    [
        (("70 N*m", "12 in", "2 in", "0 deg"), "60.0"),  # US Army TM 9-254
        (("300 lbf*in", "10 in", "4 in", "0 deg"), "214"),  # US Army TM 1-1500-204-23-9
        (("100 N*m", "18 cm", "3 cm", "45 deg"), "89.457"),  # computed from the published formula
        (("110 N*m", "400 mm", "50 mm", "30 deg"), "99.255"),  # computed from the published formula
    ],
)
def test_the_setting_is_the_printed_one(given: tuple[str, str, str, str], printed: str) -> None:
    result = setting(*given)
    places = len(printed.partition(".")[2])
    assert round(result.amount, places) == Fraction(printed)
    assert result.unit == given[0].split()[1]


def test_lever_and_adapter_may_be_measured_in_different_units() -> None:
    assert setting("110 N*m", "400 mm", "2 in", "0 deg").amount == round(Fraction(110 * 4000, 4508), 6)


def test_a_lever_of_nought_and_an_adapter_that_reaches_back_to_the_grip_are_refused() -> None:
    for lever, extension, angle in (
        ("0 mm", "50 mm", "0 deg"),
        ("-400 mm", "50 mm", "0 deg"),
        ("50 mm", "50 mm", "180 deg"),
    ):
        with pytest.raises(Refused, match="The setting was not computed"):
            setting("110 N*m", lever, extension, angle)


@given(st.fractions(min_value=-1000, max_value=1000, max_denominator=3600))
def test_the_cosine_agrees_with_the_standard_library(degrees: Fraction) -> None:
    assert float(cosine(degrees)) == pytest.approx(math.cos(math.radians(degrees)), abs=1e-12)


def test_the_cosine_is_exact_where_a_right_angle_stands_and_fine_elsewhere() -> None:
    assert [cosine(Fraction(angle)) for angle in (0, 90, 180, 270, 360, -90)] == [1, 0, -1, 0, 1, 0]
    assert abs(cosine(Fraction(60)) - Fraction(1, 2)) < Fraction(1, 10**30)


@pytest.mark.parametrize(
    ("wanted", "usable", "words"),
    [
        ("9 N*m", False, "is below the tool's 40"),
        ("210 N*m", False, "is above the tool's 200"),
        ("40 N*m", True, "is within"),
        ("200 N*m", True, "is within"),
        ("100 lbf*ft", True, "is within"),
        ("150 lbf*ft", False, "is above"),
    ],
)
def test_a_torque_is_held_against_the_range_of_the_tool(wanted: str, usable: bool, words: str) -> None:
    verdict = tool_range(torque(wanted), torque("40 N*m"), torque("200 N*m"))
    assert verdict.usable is usable
    assert words in verdict.reason


def test_below_a_fifth_of_full_scale_a_tool_is_not_trusted_unless_the_shop_says_so() -> None:
    # Common practice; no standard gives the share.
    small, low, high = torque("39.9 N*m"), torque("10 N*m"), torque("200 N*m")
    verdict = tool_range(small, low, high)
    assert not verdict.usable
    assert "below 20\u202f% of its full scale" in verdict.reason
    assert tool_range(torque("40 N*m"), low, high).usable
    assert tool_range(small, low, high, lowest_share=Fraction(1, 10)).usable


def test_a_range_upside_down_is_refused() -> None:
    with pytest.raises(Refused, match="is no range of a tool"):
        tool_range(torque("50 N*m"), torque("200 N*m"), torque("40 N*m"))


def test_a_figure_that_would_fit_in_another_unit_is_offered_in_it() -> None:
    # 81 lbf·ft is 109.8 N·m: the wrench was read on its other scale.
    offered = other_unit_hint(torque("81 N*m"), torque("99 N*m"), torque("121 N*m"))
    assert [(str(q.amount), q.unit) for q in offered] == [("81", "lbf*ft")]
    offered = other_unit_hint(torque("110 lbf*ft"), torque("73 lbf*ft"), torque("90 lbf*ft"))
    assert [(str(q.amount), q.unit) for q in offered] == [("110", "N*m")]


def test_a_figure_that_fits_or_fits_nowhere_is_left_alone() -> None:
    low, high = torque("99 N*m"), torque("121 N*m")
    assert other_unit_hint(torque("110 N*m"), low, high) == ()
    assert other_unit_hint(torque("200 N*m"), low, high) == ()
