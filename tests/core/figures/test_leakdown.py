"""A leak-down stand: drops, what temperature does, and what may be concluded. Limits are common practice."""

from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.given import four_heights
from jobbook.core.figures.leakdown import USUAL, LeakDown, leak_down
from jobbook.core.quantities import read_quantity

LEVEL = (402, 404, 398, 399)


def stand(
    lost: tuple[float, ...], hours: float = 12, start: str | None = "18 degC", end: str | None = "18 degC"
) -> LeakDown:
    before = four_heights([f"{height} mm" for height in LEVEL])
    after = four_heights([f"{height - drop} mm" for height, drop in zip(LEVEL, lost, strict=True)])
    temperatures = [read_quantity(text, "temperature") if text else None for text in (start, end)]
    return leak_down(before, after, read_quantity(f"{hours} h", "time"), *temperatures)


def said(found: LeakDown, words: str) -> bool:
    return any(words in sentence for sentence in found.findings)


def test_a_worked_stand_of_the_trade_comes_out() -> None:
    # Common practice: 36, 5, 4 and 4 mm in 13.5 h and 7 degrees colder; the 4 mm of the others are the cold.
    found = stand((36, 5, 4, 4), 13.5, "18 degC", "11 degC")
    assert found.drop_mm == {"FL": 36, "FR": 5, "RL": 4, "RR": 4}
    assert round(found.relative_drop_mm["FL"]) == 32
    assert found.per_hour_mm["FL"] == Fraction(36) / Fraction("13.5")
    assert found.findings == (
        "Temperature alone lets every corner sink by about 3.5 to 4.9 mm.",
        "FL lost 31.7 mm more than the average of the others: a leak beyond argument.",
    )


def test_an_even_loss_as_large_as_the_cold_explains_is_no_finding_but_the_cold() -> None:
    found = stand((4, 4, 3, 4), 14, "18 degC", "11 degC")
    assert found.findings == ("Temperature alone lets every corner sink by about 3.5 to 4.9 mm.",)


@pytest.mark.parametrize(
    ("lost", "words"),
    [(6, "repeat the stand"), (10, "repeat the stand"), (11, "a leak."), (20, "a leak."), (21, "beyond argument")],
)
def test_what_one_corner_loses_beyond_the_others_is_graded(lost: int, words: str) -> None:
    found = stand((0, lost, 0, 0))
    assert said(found, f"FR lost {lost}.0 mm more than the average of the others: ")
    assert said(found, words)


def test_up_to_five_millimetres_in_twelve_hours_are_normal_and_a_longer_stand_is_reckoned_down() -> None:
    assert stand((5, 0, 0, 0)).findings == ()
    assert stand((10, 0, 0, 0), 24).findings == ()
    assert said(stand((11, 0, 0, 0), 24), "repeat the stand")


def test_more_than_ten_millimetres_an_hour_are_found_at_once() -> None:
    assert said(stand((0, 0, 25, 0), 2), "RL lost 25.0 mm more than the average of the others: a leak that is heard")


def test_a_stand_that_is_too_short_gives_no_verdict() -> None:
    found = stand((9, 0, 0, 0), 0.5)
    assert said(found, "Under 1 h is too short")
    assert not said(found, "FL lost")
    assert said(stand((0, 0, 0, 0), 73), "Over 72 h")
    assert not said(stand((0, 0, 0, 0), 72), "Over 72 h")


def test_all_four_down_asks_for_a_stand_with_levelling_off_unless_the_cold_explains_it() -> None:
    assert said(stand((9, 8, 9, 10)), "All four went down")
    assert not said(stand((9, 8, 9, 10), 12, "25 degC", "16 degC"), "All four went down")
    assert said(stand((9, 8, 9, 10), 12, "16 degC", "25 degC"), "All four went down")


def test_a_corner_that_stands_higher_than_before_was_woken_or_misread() -> None:
    assert said(stand((0, -3, 0, 0)), "Higher than before: FR")
    assert not said(stand((0, -3, 0, 0), 12, "10 degC", "15 degC"), "Higher than before")
    assert not said(stand((0, -1, 0, 0)), "Higher than before")


def test_temperatures_far_apart_and_unknown_ones_are_said() -> None:
    assert said(stand((0, 0, 0, 0), 12, "20 degC", "9.9 degC"), "more than 10 °C apart")
    assert not said(stand((0, 0, 0, 0), 12, "20 degC", "10 degC"), "apart")
    assert said(stand((0, 0, 0, 0), 12, None, None), "Without both temperatures")
    with pytest.raises(Refused, match=r"^end_temperature was not taken: it is missing"):
        stand((0, 0, 0, 0), 12, "20 degC", None)


def test_the_limits_are_the_shops() -> None:
    before, after = (
        four_heights([f"{height} mm" for height in heights]) for heights in ((400,) * 4, (396, 400, 400, 400))
    )
    strict = type(USUAL)(normal_mm=Fraction(3))
    found = leak_down(before, after, read_quantity("12 h", "time"), limits=strict)
    assert said(found, "FL lost 4.0 mm")


def test_inches_are_told_in_millimetres() -> None:
    before = four_heights("FL 15 3/4 in; FR 15 3/4 in; RL 400 mm; RR 400 mm")
    after = four_heights({"FL": "15 in", "FR": "15 3/4 in", "RL": "400 mm", "RR": "400 mm"})
    assert leak_down(before, after, read_quantity("12 h", "time")).drop_mm["FL"] == Fraction("19.05")


@pytest.mark.parametrize(
    "heights",
    [
        ["402 mm"] * 3,
        {"FL": "1 mm"},
        {"FL": "1 mm", "FR": "1 mm", "RL": "1 mm", "XX": "1 mm"},
        "402 404 398 399",
        ["-1 mm"] * 4,
    ],
)
def test_what_is_not_four_heights_with_units_is_refused(heights: object) -> None:
    with pytest.raises(Refused):
        four_heights(heights)
