"""A burst of keys is a scan; keys of a person reach the field that has the focus."""

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QLineEdit

from jobbook.ui.scanner import Scanner


@pytest.fixture
def field(qtbot, dressed):
    made = QLineEdit()
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.setFocus()
    return made


@pytest.fixture
def scanner(field):
    made = Scanner(field)
    made.begin()
    yield made
    made.end()


def test_a_burst_that_ends_in_enter_is_one_scan_and_types_nothing(qtbot, scanner, field):
    with qtbot.waitSignal(scanner.scanned) as scanned:
        qtbot.keyClicks(field, "BADGE-7781")
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert scanned.args == ["BADGE-7781"]
    assert field.text() == ""


def test_capitals_come_with_their_own_keys_and_are_one_scan_all_the_same(qtbot, scanner, field):
    """As a real scanner and a real keyboard send them: the key for capitals goes down and up round each letter."""
    with qtbot.waitSignal(scanner.scanned) as scanned:
        for letter in "TW-Ab7":
            if letter.isupper():
                qtbot.keyPress(field, Qt.Key.Key_Shift)
                qtbot.keyClicks(field, letter, Qt.KeyboardModifier.ShiftModifier)
                qtbot.keyRelease(field, Qt.Key.Key_Shift)
            else:
                qtbot.keyClicks(field, letter)
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert scanned.args == ["TW-Ab7"]
    assert field.text() == ""


def test_a_burst_that_ends_in_the_tabulator_is_a_scan_too(qtbot, scanner, field):
    with qtbot.waitSignal(scanner.scanned) as scanned:
        qtbot.keyClicks(field, "TW-02")
        qtbot.keyClick(field, Qt.Key.Key_Tab)
    assert scanned.args == ["TW-02"]


def test_the_sign_between_the_fields_of_a_label_belongs_to_the_scan(qtbot, scanner, field):
    """A keyboard has that sign as Control and the bracket; a scanner presses it like a person would."""
    with qtbot.waitSignal(scanner.scanned) as scanned:
        qtbot.keyClicks(field, "10ABC")
        qtbot.keyPress(field, Qt.Key.Key_Control)
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            sign = QKeyEvent(kind, Qt.Key.Key_BracketRight, Qt.KeyboardModifier.ControlModifier, "\x1d")
            QApplication.sendEvent(field, sign)
        qtbot.keyRelease(field, Qt.Key.Key_Control)
        qtbot.keyClicks(field, "21SN")
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert scanned.args == ["10ABC\x1d21SN"]
    assert field.text() == ""


def test_control_and_enter_keep_a_form_and_end_no_scan(qtbot, scanner, field):
    with qtbot.assertNotEmitted(scanner.scanned):
        qtbot.keyClicks(field, "10ABC")
        qtbot.keyClick(field, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert field.text() == "10ABC"


def press_at(field, text, moment):
    """A key as the system sends it, with the moment at which it was pressed."""
    key = Qt.Key.Key_Return if text == "\r" else Qt.Key(ord(text.upper()))
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        event = QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier, text)
        event.setTimestamp(moment)
        QApplication.sendEvent(field, event)


@pytest.mark.parametrize(("between", "is_scan"), [(8, True), (90, False)])
def test_keys_that_a_busy_window_is_handed_at_once_are_told_apart_by_their_own_moments(
    qtbot, scanner, field, between, is_scan
):
    """Text that a person typed while the window was busy arrives as fast as a scan, and is none."""
    heard = []
    scanner.scanned.connect(heard.append)
    for place, sign in enumerate("tw-0007\r"):
        press_at(field, sign, 5_000 + place * between)
    assert heard == (["tw-0007"] if is_scan else [])
    assert field.text() == ("" if is_scan else "tw-0007")


def test_what_a_person_types_arrives_after_a_moment(qtbot, scanner, field):
    qtbot.keyClicks(field, "12")
    assert field.text() == ""
    qtbot.waitUntil(lambda: field.text() == "12")


def test_a_short_burst_with_enter_is_a_person(qtbot, scanner, field):
    with qtbot.assertNotEmitted(scanner.scanned), qtbot.waitSignal(field.returnPressed):
        qtbot.keyClicks(field, "1234")
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.text() == "1234"


def test_a_letter_of_a_scan_fires_no_shortcut(qtbot, scanner, field):
    fired = []
    QShortcut(QKeySequence("N"), field).activated.connect(lambda: fired.append("N"))
    with qtbot.waitSignal(scanner.scanned):
        qtbot.keyClicks(field, "NNNNNNNN")
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert fired == []


def test_after_its_end_nothing_is_held_back(qtbot, scanner, field):
    scanner.end()
    qtbot.keyClicks(field, "BADGE-7781")
    assert field.text() == "BADGE-7781"
