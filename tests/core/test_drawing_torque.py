"""What the adapter, the band and the toe drawing hold: within their size, in proportion, with their words."""

from math import atan2, degrees, hypot

import pytest

from jobbook.core.drawing import Band, Circle, Drawing, Label, Line, Polygon, adapter_drawing, band_drawing, toe_drawing


def points(drawing: Drawing):
    for shape in drawing.shapes:
        match shape:
            case Line():
                yield from (shape.start, shape.end)
            case Polygon():
                yield from shape.points
            case Circle():
                yield shape.centre
            case Label():
                yield shape.at


def within(drawing: Drawing) -> bool:
    return all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points(drawing))


def centres(drawing: Drawing):
    """Drive and fastener: the two circles, in the order in which they are drawn."""
    return [shape.centre for shape in drawing.shapes if isinstance(shape, Circle)]


@pytest.mark.parametrize("angle", [0, 30, 90, 135, 180, 225, 270, -45])
@pytest.mark.parametrize(("lever", "extension"), [(400, 50), (200, 300), (1000, 1), (400, -60)])
def test_the_adapter_stays_within_its_size_whatever_is_measured(lever, extension, angle):
    assert within(adapter_drawing(lever, extension, angle))


@pytest.mark.parametrize("angle", [0, 30, 90, 150])
def test_the_adapter_is_drawn_at_its_angle_and_in_proportion_to_the_lever(angle):
    drawing = adapter_drawing(400, 200, angle)
    drive, fastener = centres(drawing)
    bar = next(shape for shape in drawing.shapes if isinstance(shape, Polygon))
    long = bar.points[1][0] - bar.points[0][0]
    x, y = fastener[0] - drive[0], drive[1] - fastener[1]
    assert degrees(atan2(y, x)) == pytest.approx(angle)
    assert hypot(x, y) / long == pytest.approx(200 / 400)


def test_a_negative_extension_points_back_to_the_grip():
    drive, fastener = centres(adapter_drawing(400, -100, 0))
    assert fastener[0] < drive[0]


def test_the_adapter_says_what_it_shows():
    words = adapter_drawing(400, 50, 0, ("L 400 mm", "E 50 mm", "0°"), "set 97.8 N·m").words
    assert words == "A wrench with an adapter: lever L 400 mm, extension E 50 mm, angle 0°; set 97.8 N·m"


@pytest.mark.parametrize("value", [0, 94, 95, 110, 156, 400, 1e9])
def test_a_figure_far_outside_the_band_stays_on_the_line(value):
    band = Band(value, 94.5, 156.3, f"{value} N·m", "94.5 N·m", "156.3 N·m")
    assert within(band_drawing(band, "the torque"))


def test_the_guard_band_lies_on_either_side_of_each_limit():
    drawing = band_drawing(Band(403.1, 395, 405, "403.1", "395", "405", 1.8), "a height")
    guards = [s.points for s in drawing.shapes if isinstance(s, Polygon) and s.fill == "rule"]
    limits = [s.start[0] for s in drawing.shapes if isinstance(s, Line) and s.width == 0.9]
    assert [(p[0][0] + p[1][0]) / 2 for p in guards] == pytest.approx(limits)


@pytest.mark.parametrize(("inward", "word"), [(1, "toe-in"), (-1, "toe-out"), (0, "neither")])
def test_toe_in_turns_the_fronts_of_the_wheels_to_each_other(inward, word):
    drawing = toe_drawing(inward, "0.2°", "1.2 mm")
    left, right = (s.points for s in drawing.shapes if isinstance(s, Polygon) and s.stroke == "ink")
    front = right[0][0] - left[0][0]
    back = right[3][0] - left[3][0]
    assert (back > front) - (back < front) == inward
    assert word in drawing.words
    assert within(drawing)
