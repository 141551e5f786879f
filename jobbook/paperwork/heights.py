"""Heights with their staffs, and the leak-down stand with its chart."""

from dataclasses import dataclass

from reportlab.platypus import Flowable, Paragraph

from jobbook.core.drawing import CornerHeights, Curve, height_staffs, leak_down_chart
from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import NONE_RECORDED, column, facts, heading, side_by_side, spaced
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.typed import para, shown

LONG = 700  # letters; with more the blocks stand one under the other
NARROW = 54.0  # of the label's column in half a page
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
    return [heading("How they were measured", width), spaced(3), *facts(heights_facts(heights), NARROW), legend]


def _chart(stand: LeakDown, width: float) -> list[Flowable]:
    drawing = leak_down_chart(stand.curves, shown(stand.start), shown(stand.end), shown(stand.note), width)
    return [heading("Leak-down stand, drop in mm", width), spaced(4), Painted(drawing)]


def _stand(stand: LeakDown, width: float) -> list[Flowable]:
    said = facts([("Conditions", stand.conditions), ("Reckoning", stand.reckoning)], NARROW)
    return [heading("How it stood", width), spaced(3), *said]


def heights_block(heights: Heights, width: float, stand: LeakDown | None = None) -> list[Flowable]:
    """Staffs, beside them the chart of the stand where there was one, and how both were measured."""
    each = column(width)
    drawn, said = _staffs(heights, each), _conditions(heights, each)
    if _letters(heights, stand) > LONG:
        charted = [spaced(), *_chart(stand, width), *_stand(stand, width)] if stand else []
        return [spaced(), *_staffs(heights, width), spaced(), *_conditions(heights, width), *charted]
    if stand is None:
        return [spaced(), side_by_side(drawn, said, width)]
    lower = side_by_side(said, _stand(stand, each), width)
    return [spaced(), side_by_side(drawn, _chart(stand, each), width), spaced(4), lower]


def _letters(heights: Heights, stand: LeakDown | None) -> int:
    texts = [text for _, text in heights_facts(heights)]
    return sum(map(len, [*texts, stand.conditions, stand.reckoning] if stand else texts))
