"""Angles in degrees and minutes, there and back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.figures.degrees import minutes_text, read_minutes
from jobbook.core.figures.given import angle


@pytest.mark.parametrize(
    ("degrees", "text"),
    [
        *(("-0.75", "−0°45′"), ("1.25833", "+1°15.5′"), ("0.1666667", "+0°10′"), ("-1.999", "−1°59.94′")),
        *(("-0.5", "−0°30′"), ("0", "0°00′"), ("2", "+2°00′"), ("-0.0001", "0°00′"), ("0.05", "+0°03′")),
    ],
)
def test_degrees_are_written_with_their_sign_and_minutes(degrees: str, text: str) -> None:
    # The definition, sixty minutes to the degree; the sign holds for both parts.
    assert minutes_text(Fraction(degrees)) == text


def test_sixty_minutes_are_carried() -> None:
    assert minutes_text(Fraction("59.96") / 60) == "+1°00′"
    assert minutes_text(-1 - Fraction("59.996") / 60) == "−2°00′"


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        *(("-0°30′", "-0.5"), ("−0°30'", "-0.5"), ("-0 deg 30 min", "-0.5"), ("-0 30", "-0.5"), ("0°30.6′", "0.51")),
        *(("-30'", "-0.5"), ("1.25", "1.25"), ("1,25°", "1.25"), ("+1 15", "1.25"), ("1°15′36″", "1.26")),
    ],
)
def test_an_angle_is_read_in_whatever_form_it_is_typed(typed: str, degrees: str) -> None:
    assert angle(typed).in_unit("deg") == Fraction(degrees)


def test_sixty_minutes_are_not_typed() -> None:
    with pytest.raises(Refused, match="minutes go up to 59"):
        angle("1°60′")
    assert read_minutes("1.5") is None


@given(st.integers(-180 * 600, 180 * 600))
def test_tenths_of_a_minute_come_back_as_they_were_written(tenths: int) -> None:
    value = Fraction(tenths, 600)
    assert angle(minutes_text(value)).in_unit("deg") == value
