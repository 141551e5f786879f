"""What the drawings of visits and of part life consist of."""

from datetime import date
from decimal import Decimal

from jobbook.core.drawing.shapes import Circle, Label, Line
from jobbook.core.drawing.survival import survival_plot, tick_step
from jobbook.core.drawing.visits import Panel, VisitPoint, over_visits


def texts(drawing):
    return [shape.text for shape in drawing.shapes if isinstance(shape, Label)]


def points(*days):
    return tuple(VisitPoint(day, Decimal(400 + place), Decimal(402)) for place, day in enumerate(days))


def test_over_many_years_the_turns_of_the_years_stand_at_the_axis_and_never_more_than_four_words():
    panel = Panel("FL", points(*(date(year, 6, 1) for year in range(2016, 2027))))
    drawn = over_visits([panel], "mm", "Heights")
    years = [text for text in texts(drawn) if text.isdigit() and len(text) == 4]
    assert years == ["2017", "2021", "2025"]
    ends = [shape for shape in drawn.shapes if isinstance(shape, Circle)]
    assert len(ends) == 2 * len(panel.points)
    assert all(0 <= one.centre[0] <= drawn.width and 0 <= one.centre[1] <= drawn.height for one in ends)


def test_corners_at_different_heights_are_drawn_to_one_scale_each_round_its_own_middle():
    low, high = (
        Panel("FL", points(date(2026, 1, 1), date(2026, 5, 1))),
        Panel("RL", (VisitPoint(date(2026, 1, 1), Decimal(700)),)),
    )
    drawn = over_visits([low, high], "mm", "Heights")
    assert {"400", "700", "Jan 2026", "May 2026"} <= set(texts(drawn))


def test_a_limit_beyond_the_band_is_dashed_and_a_field_without_readings_says_so():
    panel = Panel("FL", (), Decimal(0), Decimal(5), Decimal(10))
    drawn = over_visits([panel], "mm in 12 h", "Loss")
    assert "no readings" in texts(drawn)
    assert any(shape.dashed for shape in drawn.shapes if isinstance(shape, Line))


def test_ticks_are_one_two_or_five_times_a_power_of_ten_and_at_most_six_reach_the_end():
    assert [tick_step(longest) for longest in (6, 7, 13, 31, 430)] == [1, 2, 5, 10, 100]
    assert all(longest / tick_step(longest) <= 6 for longest in (0.4, 1, 9, 77, 1234))


def test_nothing_to_draw_is_said_in_words():
    assert survival_plot([], "years").words == "Part life: no parts"
