"""Where one reads from the right, drawings stay as they are and controls are turned round."""

from decimal import Decimal

from PySide6.QtCore import Qt

from jobbook.core.drawing import CornerHeights, height_staffs
from jobbook.ui import look
from jobbook.ui.controls import ListBox
from jobbook.ui.paint import DrawingWidget

RIGHT_TO_LEFT = Qt.LayoutDirection.RightToLeft


def test_a_drawing_is_not_turned_round(qtbot, dressed):
    shown = DrawingWidget(height_staffs([CornerHeights("FL", before=Decimal(366), as_left=Decimal(401))]), 2)
    qtbot.addWidget(shown)
    shown.show()
    before = shown.grab().toImage()
    shown.setLayoutDirection(RIGHT_TO_LEFT)
    assert shown.grab().toImage() == before


def arrow_at(box):
    """Where in the box, from 0 to its width, something is drawn in the colour of the arrow."""
    picture = box.grab().toImage()
    soft = look.colour("soft").rgb()
    middle = range(picture.height() // 2 - 4, picture.height() // 2 + 4)
    return [x for x in range(picture.width()) for y in middle if picture.pixel(x, y) == soft]


def test_the_arrow_of_a_list_stands_at_the_end_of_the_line(qtbot, dressed):
    box = ListBox()
    qtbot.addWidget(box)
    box.resize(200, 32)
    box.show()
    assert min(arrow_at(box)) > 150
    box.setLayoutDirection(RIGHT_TO_LEFT)
    assert max(arrow_at(box)) < 50
