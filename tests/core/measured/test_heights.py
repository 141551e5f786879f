"""Heights as typed: what is read, how sure the mean is, what is said against limits and of the sides."""

from decimal import Decimal
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.measured.heights import (
    Sure,
    differences,
    height_of,
    judge,
    kept_text,
    read_entries,
    settled,
    shown,
    typed_words,
)

HAND = Sure(Decimal(2))


def in_mm(typed: str, unit: str = "mm") -> list[Fraction]:
    return [height.in_unit("mm") for height in read_entries("FL", typed, unit)]


@pytest.mark.parametrize(
    ("typed", "unit", "read"),
    [
        ("401", "mm", [401]),
        ("401 402 401", "mm", [401, 402, 401]),
        ("401; 402", "mm", [401, 402]),
        ("401, 402, 401", "mm", [401, 402, 401]),
        ("400,5 401", "mm", ["400.5", 401]),
        ("401 402 mm", "mm", [401, 402]),
        ("15 3/4 in", "mm", ["400.05"]),
        ("15¾ in 15 3/4 in", "mm", ["400.05", "400.05"]),
        ("15 3/4", "in", ["400.05"]),
        ("15.75 15.75 in", "mm", ["400.05", "400.05"]),
        ("40,1 cm", "mm", [401]),
        ("401 mm", "in", [401]),
    ],
)
def test_one_or_several_readings_are_read_in_the_unit_that_was_typed(typed, unit, read):
    assert in_mm(typed, unit) == [Fraction(height) for height in read]


@pytest.mark.parametrize("typed", ["4000", "15 3/4", "401 40", "soon", "401 kg", "-401", "", " ".join(["401"] * 13)])
def test_what_no_wheel_can_stand_at_or_nobody_can_read_is_refused(typed):
    with pytest.raises(Refused):
        height_of("FL", typed, HAND)


def test_repeated_readings_become_a_mean_with_the_uncertainty_of_the_worked_case():
    # GUM (JCGM 100) 4.2, 4.3.7, 5.1; two uncertainty libraries agree on 1.274 for these five readings.
    height = height_of("FL", "402 404 403 403 405", Sure(Decimal(2), Decimal(1), Decimal("0.5")))
    assert height.mean_mm == Decimal("403.4")
    assert round(height.expanded_mm, 3) == Decimal("1.274")


def test_where_the_rule_is_not_known_the_last_digit_that_was_typed_is_its_division():
    coarse, fine = (height_of("FL", typed, HAND).expanded_mm for typed in ("401 401", "401.0 401.0"))
    assert coarse == 10 * fine
    quarter = height_of("FL", "15 3/4 in 15 3/4 in", HAND).expanded_mm
    assert round(quarter, 6) == round(coarse * Decimal("25.4") / 4, 6)


def test_one_reading_is_as_sure_as_the_shop_says_and_never_surer_than_the_certificate():
    assert height_of("FL", "401", HAND).expanded_mm == 2
    assert height_of("FL", "401", Sure(Decimal(2), Decimal(1), Decimal(3))).expanded_mm == 3


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        ("403.2", "conform"),
        ("403.3", "undecided"),
        ("406.8", "undecided"),
        ("406.9", "not conform"),
        ("393.1", "not conform"),
    ],
)
def test_a_height_is_judged_with_its_uncertainty_as_guard_band(typed, verdict):
    # ISO 14253-1, JCGM 106, with the figures of the worked case: 395 to 405 mm, U 1.8.
    height = height_of("FL", typed, Sure(Decimal("1.8")))
    assert judge(height, Decimal(395), Decimal(405)).verdict == verdict


@pytest.mark.parametrize(("typed", "lower", "upper"), [("390.1", "380", "390.4"), ("390.4", "390.1", "400")])
def test_a_reading_on_the_limit_does_not_change_sides_by_binary_rounding(typed, lower, upper):
    guard = Decimal("0.3")
    in_binary = float(lower) + float(guard) <= float(typed) <= float(upper) - float(guard)
    assert not in_binary, "binary numbers do not get these figures wrong, so they show nothing"
    assert judge(height_of("FL", typed, Sure(guard)), Decimal(lower), Decimal(upper)).verdict == "conform"


def test_without_both_limits_a_reading_stays_plain():
    """Nasty case 14 of the trade notes."""
    height = height_of("FL", "401", HAND)
    assert [judge(height, *ends).verdict for ends in ((None, None), (Decimal(390), None), (None, Decimal(410)))] == [
        ""
    ] * 3


def test_sides_and_axles_are_compared_and_the_shops_rule_speaks_of_sides_alone():
    means = {corner: Decimal(height) for corner, height in (("FL", 366), ("FR", 399), ("RL", 385), ("RR", 396))}
    front, rear, axles = differences(means, Decimal(10), Decimal(15))
    assert (front.mm, "a defect" in front.word) == (-33, True)
    assert (rear.mm, "ask why" in rear.word) == (-11, True)
    assert (axles.mm, axles.word) == (Decimal("-8"), "")
    exactly = differences({"FL": Decimal(410), "FR": Decimal(400)}, Decimal(10), Decimal(15))
    assert [one.word for one in exactly] == [""]
    assert differences({"FL": Decimal(410), "RL": Decimal(400)}, Decimal(10), Decimal(15)) == ()


def test_a_mean_is_kept_exactly_where_it_ends_and_to_a_hundredth_elsewhere():
    assert [kept_text(height_of("FL", typed, HAND).mean_mm) for typed in ("401 402 401", "15 13/16 in", "401.0")] == [
        *("401.33", "401.6375", "401"),
    ]


def test_heights_are_shown_in_tenths_of_a_millimetre_or_hundredths_of_an_inch():
    assert [shown(Decimal(text)) for text in ("401.3333", "400", "-0.04")] == ["401.3", "400", "0"]
    assert [shown(Decimal(text), "in") for text in ("400.05", "-25.4")] == ["15.75", "−1"]
    assert shown(Decimal("1.5"), signed=True) == "+1.5"


def test_bare_inches_are_kept_with_their_unit_so_that_they_are_read_alike_for_ever():
    assert [settled("15 3/4", "in"), settled("400 mm", "in"), settled(" 401 ", "mm")] == ["15 3/4 in", "400 mm", "401"]


def test_what_was_typed_is_told_where_it_says_more_than_the_mean():
    assert typed_words([height_of(c, t, HAND) for c, t in (("FL", "401 402"), ("FR", "400"))]) == "FL 401 402"
