"""Two sheets stand beside one another, and one under the other where the window is narrow."""

import pytest
from PySide6.QtWidgets import QLabel

from jobbook.ui.controls import Facing, scrolling


@pytest.mark.parametrize(("width", "beside"), [(900, True), (500, False)])
def test_sheets_that_do_not_fit_side_by_side_stand_under_one_another(qtbot, dressed, width, beside):
    left, right = QLabel("left"), QLabel("right")
    for sheet in (left, right):
        sheet.setMinimumSize(400, 300)
    area = scrolling(Facing(left, right, alike=True))
    qtbot.addWidget(area)
    area.resize(width, 400)
    area.show()
    qtbot.waitUntil(lambda: (right.y() == left.y()) is beside and (right.x() == left.x()) is not beside)
    assert area.horizontalScrollBar().maximum() == 0
    assert (area.verticalScrollBar().maximum() > 0) is not beside
