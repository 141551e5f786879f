"""Heights with their staffs, and the leak-down stand with its chart."""

from dataclasses import dataclass

from reportlab.platypus import Flowable, Paragraph

from jobbook.core.drawing import NOTE_LETTERS, CornerHeights, Curve, height_staffs, leak_down_chart, notes
from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import NONE_RECORDED, column, facts, heading, side_by_side, spaced
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.typed import para

LONG = 700  # letters; with more the blocks stand one under the other
FOOT_LETTERS = 40  # of one text under the chart
NARROW = 54.0  # of the label's column in half a page
LEGEND = (
    "Open mark: before. Full mark: after, with the change beside it. Long line and small figure: target. "
    "Hatched: within limits; dashed lines: the guard bands, between which a reading is sure to conform."
)


@dataclass(frozen=True)
class Heights:
    """Heights per corner, where they were measured, under which conditions, and where the limits stand.

    `before` and `after` say when, by whom, with what and at which temperature; `limits` names figures and source marks;
    `judged` says what follows for each corner and with which guard band, `apart` the differences of sides and axles.
    """

    corners: tuple[CornerHeights, ...] = ()
    points: str = ""
    limits: str = ""
    before: str = ""
    after: str = ""
    judged: str = ""
    apart: str = ""
    unit: str = "mm"


@dataclass(frozen=True)
class LeakDown:
    """One stand: curves, first and last reading in words, what the dashes mean, conditions, and the reckoning."""

    curves: tuple[Curve, ...] = ()
    start: str = ""
    end: str = ""
    note: str = ""
    conditions: str = ""
    reckoning: str = ""


def _facts(heights: Heights) -> list[tuple[str, str]]:
    said = [("Measured", heights.points), ("Limits", heights.limits), ("Before", heights.before)]
    said.append(("After", heights.after))
    said += [(label, text) for label, text in (("Judged", heights.judged), ("Differences", heights.apart)) if text]
    long = [(row.corner, note) for row in heights.corners for note in notes(row) if len(note) > NOTE_LETTERS]
    return [*said, *long]


def _stand_facts(stand: LeakDown) -> list[tuple[str, str]]:
    said = [("Conditions", stand.conditions), ("Reckoning", stand.reckoning)]
    foot = (("First", stand.start), ("Last", stand.end), ("Drawn", stand.note))
    return [*said, *((label, text) for label, text in foot if len(text) > FOOT_LETTERS)]


def _staffs(heights: Heights, width: float) -> list[Flowable]:
    drawn = Painted(height_staffs(heights.corners, width)) if heights.corners else para(NONE_RECORDED)
    return [heading(f"Heights, {heights.unit}", width), spaced(4), drawn]


def _conditions(heights: Heights, width: float) -> list[Flowable]:
    legend = Paragraph(LEGEND, sheet.style("note"))
    return [heading("How they were measured", width), spaced(3), *facts(_facts(heights), NARROW), legend]


def _chart(stand: LeakDown, width: float) -> list[Flowable]:
    """The chart; what is too long for its foot stands beside it."""
    start, end, note = (
        text if len(text) <= FOOT_LETTERS else instead
        for text, instead in ((stand.start, "first reading"), (stand.end, "last reading"), (stand.note, ""))
    )
    drawing = leak_down_chart(stand.curves, start, end, note, width)
    return [heading("Leak-down stand, drop in mm", width), spaced(4), Painted(drawing)]


def _stand(stand: LeakDown, width: float) -> list[Flowable]:
    return [heading("How it stood", width), spaced(3), *facts(_stand_facts(stand), NARROW)]


def _drawn(heights: Heights, width: float, stand: LeakDown | None) -> list[Flowable]:
    """The staffs, beside them the chart where there is one."""
    if stand is None:
        return _staffs(heights, width)
    each = column(width)
    return [side_by_side(_staffs(heights, each), _chart(stand, each), width)]


def heights_block(heights: Heights, width: float, stand: LeakDown | None = None) -> list[Flowable]:
    """Staffs, beside them the chart of the stand where there was one, and how both were measured."""
    said = [*_facts(heights), *(_stand_facts(stand) if stand else ())]
    if sum(len(text) for _, text in said) > LONG:
        stood = [spaced(), *_stand(stand, width)] if stand else []
        return [spaced(), *_drawn(heights, width, stand), spaced(), *_conditions(heights, width), *stood]
    each = column(width)
    upper = _chart(stand, each) if stand else _conditions(heights, each)
    lower = [spaced(7), side_by_side(_conditions(heights, each), _stand(stand, each), width)] if stand else []
    return [spaced(), side_by_side(_staffs(heights, each), upper, width), *lower]
