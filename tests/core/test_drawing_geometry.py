"""The lines of wheel geometry: where marks stand, and what they say to whoever cannot see them."""

import pytest

from jobbook.core.drawing import Drawing, GeometryRow, Label, Line, Polygon, Wheel, geometry_drawing

FRONT = GeometryRow(
    "Toe, front",
    (
        Wheel("FL", 0.25, 0.15, "+0°15′", "+0°09′", "conform"),
        Wheel("FR", None, 0.40, "", "+0°24′", "not conform"),
    ),
    "+0°05′ to +0°15′",
    5 / 60,
    15 / 60,
)
PLAIN = GeometryRow("Thrust angle", (Wheel("", 0.05, None, "+0°03′"),), "no limits known")


def labels(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Label)]


def marks(drawing: Drawing) -> list[Polygon]:
    return [shape for shape in drawing.shapes if isinstance(shape, Polygon)]


def test_open_marks_are_as_found_and_full_ones_as_set_the_left_wheel_above_the_line() -> None:
    found, left, right = marks(geometry_drawing([FRONT]))
    assert [one.fill for one in (found, left, right)] == ["sheet", "ink", "ink"]
    assert found.points[0][0] > left.points[0][0]  # toe was taken in, so the mark went to the left
    assert left.points[1][1] < left.points[0][1] < right.points[0][1] < right.points[1][1]


def test_figures_stand_beside_the_line_and_a_verdict_only_where_it_is_not_the_best() -> None:
    told = labels(geometry_drawing([FRONT]))
    assert told[2:] == ["FL +0°09′", "was +0°15′", "FR +0°24′", "not conform"]
    assert "conform" not in told


def test_a_figure_that_did_not_change_is_said_once() -> None:
    same = GeometryRow("Camber, rear", (Wheel("RL", -1.0, -1.0, "−1°00′", "−1°00′"),))
    assert not any(text.startswith("was") for text in labels(geometry_drawing([same])))


def test_without_limits_there_is_a_line_and_no_band() -> None:
    drawn = geometry_drawing([PLAIN])
    assert sum(isinstance(shape, Line) for shape in drawn.shapes) == 1
    assert "no limits known" in labels(drawn)


def test_a_figure_far_outside_stays_on_its_line() -> None:
    far = GeometryRow("Toe, front", (Wheel("FL", None, 4.0, "", "+4°00′", "not conform"),), "", 5 / 60, 15 / 60)
    drawn = geometry_drawing([far], 240)
    (mark,) = marks(drawn)
    assert mark.points[0][0] < 240 - 94 + 1


@pytest.mark.parametrize(("rows", "columns", "high"), [(4, 1, 4), (4, 2, 2), (5, 2, 3), (0, 2, 0)])
def test_rows_stand_one_under_the_other_in_as_many_columns_as_are_asked_for(rows: int, columns: int, high: int) -> None:
    drawn = geometry_drawing([PLAIN] * rows, 500, columns)
    assert drawn.height == high * geometry_drawing([PLAIN]).height
    assert all(0 <= label.at[0] <= 500 for label in drawn.shapes if isinstance(label, Label))


def test_the_drawing_says_everything_in_words() -> None:
    assert geometry_drawing([FRONT, PLAIN]).words == (
        "Toe, front, +0°05′ to +0°15′; FL before +0°15′, after +0°09′ conform; FR after +0°24′ not conform. "
        "Thrust angle, no limits known; before +0°03′"
    )
