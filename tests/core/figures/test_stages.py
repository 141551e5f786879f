"""Stages of a tightening: read in order, kept apart, written back the same."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import MOST_STAGES, parse_stages, stages_text
from jobbook.core.quantities import Unclear


def exact(text: str, tolerance: str = "") -> list[str]:
    return [stage.exact for stage in parse_stages(text, tolerance)]


@pytest.mark.parametrize(
    ("text", "stages"),
    [
        ("50 N*m", ["50 N*m"]),
        ("50 N*m, then +90 deg", ["50 N*m", "+90 deg"]),
        ("50 N*m +90 deg +90 deg", ["50 N*m", "+90 deg", "+90 deg"]),
        ("50 Nm+90°+90°", ["50 N*m", "+90 deg", "+90 deg"]),
        ("50 Nm + 90° + 45°", ["50 N*m", "+90 deg", "+45 deg"]),
        ("30 N·m, 60 N·m; 60 N·m then +90 deg", ["30 N*m", "60 N*m", "60 N*m", "+90 deg"]),
        ("30 Nm,60 Nm,+90 deg", ["30 N*m", "60 N*m", "+90 deg"]),
        ("50,5 Nm, +90 deg", ["50.5 N*m", "+90 deg"]),
        ("37 lbf·ft, then +1°30′", ["37 lbf*ft", "+1.5 deg"]),
        ("+90 deg", ["+90 deg"]),
    ],
)
def test_stages_are_read_in_their_order(text: str, stages: list[str]) -> None:
    assert exact(text) == stages


def test_angles_are_never_added_up() -> None:
    assert exact("50 N*m +90 deg +90 deg") != exact("50 N*m +180 deg")


def test_a_tolerance_of_a_share_holds_for_every_stage_that_has_none() -> None:
    assert exact("50 N*m ± 5 N*m, +90 deg", "± 10 %") == ["50 N*m ± 5 N*m", "+90 deg ± 10 %"]
    assert exact("50 N*m +90 deg", "+/- 10 %") == ["50 N*m ± 10 %", "+90 deg ± 10 %"]


def test_a_tolerance_in_torque_says_nothing_about_an_angle() -> None:
    assert exact("50 N*m +90 deg", "± 5 N*m") == ["50 N*m ± 5 N*m", "+90 deg"]


def test_limits_are_exact_and_in_the_unit_of_the_stage() -> None:
    torque, angle = parse_stages("120 N*m ± 5 %, +90 deg ± 5 deg")
    assert torque.limits() == (Fraction(114), Fraction(126))
    assert angle.limits() == (Fraction(85), Fraction(95))
    assert parse_stages("120 N*m")[0].limits() == (Fraction(120), Fraction(120))
    assert parse_stages("100 N*m ± 1 lbf*ft")[0].limits()[1] == 100 + Fraction("1.3558179483314004")


def test_stages_are_written_for_people() -> None:
    assert stages_text(parse_stages("50 N*m ± 10 % +90 deg")) == "50\u202fN·m ± 10\u202f%, then +90°"


torques = st.lists(st.integers(1, 400), max_size=3).map(sorted)
angles = st.lists(st.integers(1, 180), min_size=1, max_size=4)


@given(torques=torques, angles=angles, tolerance=st.sampled_from(["", " ± 10 %"]))
def test_what_is_written_is_read_back_the_same(torques: list[int], angles: list[int], tolerance: str) -> None:
    text = ", ".join([f"{t} N*m{tolerance}" for t in torques] + [f"+{a} deg" for a in angles])
    stages = parse_stages(text)
    assert ", ".join(stage.exact for stage in stages) == text
    assert parse_stages(stages_text(stages)) == stages


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "there are 0 of them"),
        ("50 N*m 90 deg", "not taken"),
        ("50 N*m, 90 deg", "an angle without one"),
        ("50 N*m, +20 N*m", "a torque with a plus"),
        ("+90 deg, 50 N*m", "a torque after an angle"),
        ("60 N*m, 30 N*m", "would not turn the fastener"),
        ("50, +90 deg", "has no unit"),
        ("50 mm", "mm is a length"),
        ("0 N*m", "not above nought"),
        ("-50 N*m", "never negative"),
        ("50 N*m ± 60 N*m", "reaches below nought"),
        ("50 N*m ± 5 deg", "is no tolerance of"),
        ("50 N*m ± some", "is no tolerance of"),
        ("50 N*m ± -10 %", "reaches below nought"),
        ("10 N*m, " * (MOST_STAGES + 1), f"there are {MOST_STAGES + 1} of them"),
        ("1" * 401, "longer than 400 characters"),
        ("2 x 50 N*m", "more than one figure"),
    ],
)
def test_what_is_no_tightening_is_refused_in_a_sentence(text: str, words: str) -> None:
    with pytest.raises(Refused) as caught:
        parse_stages(text)
    assert words in str(caught.value)
    assert str(caught.value).endswith(".")


def test_a_general_tolerance_that_cannot_be_read_is_refused() -> None:
    with pytest.raises(Refused, match="± tight is no tolerance"):
        parse_stages("50 N*m", "tight")


def test_a_torque_that_can_be_read_in_two_ways_is_asked_about() -> None:
    with pytest.raises(Unclear):
        parse_stages("1.234 N*m, +90 deg")
