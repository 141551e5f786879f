"""Wheel geometry on a paper: a line for each angle of an axle, and in words how it was read and judged."""

from dataclasses import dataclass

from reportlab.platypus import Flowable, Paragraph

from jobbook.core.drawing import GeometryRow, geometry_drawing
from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import facts, section, spaced
from jobbook.paperwork.heights import NARROW
from jobbook.paperwork.paint import Painted

COLUMNS = 2
LEGEND = (
    "Open mark: as found. Full mark: as set. Hatched: within limits. The first named wheel stands above its line. "
    "Camber + top out, caster + axis back, toe + front in, thrust + rear axle to the right."
)


@dataclass(frozen=True)
class Geometry:
    """The rows as they are drawn, and what is said of them: label and text, in order."""

    rows: tuple[GeometryRow, ...]
    said: tuple[tuple[str, str], ...]


def geometry_block(geometry: Geometry | None, width: float) -> list[Flowable]:
    """The block, or nothing where no geometry is on record."""
    if geometry is None:
        return []
    drawn = Painted(geometry_drawing(geometry.rows, width, COLUMNS))
    legend = Paragraph(LEGEND, sheet.style("note"))
    return section("Wheel geometry", width, [spaced(2), drawn, spaced(3), *facts(geometry.said, NARROW), legend])
