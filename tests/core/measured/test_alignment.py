"""Wheel geometry as typed, what follows from it, and what is said against limits.

The worked cases of judging are common practice of the trade, reckoned by hand; those of toe and thrust are geometry.
"""

from fractions import Fraction
from math import asin, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.measured.alignment import (
    ANGLES,
    angle_text,
    in_minutes,
    is_geometry,
    read_angle,
    read_geometry,
    settled_angle,
    title_of,
    turned_sign,
)
from jobbook.core.measured.alignment_limits import KEYS, judge_angle, key_of, read_limits
from jobbook.core.quantities import Quantity, read_quantity


def deg(text: str) -> Quantity:
    return read_quantity(text, "angle")


@pytest.mark.parametrize(
    ("typed", "degrees_read"),
    [
        ("-0.75", Fraction(-3, 4)),
        ("−0°45′", Fraction(-3, 4)),
        ("-0°30'", Fraction(-1, 2)),  # the sign of nought degrees holds for the minutes
        ("10′", Fraction(1, 6)),
        ("0,5°", Fraction(1, 2)),
    ],
)
def test_angles_are_read_as_degrees_as_minutes_and_as_both(typed: str, degrees_read: Fraction) -> None:
    assert read_geometry({"camber FL": typed})["camber FL"].degrees == degrees_read


@pytest.mark.parametrize(
    ("name", "typed", "kept"),
    [
        ("camber FL", "-0.75", "-0.75°"),
        ("camber FL", "−0°45′", "−0°45′"),
        ("toe FL", "1.5 mm", "1.5 mm"),
        ("toe FL", "0.1", "0.1°"),
        ("toe diameter", "406.4", "406.4 mm"),
        ("toe diameter", "16 in", "16 in"),
    ],
)
def test_what_was_typed_is_kept_with_its_unit(name: str, typed: str, kept: str) -> None:
    assert settled_angle(name, typed) == kept


@given(st.fractions(-9, 9).map(lambda f: round(f, 2)))
def test_what_is_kept_is_read_back_as_the_same_angle(amount: Fraction) -> None:
    typed = f"{float(amount):.2f}"
    assert read_angle(settled_angle("camber FL", typed), bare=None).in_unit("deg") == Fraction(typed)


def test_toe_in_mm_is_turned_into_an_angle_by_the_diameter_it_was_read_at() -> None:
    """2.0 mm of total toe on a 16 inch rim are 16.918 minutes: D·sin θ, 7.1 of the figures."""
    found = read_geometry({"toe FL": "1.0 mm", "toe FR": "1 mm", "toe diameter": "16 in"})
    assert float(found["toe FL"].degrees) == pytest.approx(degrees(asin(1 / 406.4)), abs=1e-9)
    assert float(found["total toe front"].degrees) * 60 == pytest.approx(16.918, abs=0.001)
    assert found["total toe front"].value == Quantity("length", Fraction(2), "mm")


def test_toe_in_mm_without_its_diameter_is_refused() -> None:
    with pytest.raises(Refused, match="without the diameter"):
        read_geometry({"toe FL": "1.5 mm"})


@pytest.mark.parametrize("diameter", ["16", "1500 mm", "5 in"])
def test_a_diameter_that_no_wheel_has_is_refused(diameter: str) -> None:
    with pytest.raises(Refused, match="rims and tyres measure"):
        settled_angle("toe diameter", diameter)


@pytest.mark.parametrize(
    ("name", "typed"), [("toe FL", "10"), ("camber FR", "45"), ("caster FL", "-20°"), ("inclination FR", "-1")]
)
def test_an_angle_that_no_road_vehicle_has_is_refused_and_the_unit_named(name: str, typed: str) -> None:
    with pytest.raises(Refused, match="minutes are written 10′"):
        read_geometry({name: typed})


def test_only_toe_is_taken_in_mm() -> None:
    with pytest.raises(Refused):
        read_geometry({"camber FL": "2 mm", "toe diameter": "16 in"})


def test_cross_values_totals_and_thrust_follow_exactly() -> None:
    """The cases of the trade: −0.40 − (−0.75) = +0.35; toes of 10′ and −2′ give a thrust of 6′ and a total of 8′."""
    found = read_geometry(
        {
            "camber FL": "-0.40",
            "camber FR": "-0.75",
            "toe RL": "10′",
            "toe RR": "−2′",
            "caster FL": "6°",
            "caster FR": "6",
        }
    )
    assert found["cross camber front"].degrees == Fraction(35, 100)
    assert found["thrust"].degrees == Fraction(1, 10)
    assert found["total toe rear"].degrees == Fraction(8, 60)
    assert found["cross caster"].degrees == 0
    assert all(found[name].follows for name in ("thrust", "total toe rear", "cross caster"))


@given(st.integers(-200, 200), st.integers(-200, 200))
def test_thrust_and_total_give_each_wheel_back(left: int, right: int) -> None:
    found = read_geometry({"toe RL": f"{left}′", "toe RR": f"{right}′"})
    total, thrust = found["total toe rear"].degrees, found["thrust"].degrees
    assert (total / 2 + thrust, total / 2 - thrust) == (found["toe RL"].degrees, found["toe RR"].degrees)


def test_toe_in_mm_at_one_wheel_and_in_minutes_at_the_other_adds_up_as_angles() -> None:
    found = read_geometry({"toe RL": "1.1822 mm", "toe RR": "10′", "toe diameter": "406.4"})
    assert found["total toe rear"].value.kind == "angle"
    assert float(found["total toe rear"].degrees) * 60 == pytest.approx(20, abs=0.001)


def test_a_thrust_angle_that_was_read_stands_and_its_sign_is_compared() -> None:
    same = read_geometry({"toe RL": "10′", "toe RR": "4′", "thrust": "3′"})
    turned = read_geometry({"toe RL": "10′", "toe RR": "4′", "thrust": "−3′"})
    assert not same["thrust"].follows
    assert (turned_sign(same), turned_sign(turned), turned_sign({})) == (False, True, False)


def test_a_figure_is_judged_by_the_limit_of_its_axle() -> None:
    keys = {key_of(name) for angle in ANGLES for name in angle.names}
    assert keys <= set(KEYS)
    assert (key_of("toe RL"), key_of("camber FR"), key_of("thrust"), key_of("total toe front")) == (
        "geometry toe rear",
        "geometry camber front",
        "geometry thrust",
        "geometry total toe front",
    )


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        ("−1°15′", "conform"),  # on the limit, which is still inside it
        ("−1°15.1′", "not conform"),
        ("−0°15′", "conform"),
        ("-0.25", "conform"),
        ("-0.2499", "not conform"),
        ("−0°45′", "conform"),
    ],
)
def test_a_figure_on_its_limit_does_not_change_sides_by_rounding(typed: str, verdict: str) -> None:
    limits = read_limits("geometry camber front", "−0°45′", "± 30′")
    assert judge_angle(read_geometry({"camber FL": typed})["camber FL"], limits).verdict == verdict


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [("0°13′", "conform"), ("0°14′", "undecided"), ("0°17′", "undecided"), ("0°17.1′", "not conform")],
)
def test_the_doubt_of_the_aligner_is_a_guard_band_on_either_side(typed: str, verdict: str) -> None:
    """Limits of 5′ to 15′ with U = 2′, by the rule of ISO 14253-1."""
    limits = read_limits("geometry toe front", "0°10′", "± 5′")
    assert judge_angle(read_geometry({"toe FL": typed})["toe FL"], limits, deg("2′")).verdict == verdict


@pytest.mark.parametrize(("each", "verdict"), [("0°13′", "conform"), ("0°14′", "undecided"), ("0°18′", "not conform")])
def test_a_total_is_guarded_by_the_doubt_of_both_readings(each: str, verdict: str) -> None:
    """Limits of 10′ to 30′ with U = 2′ a reading, so 4′ for the sum of two (GUM 5.2.2)."""
    limits = read_limits("geometry total toe front", "0°20′", "± 10′")
    total = read_geometry({"toe FL": each, "toe FR": each})["total toe front"]
    judged = judge_angle(total, limits, deg("2′"))
    assert (judged.verdict, judged.expanded) == (verdict, deg("4′"))


@pytest.mark.parametrize(
    ("typed", "verdict"), [("1.5 mm", "conform"), ("1.51 mm", "not conform"), ("0.5 mm", "conform")]
)
def test_toe_in_mm_is_judged_in_mm_where_the_diameter_is_the_documents(typed: str, verdict: str) -> None:
    limits = read_limits("geometry toe front", "1.0 mm at 406.4 mm", "± 0.5 mm")
    told = {"toe FL": typed, "toe diameter": "16 in"}
    assert judge_angle(read_geometry(told)["toe FL"], limits).verdict == verdict


def test_toe_in_mm_at_another_diameter_is_compared_as_an_angle() -> None:
    """1.5 mm at 16 in are 12.69′, and 1.5 mm at 17 in only 11.94′: the same mm, another angle."""
    limits = read_limits("geometry toe front", "1.0 mm at 17 in", "± 0.5 mm")
    told = {"toe FL": "1.5 mm", "toe diameter": "16 in"}
    assert judge_angle(read_geometry(told)["toe FL"], limits).verdict == "not conform"
    assert judge_angle(read_geometry({"toe FL": "11′"})["toe FL"], limits).verdict == "conform"


@pytest.mark.parametrize(("doubt", "verdict"), [("0.2 mm", "conform"), ("0.4 mm", "undecided")])
def test_a_doubt_in_mm_counts_across_the_diameter_that_was_used(doubt: str, verdict: str) -> None:
    told = {"toe FL": "1.2 mm", "toe diameter": "16 in"}
    for text, tolerance in (("1.0 mm at 16 in", "± 0.5 mm"), ("8.46′", "± 4.23′")):
        limits = read_limits("geometry toe front", text, tolerance)
        found = judge_angle(read_geometry(told)["toe FL"], limits, read_quantity(doubt, "length"))
        assert found.verdict == verdict


def test_uneven_tolerances_are_read_either_way_round() -> None:
    limits = read_limits("geometry caster front", "6°30′", "+0°45′ / −0°20′")
    assert limits.lower is not None
    assert limits.upper is not None
    assert (limits.lower.in_unit("deg"), limits.upper.in_unit("deg")) == (Fraction(370, 60), Fraction(435, 60))
    nought = read_limits("geometry toe rear", "0°20′", "+10′ −0")
    assert nought.lower is not None
    assert nought.lower.in_unit("arcmin") == 20


def test_without_a_tolerance_there_is_a_target_and_no_judgement() -> None:
    limits = read_limits("geometry caster front", "6°30′")
    assert (limits.lower, limits.upper) == (None, None)
    assert judge_angle(read_geometry({"caster FL": "9°"})["caster FL"], limits).verdict == ""
    assert judge_angle(read_geometry({"caster FL": "9°"})["caster FL"], None).verdict == ""


@pytest.mark.parametrize(
    ("text", "tolerance", "why"),
    [
        ("0.10", "± 5′", "no unit"),
        ("0°10′", "± 5", "no unit"),
        ("1 mm", "± 0.5 mm", "without its diameter"),
        ("0°10′", "± 0.5 mm", "angle"),
        ("0°10′", "+5′ −x", "number"),
    ],
)
def test_a_limit_that_cannot_be_read_for_certain_is_refused(text: str, tolerance: str, why: str) -> None:
    with pytest.raises(Refused, match=why):
        read_limits("geometry toe front", text, tolerance)


def test_figures_are_written_with_their_sign_in_the_way_they_were_typed() -> None:
    minutes = read_geometry({"toe RL": "0°10′", "toe RR": "0.05°"})
    assert in_minutes(minutes)
    assert angle_text(minutes["total toe rear"].value, True) == "+0°13′"
    decimal = read_geometry({"camber FL": "-0.755", "camber FR": "-0.5"})
    assert not in_minutes(decimal)
    assert angle_text(decimal["camber FL"].value, False, exact=True) == "−0.755°"
    assert angle_text(decimal["cross camber front"].value, False).startswith("−0.2")
    mm = read_geometry({"toe FL": "1.5 mm", "toe FR": "1 mm", "toe diameter": "16 in"})
    assert angle_text(mm["total toe front"].value, False) == "+2.50\u202fmm"


def test_names_say_which_wheel_or_which_axle() -> None:
    assert title_of("inclination FL") == "Steering-axis inclination FL"
    assert (title_of("total toe rear"), title_of("thrust")) == ("Total toe rear", "Thrust angle")
    assert [is_geometry(name) for name in ("toe diameter", "camber RR", "camber")] == [True, True, False]
