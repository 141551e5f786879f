"""Columns that somebody drew wider are as wide in the next window; what was damaged is left out."""

from jobbook.ui.frame import build_window
from jobbook.ui.places import JOBS, Place
from jobbook.ui.tables import RecordTable


def test_columns_that_were_drawn_wider_are_as_wide_in_the_next_window(qtbot, window, setting, duty, lanes, settings):
    def table(of):
        of.go(Place(JOBS))
        return next(one for one in of.findChildren(RecordTable) if one.accessibleName() == "Jobs")

    made = table(window).columnWidth(2)
    table(window).setColumnWidth(2, made + 60)
    window.close()
    again = build_window(setting, duty, lanes, settings, lambda wish: None)
    qtbot.addWidget(again)
    assert table(again).columnWidth(2) == made + 60
    table(again).setColumnWidth(2, made)
    again.close()
    assert not [key for key in settings.allKeys() if key.startswith("widths/Jobs")]
    settings.setValue("widths/Jobs 7", {"2": "-5", "x": "9", "3": "999999"})
    third = build_window(setting, duty, lanes, settings, lambda wish: None)
    qtbot.addWidget(third)
    assert table(third).columnWidth(2) == made
