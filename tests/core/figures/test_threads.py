"""Threads, and whether a torque suits its bolt."""

from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.bolts import assembly
from jobbook.core.figures.plausible import plausible_torque
from jobbook.core.figures.threads import read_thread
from jobbook.core.quantities import read_quantity


@pytest.mark.parametrize(
    ("text", "name"),
    [
        *(("M12x1.5", "M12x1.5"), ("m12 x 1,5", "M12x1.5"), ("M12×1.5", "M12x1.5"), ("M12*1.5", "M12x1.5")),
        *(("M12", "M12"), ("M 12", "M12"), ("M12x1.75", "M12"), ("M2.5", "M2.5"), ("M10X1.0", "M10x1")),
    ],
)
def test_a_thread_is_read_however_people_write_it(text: str, name: str) -> None:
    assert read_thread(text).name == name


@pytest.mark.parametrize(
    "text", ["M11", "M12x2", "M12x1.6", "12x1.5", "M12x", "Mx1.5", "M12x1.5x2", "M 12 x 1.5 y", "UNF 1/2", "M٣", "M100"]
)
def test_what_is_not_in_iso_261_is_no_thread(text: str) -> None:
    with pytest.raises(Refused, match="was not taken"):
        read_thread(text)


def verdict(torque: str, thread: str, grade: str) -> tuple[str, str | None]:
    found = plausible_torque(read_quantity(torque, "torque"), read_thread(thread), grade)
    return found.verdict, found.hint


def test_a_slip_of_the_unit_is_named() -> None:
    # 81 lbf·ft are 109.8 N·m: the figure of an M12x1.5 of 10.9 was read in the other column.
    assert verdict("81 N*m", "M12x1.5", "10.9") == ("low", "81\u202flbf·ft would be 109.8\u202fN·m")
    assert verdict("85 lbf*ft", "M12x1.5", "8.8") == ("high", "85\u202fN·m would be usual")
    assert verdict("200 N*m", "M12x1.5", "10.9") == ("high", None)


def test_low_usual_high_and_impossible_follow_each_other() -> None:
    found = [verdict(f"{torque} N*m", "M12x1.5", "10.9")[0] for torque in (50, 94, 95, 156, 157, 250, 400)]
    assert found == ["low", "low", "usual", "usual", "high", "high", "impossible"]


def test_a_size_without_bearing_data_is_refused_by_its_key() -> None:
    with pytest.raises(Refused, match=r"^thread was not taken: there is no bearing data"):
        assembly(read_thread("M24"), "8.8", Fraction(12, 100))
