"""Somebody calls: taken by keys alone while they talk, changed with a reason, and followed by the vehicle."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from jobbook.services.office.calls import get_call, take_call
from jobbook.ui.places import JOBS, TAKE_IN, TODAY, Place, a_call, a_job, it_is_here
from tests.ui.today.test_today_page import CALL


@pytest.fixture
def call(book, imke):
    return take_call(book, imke, CALL)


def press(qtbot, key, modifier=Qt.KeyboardModifier.NoModifier):
    qtbot.keyClick(QApplication.focusWidget(), key, modifier)


def type_(qtbot, words):
    qtbot.keyClicks(QApplication.focusWidget(), words)


def page_of(window, place):
    window.go(place)
    return window.pages.currentWidget().currentWidget()


def test_a_call_is_taken_from_the_list_of_jobs_by_keys_alone(qtbot, window, book, strut_job):
    window.go(Place(JOBS))
    press(qtbot, Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: window.place() == a_call())
    page = window.pages.currentWidget().currentWidget()
    for words in ("Orla Finchley", "01000 555 231", "KX-07-ALD"):
        type_(qtbot, words)
        press(qtbot, Qt.Key.Key_Return)
    assert "in the shop now: job" in page.known.text()
    for _ in range(5):  # make and model, who pays, can it be driven, overnight, the appointment
        press(qtbot, Qt.Key.Key_Return)
    type_(qtbot, "Stands on the stops.")
    press(qtbot, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: window.place() == Place(TODAY))
    with book.store.read() as reading:
        (kept,) = reading.calls.open(10)
    assert (kept.caller, kept.phone, kept.words) == ("Orla Finchley", "01000 555 231", "Stands on the stops.")


def test_whoever_may_not_drive_is_told_before_they_hang_up(window):
    page = page_of(window, a_call())
    assert "flatbed" in page.advice.text()
    page.caller.show_answers({"driven": "yes", "overnight": "yes"})
    page.caller.changed.emit("driven")
    assert "flatbed" not in page.advice.text()
    assert "overnight" in page.advice.text()


def test_what_is_missing_is_marked_and_what_was_typed_stays(qtbot, window, book):
    page = page_of(window, a_call())
    page.caller.show_answers({"caller": "Orla"})
    page._hand_in()
    assert "marked" in page.said.text()
    page.caller.changed.emit("caller")
    window.go(Place(JOBS))
    assert page_of(window, a_call()).caller.answers()["caller"] == "Orla"
    with book.store.read() as reading:
        assert reading.calls.open(10) == []


def test_a_call_that_is_there_is_changed_with_a_reason(qtbot, window, book, call):
    page = page_of(window, a_call(call))
    assert page.caller.answers()["expected"] == "2 Jan 2026, 09:00"
    page.caller.show_answers({"expected": "2026-01-05"})
    page.keep.click()
    qtbot.waitUntil(lambda: "say why" in page.said.text())
    page.change.show_answers({"reason": "Asked for Monday."})
    page.keep.click()
    qtbot.waitUntil(lambda: window.place() == Place(TODAY))
    assert get_call(book, call).expected == "2026-01-05"


def test_the_vehicle_that_came_is_taken_in_with_what_was_said(qtbot, window, book, call):
    page = page_of(window, a_call(call))
    page.here.click()
    assert window.place() == it_is_here(call)
    form = window.pages.currentWidget().currentWidget()
    answers = form.answers()
    assert (answers["customer"], answers["phone"], answers["plate"]) == ("Orla Finchley", "01000 555 231", "KS-44")
    assert (answers["make"], answers["model"]) == ("Ondry", "van"), "as the caller said it, to be looked at"
    assert answers["concerns"] == "Stands on the stops."
    assert "Announced by telephone" in form.known.text()
    form.fill_in({"make": "Ondry", "model": "van", "odometer": "88 000"})
    form._hand_in()
    qtbot.waitUntil(lambda: window.place() not in (it_is_here(call), TAKE_IN))
    assert get_call(book, call).outcome == "arrived"
    ended = page_of(window, a_call(call))
    assert "the vehicle came" in ended.title.text()
    assert not ended.keep.isVisible()
    form = page_of(window, TAKE_IN)
    assert form.answers()["customer"] == ""


def test_who_may_not_take_calls_is_told(qtbot, window, duty, bram):
    page = page_of(window, a_call())
    duty.come(bram)
    page.caller.show_answers({"caller": "Orla", "phone": "1"})
    page.complaint.show_answers({"words": "Hisses"})
    page.keep.click()
    qtbot.waitUntil(lambda: "no permission" in page.said.text())
    duty.lock()
    page.presenter.keep(page.answers(), "")
    assert "Nobody is on duty" in page.said.text()


def test_an_open_call_is_found_by_the_find_line_and_enter_opens_it(qtbot, window, call):
    window.find_line.setFocus()
    qtbot.keyClicks(window.find_line, "finch")
    qtbot.keyClick(window.find_line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.place() == a_call(call))


def test_expected_vehicles_stand_in_the_list_of_jobs_and_enter_opens_the_call(qtbot, window, call, strut_job):
    page = page_of(window, Place(JOBS))
    tab = next(one for one in page.findChildren(QPushButton) if one.text() == "Expected")
    tab.click()
    model = page.list.model
    assert [model.record(row).number for row in range(model.rowCount())] == [call]
    assert model.index(0, 0).data() == "call"
    page.list.find_field.setFocus()
    press(qtbot, Qt.Key.Key_Down)
    press(qtbot, Qt.Key.Key_Return)
    assert window.place() == a_call(call)


def test_a_telephone_rings_while_something_else_is_done_and_one_comes_back_to_it(qtbot, window, strut_job):
    window.go(a_job(strut_job))
    press(qtbot, Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)
    assert window.place() == a_call()
    press(qtbot, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: window.place() == a_job(strut_job))


def test_control_n_takes_in_the_vehicle_of_the_call_that_is_shown(qtbot, window, call):
    page_of(window, a_call(call))
    press(qtbot, Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
    assert window.place() == it_is_here(call)
