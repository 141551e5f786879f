"""What a staff, a mark, a joint cell and a leak-down chart consist of; the window and the papers only paint it.

A drawing is a size in points, y downward, and a handful of shapes from a closed set: Line, Polygon, Circle, Sector,
Label. Colours are roles ("ink", "soft", "rule", "bluing", ...) that each painter looks up in its own palette.
"""

from jobbook.core.drawing.adapter import adapter_drawing
from jobbook.core.drawing.band import Band, band_drawing
from jobbook.core.drawing.chart import Curve, leak_down_chart
from jobbook.core.drawing.geometry import GeometryRow, Wheel, geometry_drawing
from jobbook.core.drawing.marks import MARKS, joint_cell, mark, mark_of_answer
from jobbook.core.drawing.shapes import ROLES, Circle, Drawing, Label, Line, Polygon, Sector, Shape, moved, scaled
from jobbook.core.drawing.staff import NOTE_LETTERS, CornerHeights, height_staff, height_staffs, notes
from jobbook.core.drawing.toe import toe_drawing

__all__ = [
    "MARKS",
    "NOTE_LETTERS",
    "ROLES",
    "Band",
    "Circle",
    "CornerHeights",
    "Curve",
    "Drawing",
    "GeometryRow",
    "Label",
    "Line",
    "Polygon",
    "Sector",
    "Shape",
    "Wheel",
    "adapter_drawing",
    "band_drawing",
    "geometry_drawing",
    "height_staff",
    "height_staffs",
    "joint_cell",
    "leak_down_chart",
    "mark",
    "mark_of_answer",
    "moved",
    "notes",
    "scaled",
    "toe_drawing",
]
