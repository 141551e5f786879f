"""The frame: index, find line, lock, foot, and what every control owes to whoever cannot see or use a mouse."""

import threading
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QProgressBar,
    QPushButton,
    QWidget,
)

from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.services.house.people import add_person, change_person
from jobbook.ui import look
from jobbook.ui.frame import build_window
from jobbook.ui.places import JOBS, SHOP, TAKE_IN, TODAY, VEHICLES, Place, a_call, a_job, a_vehicle

CONTROLS = (QAbstractButton, QLineEdit, QPlainTextEdit, QComboBox, QAbstractItemView, QProgressBar)
EVERYWHERE = (Place(TODAY), Place(JOBS), TAKE_IN, a_call(), a_job(1), Place(VEHICLES), a_vehicle(1), Place(SHOP))


def parts_of_the_shop(window):
    """Opens each part of the shop in turn."""
    page = window.pages.currentWidget().currentWidget()
    for button in page.words.buttons():
        button.click()
        yield button.text()


def test_the_index_holds_only_the_rooms_that_there_are(window):
    assert [word.text() for word in window.index.buttons()] == [
        *("Today", "Jobs", "Vehicles", "Figures", "Looking back", "The shop")
    ]


def test_every_word_of_the_index_opens_its_room_and_is_marked(window):
    for word in window.index.buttons():
        word.click()
        assert window.place().room == word.property("room")
        assert [one for one in window.index.buttons() if one.isChecked()] == [word]


def test_a_shown_job_keeps_its_room_marked_in_the_index(window, strut_job):
    window.go(a_job(strut_job))
    assert window.place() == a_job(strut_job)
    assert window.index.checkedButton().text() == "Jobs"


def test_one_can_go_back_to_where_one_was(window, strut_job):
    window.go(a_job(strut_job))
    window.go(Place(SHOP))
    window.go_back()
    assert window.place() == a_job(strut_job)
    window.go_back()
    assert window.place() == Place(TODAY)
    window.go_back()
    assert window.place() == Place(TODAY)


def press(qtbot, key, modifier=Qt.KeyboardModifier.ControlModifier):
    qtbot.keyClick(QApplication.focusWidget(), key, modifier)


def test_control_f_leads_to_the_find_line_from_anywhere(qtbot, window, strut_job):
    for place in EVERYWHERE:
        window.go(place)
        press(qtbot, Qt.Key.Key_F)
        assert window.find_line.hasFocus(), place


def test_what_is_found_opens_with_enter(qtbot, window, strut_job):
    press(qtbot, Qt.Key.Key_F)
    qtbot.keyClicks(window.find_line, "kx-07")
    qtbot.keyClick(window.find_line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.place() == a_job(strut_job))
    assert window.find_line.results.isHidden()


def test_escape_in_the_find_line_leaves_the_page_below_alone(qtbot, window, strut_job):
    window.go(TAKE_IN)
    press(qtbot, Qt.Key.Key_F)
    qtbot.keyClicks(window.find_line, "kx")
    qtbot.keyClick(window.find_line, Qt.Key.Key_Escape)
    assert window.place() == TAKE_IN
    assert window.find_line.text() == ""


def test_control_n_takes_in_and_control_with_a_number_opens_a_room(qtbot, window):
    press(qtbot, Qt.Key.Key_N)
    qtbot.waitUntil(lambda: window.place() == TAKE_IN)
    press(qtbot, Qt.Key.Key_3)
    assert window.place() == Place(VEHICLES)


def test_the_lock_hides_the_book_and_whoever_comes_back_finds_what_was_open(qtbot, window, duty, strut_job):
    window.go(a_job(strut_job))
    with qtbot.waitSignal(duty.changed):
        press(qtbot, Qt.Key.Key_L)
    assert duty.person is None
    assert window.sides.currentWidget() is window.duty_page
    assert not window.desk.isVisible()
    qtbot.keyClicks(window.duty_page.pin, "1234")
    with qtbot.waitSignal(duty.changed):
        qtbot.keyClick(window.duty_page.pin, Qt.Key.Key_Return)
    assert duty.person.name == "Imke Tolland"
    assert window.place() == a_job(strut_job)
    assert window.desk.isVisible()


@pytest.mark.parametrize("keys", [(Qt.Key.Key_F,), (Qt.Key.Key_N,), (Qt.Key.Key_2,)])
def test_no_key_reaches_behind_the_lock(qtbot, window, duty, keys):
    window.go(Place(SHOP))
    duty.lock()
    for key in keys:
        qtbot.keyClick(window.duty_page.pin, key, Qt.KeyboardModifier.ControlModifier)
    assert window.sides.currentWidget() is window.duty_page
    assert window.place() == Place(SHOP)


def test_the_last_one_on_duty_is_the_one_who_is_chosen_at_the_lock(window, duty, bram):
    duty.come(bram)
    duty.lock()
    assert window.duty_page.chosen() == bram.id


def test_whoever_leaves_the_shop_is_off_duty_at_once(qtbot, window, duty, book, imke, bram):
    duty.come(bram)
    with qtbot.waitSignal(duty.changed):
        change_person(book, imke, replace(bram, active=False))
    assert duty.person is None


def test_other_permissions_reach_whoever_is_on_duty(qtbot, window, duty, book, imke, bram):
    duty.come(bram)
    with qtbot.waitSignal(duty.changed):
        change_person(book, imke, replace(bram, permissions=frozenset({"work", "release"})))
    assert duty.person.may("release")
    assert not duty.person.may("check")


def test_a_book_out_of_reach_is_said_at_the_foot_until_it_is_back(window, book):
    def out_of_reach():
        raise StoreUnavailable("The book cannot be reached; nothing was lost.")

    window.follow(out_of_reach)
    assert window.kept.text() == "The book cannot be reached; nothing was lost."
    window.follow(book.poll)
    assert window.kept.text().startswith("kept ")


def test_who_is_on_duty_stands_on_top(window, duty, bram):
    assert window.on_duty.text() == "Imke Tolland"
    duty.come(bram)
    assert window.on_duty.text() == "Bram Ferro"


def test_the_foot_says_the_last_entry_as_soon_as_it_is_written(qtbot, window, book, imke):
    before = window.kept.text()
    assert before.startswith("kept ")
    add_person(book, imke, "Jonas Wexley", frozenset({"desk"}), "4444")
    qtbot.waitUntil(lambda: window.kept.text() != before)
    assert "entry " in window.kept.text()


def test_a_list_in_sight_follows_what_is_written(qtbot, window, request):
    window.go(Place(JOBS))
    page = window.pages.currentWidget().currentWidget()
    assert page.list.model.rowCount() == 0
    request.getfixturevalue("strut_job")
    qtbot.waitUntil(lambda: page.list.model.rowCount() == 1)


def test_running_work_stands_at_the_foot_with_a_way_to_stop_it(qtbot, window, lanes):
    gate, outcome = threading.Event(), []

    def work(progress):
        progress.report(2, 4)
        gate.wait(5)
        raise Refused("The paper was not made: it was cancelled.") if progress.cancelled else AssertionError

    lanes.slow("Making the paper", work, outcome.append, lambda error: outcome.append(str(error)))
    (shown,) = window.running.shown.values()
    qtbot.waitUntil(lambda: shown.bar.value() == 2)
    shown.stop.click()
    gate.set()
    qtbot.waitUntil(lambda: outcome == ["The paper was not made: it was cancelled."])
    assert window.running.shown == {}


def test_the_window_remembers_its_size_and_begins_with_what_is_due(qtbot, window, setting, duty, lanes, settings):
    window.resize(look.SMALLEST_WINDOW[0], 700)  # the offscreen platform's screen is no wider
    window.go(Place(VEHICLES))
    window.close()
    again = build_window(setting, duty, lanes, settings, lambda wish: None)
    qtbot.addWidget(again)
    assert (again.width(), again.height()) == (look.SMALLEST_WINDOW[0], 700)
    assert again.place() == Place(TODAY)


def test_settings_that_were_damaged_open_the_window_at_its_usual_size(qtbot, setting, duty, lanes, settings):
    settings.setValue("geometry", "nonsense")
    made = build_window(setting, duty, lanes, settings, lambda wish: None)
    qtbot.addWidget(made)
    assert (made.width(), made.height()) == look.WINDOW_SIZE
    assert made.place() == Place(TODAY)


def controls_in_sight(window):
    return [
        control
        for control in window.findChildren(QWidget)
        if isinstance(control, CONTROLS) and control.isVisible() and control.focusPolicy() != Qt.FocusPolicy.NoFocus
    ]


def name_of(control):
    words = control.text() if isinstance(control, QAbstractButton) else ""
    return control.accessibleName() or words


@pytest.mark.parametrize("place", EVERYWHERE, ids=lambda place: f"{place.room}-{place.what}")
def test_every_control_in_sight_has_a_name_to_be_read_aloud(window, strut_job, wrench, place):
    window.go(place)
    nameless = [control for control in controls_in_sight(window) if not name_of(control).strip()]
    assert nameless == []


def test_every_control_of_every_part_of_the_shop_has_a_name(window, wrench):
    window.go(Place(SHOP))
    for part in parts_of_the_shop(window):
        assert [c for c in controls_in_sight(window) if not name_of(c).strip()] == [], part


@pytest.mark.parametrize("place", EVERYWHERE, ids=lambda place: f"{place.room}-{place.what}")
def test_every_control_in_sight_is_reached_by_the_tab_key(qtbot, window, strut_job, wrench, place):
    window.go(place)
    wanted = {
        control
        for control in controls_in_sight(window)
        if control.isEnabled()
        and control.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not isinstance(control, QAbstractButton)
        and not isinstance(control.parentWidget(), QComboBox)
    }
    reached = set()
    for _ in range(200):
        reached.add(QApplication.focusWidget())
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert wanted - reached == set()


SIZES = [(1366, 768), (1920, 1080), look.SMALLEST_WINDOW]  # the last is a screen of 1920 by 1080 at 200 %


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("place", EVERYWHERE, ids=lambda place: f"{place.room}-{place.what}")
def test_no_word_is_cut_off(window, strut_job, wrench, place, size):
    window.resize(*size)
    window.go(place)
    assert cut_off(window) == []
    assert (window.width(), window.height()) == size


@pytest.mark.parametrize("size", SIZES)
def test_no_word_is_cut_off_in_the_shop(window, strut_job, wrench, bram, size):
    window.resize(*size)
    window.go(Place(SHOP))
    for part in parts_of_the_shop(window):
        assert cut_off(window) == [], part


def cut_off(window):
    """Labels of one line and buttons whose words are wider than they are, unless they say so with three dots."""
    QApplication.sendPostedEvents()  # everything is laid out as it would be seen
    found = []
    for shown in window.findChildren(QWidget):
        if not shown.isVisible() or not isinstance(shown, (QLabel, QPushButton)) or not shown.text():
            continue
        if isinstance(shown, QLabel) and (shown.wordWrap() or shown.textFormat() != Qt.TextFormat.PlainText):
            continue
        if shown.text().endswith("…"):
            continue
        words = QFontMetrics(shown.font()).horizontalAdvance(shown.text())
        if words > shown.contentsRect().width() + 1:
            found.append((shown.text(), words, shown.width()))
    return found
