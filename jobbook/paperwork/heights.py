"""Heights with their staffs, and the leak-down stand with its chart."""

from dataclasses import dataclass

from reportlab.platypus import Flowable, Paragraph

from jobbook.core.drawing import CornerHeights, Curve, height_staffs, leak_down_chart
from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import NONE_RECORDED, column, facts, heading, side_by_side, spaced
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.typed import para, shown

LONG = 700
LEGEND = (
    "Open mark: before. Full mark: after, with the change beside it. Long line and small figure: target. "
    "Hatched: within limits."
)


@dataclass(frozen=True)
class Heights:
    """Heights per corner, where they were measured, under which conditions, and where the limits stand.

    `before` and `after` say when, by whom, with what and at which temperature; `limits` names figures and source marks.
    """

    corners: tuple[CornerHeights, ...] = ()
    points: str = ""
    limits: str = ""
    before: str = ""
    after: str = ""


@dataclass(frozen=True)
class LeakDown:
    """One stand: curves, first and last reading in words, what the dashes mean, conditions, and the reckoning."""

    curves: tuple[Curve, ...] = ()
    start: str = ""
    end: str = ""
    note: str = ""
    conditions: str = ""
    reckoning: str = ""


def heights_facts(heights: Heights) -> list[tuple[str, str]]:
    return [
        ("Measured", heights.points),
        ("Limits", heights.limits),
        ("Before", heights.before),
        ("After", heights.after),
    ]


def _staffs(heights: Heights, width: float) -> list[Flowable]:
    drawn: list[Flowable] = [heading("Heights, mm", width), spaced(4)]
    return (
        [*drawn, Painted(height_staffs(heights.corners, width))] if heights.corners else [*drawn, para(NONE_RECORDED)]
    )


def _conditions(heights: Heights, width: float) -> list[Flowable]:
    legend = Paragraph(LEGEND, sheet.style("note"))
    return [heading("How they were measured", width), spaced(3), *facts(heights_facts(heights), 54), legend]


def heights_block(heights: Heights, width: float) -> list[Flowable]:
    """Staffs at the left, how they were measured at the right; one under the other where that is long."""
    if sum(len(text) for _, text in heights_facts(heights)) > LONG:
        return [spaced(), *_staffs(heights, width), spaced(), *_conditions(heights, width)]
    each = column(width)
    return [spaced(), side_by_side(_staffs(heights, each), _conditions(heights, each), width)]


def leak_down_block(stand: LeakDown, width: float) -> list[Flowable]:
    """The chart of one stand at the left, its conditions and reckoning at the right."""
    each = column(width)
    chart = leak_down_chart(stand.curves, shown(stand.start), shown(stand.end), shown(stand.note), each)
    said = facts([("Conditions", stand.conditions), ("Reckoning", stand.reckoning)], 54)
    if len(stand.conditions) + len(stand.reckoning) > LONG:
        return [spaced(), heading("Leak-down stand, drop in mm", width), spaced(4), Painted(chart), *said]
    left = [heading("Leak-down stand, drop in mm", each), spaced(4), Painted(chart)]
    return [spaced(), side_by_side(left, [heading("The stand", each), spaced(3), *said], width)]
