"""The find line: grouped, as one types, away from the window's thread, and by keys alone."""

import threading

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from jobbook.core.errors import StoreUnavailable
from jobbook.ui.finding import FindLine
from jobbook.ui.places import SHOP
from jobbook.ui.setting import Setting


class Later:
    """Lanes whose answers come when the test says so."""

    def __init__(self):
        self.asked = []

    def find(self, work, done, refused):
        self.asked.append((work, done, refused))

    def answer(self, number=-1):
        work, done, _ = self.asked[number]
        done(work())


@pytest.fixture
def later():
    return Later()


@pytest.fixture
def line(qtbot, dressed, book, duty, later):
    made = FindLine(Setting(book, duty, later))
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.setFocus()
    return made


def typed(qtbot, line, later, text):
    """Type, and wait until it is looked for."""
    before = len(later.asked)
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.waitUntil(lambda: len(later.asked) > before)


def shown(line):
    return [line.results.item(row).text() for row in range(line.results.count())]


def test_an_answer_that_comes_late_for_an_older_text_is_not_shown(qtbot, line, later, strut_job, wrench):
    typed(qtbot, line, later, "varnholt")
    typed(qtbot, line, later, "tw-02")
    later.answer(1)
    later.answer(0)
    assert shown(line)[0] == "Tools"


def test_nothing_found_says_what_was_sought_and_where(qtbot, line, later, strut_job):
    typed(qtbot, line, later, "zeppelin")
    later.answer()
    assert shown(line) == [
        "Nothing begins with “zeppelin”: looked for in jobs, calls, vehicles, customers, parts, serials, batches and "
        "tools."
    ]
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert line.text() == "zeppelin"


def test_enter_before_the_answer_opens_the_first_as_soon_as_it_comes(qtbot, line, later, strut_job):
    qtbot.keyClicks(line, "varnholt")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    with qtbot.waitSignal(line.chosen):
        later.answer()


def test_whoever_types_on_after_enter_is_not_taken_away(qtbot, line, later, strut_job):
    qtbot.keyClicks(line, "varnholt")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.keyClicks(line, "x")
    with qtbot.assertNotEmitted(line.chosen):
        later.answer()
    line.leave()


def test_a_book_out_of_reach_is_said_in_the_list(qtbot, line, later):
    typed(qtbot, line, later, "kx")
    later.asked[-1][2](StoreUnavailable("The book cannot be reached; nothing was looked for."))
    assert shown(line) == ["The book cannot be reached; nothing was looked for."]


def test_a_scanned_code_stands_there_and_opens_only_by_enter(qtbot, line, later, wrench):
    line.search_code("TW-02")
    with qtbot.assertNotEmitted(line.chosen):
        later.answer()
    assert line.text() == "TW-02"
    assert shown(line)[0] == "Tools"
    with qtbot.waitSignal(line.chosen):
        qtbot.keyClick(line, Qt.Key.Key_Return)


def test_a_tool_that_was_found_opens_its_card_in_the_shop(qtbot, window, wrench):
    window.find_line.setFocus()
    qtbot.keyClicks(window.find_line, "tw-02")
    qtbot.keyClick(window.find_line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.place().room == SHOP)
    page = window.pages.currentWidget().currentWidget()
    assert page.words.checkedButton().text() == "Tools"
    assert page.part().cards.title.text() == "TW-02"


def test_finding_waits_behind_no_slow_work(qtbot, lanes):
    hold = threading.Event()
    for _ in range(4):
        lanes.slow("slow", lambda running: hold.wait(20), lambda _: None, lambda _: None)
    came = []
    lanes.find(lambda: threading.current_thread().name, came.append, lambda _: None)
    qtbot.waitUntil(lambda: bool(came))
    hold.set()
    assert came[0].startswith("finds in the book")
    qtbot.waitUntil(lambda: len(lanes.tasks) == 0)


def test_the_find_line_is_reached_and_left_by_keys(qtbot, window, strut_job):
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert window.find_line.hasFocus()
    qtbot.keyClicks(window.find_line, "varn")
    qtbot.waitUntil(lambda: window.find_line.results.isVisible())
    first = window.find_line.results.currentRow()
    qtbot.keyClick(window.find_line, Qt.Key.Key_Down)
    assert window.find_line.results.currentRow() > first
    qtbot.keyClick(window.find_line, Qt.Key.Key_Up)
    assert window.find_line.results.currentRow() == first
    qtbot.keyClick(window.find_line, Qt.Key.Key_Escape)
    assert not window.find_line.results.isVisible()
