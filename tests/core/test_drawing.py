"""Drawings as data: nothing collides, nothing leaves its frame, and what is missing is not drawn."""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.drawing import (
    MARKS,
    Circle,
    CornerHeights,
    Curve,
    Label,
    Line,
    Polygon,
    Sector,
    height_staff,
    height_staffs,
    joint_cell,
    leak_down_chart,
    mark,
    mark_of_answer,
    moved,
    scaled,
)
from jobbook.core.drawing.shapes import ROLES, hatch, spread
from jobbook.core.drawing.staff import TICK_MM

D = Decimal
MM = st.decimals(min_value=100, max_value=1200, places=1)
MAYBE = st.none() | MM


def labels(drawing):
    return [shape for shape in drawing.shapes if isinstance(shape, Label)]


def texts(drawing):
    return [label.text for label in labels(drawing)]


def pointers(drawing):
    return [shape for shape in drawing.shapes if isinstance(shape, Polygon)]


def hatching(drawing):
    return [s for s in drawing.shapes if isinstance(s, Line) and s.start[0] != s.end[0] and s.start[1] != s.end[1]]


def points_of(shape):
    match shape:
        case Line():
            return [shape.start, shape.end]
        case Polygon():
            return list(shape.points)
        case Circle() | Sector():
            (x, y), r = shape.centre, shape.radius
            return [(x - r, y - r), (x + r, y + r)]
        case Label():
            return [shape.at]


def test_without_limits_the_eye_sees_which_corner_hangs():
    """Two readings without a target stand on one scale: the pointer of the one that is 58 mm down lies 58 mm lower."""
    rows = [CornerHeights(corner, before=D(mm), after_words="") for corner, mm in (("RL", "398"), ("RR", "340"))]
    drawing = height_staffs(rows)
    ticks = sorted({shape.start[1] for shape in drawing.shapes if isinstance(shape, Line) and shape.width == 0.6})
    each_mm = (ticks[1] - ticks[0]) / TICK_MM
    high, low = (shape.points[0][1] for shape in drawing.shapes if isinstance(shape, Polygon))
    assert low - high == pytest.approx(58 * each_mm)


def test_the_axles_are_not_held_against_one_another():
    """Arch edges stand at another height in front than at the rear: that difference is no corner that hangs."""
    rows = [CornerHeights(corner, before=D(mm), after_words="") for corner, mm in (("FL", "420"), ("RL", "352"))]
    front, rear = (s.points[0][1] for s in height_staffs(rows).shapes if isinstance(s, Polygon))
    assert front == rear


def test_a_staff_shows_before_after_target_and_the_change():
    staff = height_staff("FL", D(392), D(402), D(412), before=D(366), as_left=D(401))
    assert {"366", "401", "402", "+35", "FL"} <= set(texts(staff))
    assert staff.words == ("FL: before 366 mm, after 401 mm, target 402 mm, lower limit 392 mm, upper limit 412 mm")


def test_readings_that_lie_close_are_moved_apart_in_their_order():
    staff = height_staff("FR", D(392), D(400), D(412), before=D(399), as_left=D(401))
    at = {label.text: label.at[1] for label in labels(staff)}
    assert at["401"] < at["400"] < at["399"]
    assert min(at["400"] - at["401"], at["399"] - at["400"]) >= 8


def test_equal_readings_are_both_written():
    staff = height_staff("FR", D(392), D(402), D(412), before=D(401), as_left=D(401))
    assert texts(staff).count("401") == 2
    assert "±0" in texts(staff)


def test_a_higher_reading_points_higher_and_ten_millimetres_are_as_far_everywhere():
    rows = [CornerHeights(c, D(t - 10), D(t), D(t + 10), D(t - 20), D(t + 10)) for c, t in (("FL", 402), ("RL", 560))]
    tips = [pointer.points[0][1] for pointer in pointers(height_staffs(rows))]
    assert tips[0] == tips[2] > tips[1] == tips[3]


@pytest.mark.parametrize(("value", "outward"), [(D(700), "up"), (D(150), "down")])
def test_a_reading_beyond_the_rule_stands_at_its_end_pointing_out_with_its_number(value, outward):
    staff = height_staff("RL", D(392), D(402), D(412), before=value)
    (pointer,) = pointers(staff)
    edge, back, tip = (point[1] for point in pointer.points)
    assert edge == back
    assert (tip < edge) is (outward == "up")
    assert str(value) in texts(staff)
    assert 0 <= tip <= staff.height


def test_without_limits_there_is_no_band_and_it_is_said():
    staff = height_staff("FL", before=D(366), as_left=D(401))
    assert hatching(staff) == []
    assert "no limits given" in " ".join(texts(staff))
    assert "no limits given" in staff.words


def test_with_one_limit_the_band_is_open_to_the_end_of_the_rule():
    closed = hatching(height_staff("FL", D(392), D(402), D(412), as_left=D(400)))
    opened = hatching(height_staff("FL", D(392), D(402), None, as_left=D(400)))
    assert min(line.end[1] for line in opened) < min(line.end[1] for line in closed)


def test_a_missing_reading_has_no_mark_and_says_so():
    staff = height_staff("FL", D(392), D(402), D(412), as_left=D(401))
    assert len(pointers(staff)) == 1
    assert "before: not measured" in " ".join(texts(staff))
    assert "+" not in "".join(texts(staff))


def test_the_reason_for_a_missing_reading_is_kept_whole_in_words():
    why = "not possible: the vehicle came in on its stops with no air at any corner"
    row = CornerHeights("FL", before_words=why, as_left=D(400))
    assert why in height_staffs([row]).words
    assert any(text.endswith("…") for text in texts(height_staffs([row])))


def test_a_reading_that_is_not_due_yet_is_not_spoken_of():
    row = CornerHeights("FL", D(392), D(402), D(412), D(366), None, after_words="")
    assert "after" not in height_staffs([row]).words


def test_nothing_known_draws_a_bare_rule():
    staff = height_staff("RR")
    assert pointers(staff) == []
    assert "before: not measured" in staff.words
    assert "after: not measured" in staff.words


@given(MAYBE, MAYBE, MAYBE, MAYBE, MAYBE)
def test_whatever_is_measured_stays_in_the_frame_and_every_number_is_written(lower, target, upper, before, as_left):
    staff = height_staff("FL", lower, target, upper, before, as_left)
    corners = [point for shape in staff.shapes for point in points_of(shape)]
    assert all(-1 <= x <= staff.width and -1 <= y <= staff.height for x, y in corners)
    written = {D(text.replace("−", "-")) for text in texts(staff) if text.lstrip("+−").replace(".", "").isdigit()}
    assert {value for value in (target, before, as_left) if value is not None} <= written
    column = sorted(label.at[1] for label in labels(staff) if label.at[0] == 27)
    assert all(b - a >= 8 for a, b in pairwise(column))


@given(st.lists(st.floats(0, 100), max_size=6), st.floats(1, 15))
def test_spread_keeps_order_distance_and_bounds(wanted, gap):
    placed = spread(sorted(wanted), gap, 0, 100)
    assert all(b - a >= gap - 1e-9 for a, b in pairwise(placed))
    assert all(-1e-9 <= y <= 100 + 1e-9 for y in placed)


def test_labels_with_room_stay_where_they_are_wanted():
    assert spread((10, 40, 90), 9, 0, 100) == (10, 40, 90)


@given(st.floats(1, 60), st.floats(1, 60))
def test_hatching_ends_exactly_at_the_edges(width, height):
    for line in hatch(5, 7, width, height):
        for x, y in (line.start, line.end):
            assert 5 - 1e-6 <= x <= 5 + width + 1e-6
            assert 7 - 1e-6 <= y <= 7 + height + 1e-6
        assert line.end[0] >= line.start[0]
        assert line.end[1] <= line.start[1]


def test_every_mark_is_of_the_closed_set_and_fits_its_square():
    for kind, meaning in MARKS.items():
        drawing = mark(kind, 12)
        assert drawing.words == meaning
        assert all(0 <= x <= 12 and 0 <= y <= 12 for shape in drawing.shapes for x, y in points_of(shape))


def test_an_answer_has_its_own_mark_and_an_unknown_word_has_none():
    assert [mark_of_answer(a) for a in ("done", "not done", "declined", "not possible")] == [
        "disc",
        "ring",
        "bar",
        "bar",
    ]
    assert mark_of_answer("not applicable") not in ("disc", "ring", "bar")
    assert mark_of_answer("unknown") not in ("disc", "ring", "bar")
    with pytest.raises(KeyError):
        mark_of_answer("fine")


def test_a_joint_cell_says_mark_and_text():
    cell = joint_cell("half", "started by hand")
    assert texts(cell) == ["started by hand"]
    assert cell.words == "begun: started by hand"
    assert joint_cell("ring").words == "not begun"


def chart(*curves):
    return leak_down_chart(curves, "17:40, 18 °C", "07:10, 11 °C", "dashed: average of the others")


FL = Curve("FL 36", ((D(0), D(0)), (D("13.5"), D(36))), strong=True)
OTHERS = Curve("others 4.3", ((D(0), D(0)), (D("13.5"), D("4.3"))))


def test_a_drop_goes_down_and_the_axis_reaches_past_it():
    drawn = chart(FL, OTHERS)
    (strong,) = [s for s in drawn.shapes if isinstance(s, Line) and s.width == 1.4]
    assert strong.end[1] > strong.start[1]
    assert [t for t in texts(drawn) if t.isdigit()] == ["0", "10", "20", "30", "40"]
    axis = {label.text: label.at[1] for label in labels(drawn)}
    depth = (strong.end[1] - strong.start[1]) / (axis["40"] - axis["0"])
    assert depth == pytest.approx(36 / 40)


def test_the_strong_curve_is_plain_and_the_others_are_dashed():
    dashed = [s for s in chart(FL, OTHERS).shapes if isinstance(s, Line) and s.dashed]
    assert len(dashed) == 1


def test_a_corner_that_rose_is_drawn_above_nought():
    drawn = chart(Curve("RR −3", ((D(0), D(0)), (D(10), D(-3)))))
    assert "−3" in "".join(t for t in texts(drawn) if t.startswith("−")) or "−4" in texts(drawn)
    rising = [s for s in drawn.shapes if isinstance(s, Line) and s.dashed]
    assert rising[0].end[1] < rising[0].start[1]


def test_curves_that_end_close_have_their_labels_apart():
    ends = [Curve(name, ((D(0), D(0)), (D(12), D(drop)))) for name, drop in (("FR", 3), ("RL", 4), ("RR", 4))]
    rows = sorted(label.at[1] for label in labels(chart(FL, *ends)) if label.text in ("FR", "RL", "RR", "FL 36"))
    assert all(b - a >= 9 for a, b in pairwise(rows))


def test_without_readings_the_chart_says_so():
    drawn = leak_down_chart((), "", "")
    assert "no readings" in texts(drawn)
    assert "no readings" in drawn.words
    assert not [text for text in texts(drawn) if text.isdigit()]


def test_a_curve_without_points_is_left_out_and_one_reading_is_no_line():
    drawn = chart(Curve("FL", ()), Curve("FR 0", ((D(0), D(0)),)))
    assert "FR 0" in texts(drawn)
    assert not [s for s in drawn.shapes if isinstance(s, Line) and s.dashed]


def test_scaling_and_moving_keep_proportions():
    staff = height_staff("FL", D(392), D(402), D(412), D(366), D(401))
    double = scaled(staff, 2)
    assert (double.width, double.height) == (staff.width * 2, staff.height * 2)
    assert labels(double)[0].size == labels(staff)[0].size * 2
    shifted = moved(staff.shapes, 3, 5)
    for was, now in zip(staff.shapes, shifted, strict=True):
        for (x, y), (u, v) in zip(points_of(was), points_of(now), strict=True):
            assert (u, v) == pytest.approx((x + 3, y + 5))


def test_every_role_is_one_that_both_painters_know():
    drawings = [height_staff("FL", D(392), D(402), D(412), D(366), D(401)), chart(FL, OTHERS)]
    drawings += [mark(kind, 10, role) for kind in MARKS for role in ROLES]
    for shape in (shape for drawing in drawings for shape in drawing.shapes):
        named = {getattr(shape, part) for part in ("role", "fill", "stroke") if hasattr(shape, part)}
        assert named <= {*ROLES, ""}
