"""Where one was on a long tab, one stays when something was kept there."""

from datetime import date

from PySide6.QtWidgets import QApplication

from jobbook.services.sheet.sheets import Ask
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.tabs.page import TabPage
from jobbook.ui.jobs.tabs.records import Block, Deed, Line, TabSheet

ADD = Deed("add", "Another line…", (Ask("words", "What"),))


def sheet(lines):
    above = Block("Above", tuple(Line(f"line {n}", "beside it") for n in range(30)))
    return TabSheet((above, Block("Lines", tuple(Line(f"kept {n}") for n in range(lines)), deeds=(ADD,)), above))


def test_after_a_line_is_kept_the_page_stays_where_it_was(qtbot, dressed):
    page = TabPage(lambda: date(2026, 11, 25))
    qtbot.addWidget(page)
    page.resize(600, 400)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    page.show_tab(sheet(1), Signers())
    bar = page._area.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    page._buttons["add", ""].setFocus()
    page._buttons["add", ""].click()
    qtbot.waitUntil(lambda: bar.value() > 0)
    page._form.form.fields["words"].set_text("Air bellows")
    page._form.form.hand_in()
    page.kept()
    page.show_tab(sheet(2), Signers())
    button = page._buttons["add", ""]
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    assert button.visibleRegion().boundingRect().height() == button.height()
    assert QApplication.focusWidget() is button
    assert bar.value() > bar.maximum() / 3


def test_what_stands_before_the_times_is_flush_whether_a_line_has_a_time_or_not(qtbot, dressed):
    page = TabPage(lambda: date(2026, 11, 25))
    qtbot.addWidget(page)
    page.resize(600, 400)
    times = {"a": "2026-11-25T09:08:00", "b": "", "c": "2026-11-24T10:20:00"}
    lines = tuple(Line(of, at=at, deeds=(Deed("go", "Let go…", of=of),)) for of, at in times.items())
    page.show()
    page.show_tab(TabSheet((Block("Loose now", lines),)), Signers())
    edges = {button.mapTo(page, button.rect().topRight()).x() for button in page._buttons.values()}
    assert len(edges) == 1, edges
