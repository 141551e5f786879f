"""Two sheets stand beside one another, and one under the other where the window is narrow."""

import pytest
from PySide6.QtWidgets import QLabel, QLineEdit

from jobbook.ui.controls import Facing, Said, column, frame, scrolling


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


def test_a_sentence_that_wraps_makes_no_room_that_nothing_stands_in(qtbot, dressed):
    left, right = frame("sheet"), frame("sheet")
    known = Said("cry")
    left.setLayout(column(QLineEdit(), known, 1))
    right.setLayout(column(QLineEdit(), 1))
    area = scrolling(Facing(left, right, alike=True))
    qtbot.addWidget(area)
    area.resize(900, 200)
    area.show()
    known.setText("Varnholt estate bears this plate. It was here twice, last in job 2, and went out in order.")
    qtbot.waitUntil(lambda: known.height() > 0)
    assert area.verticalScrollBar().maximum() == 0
