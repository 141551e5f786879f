"""Nasty case 77 of the trade notes, in the window: a scan for the wrong field, a double scan, another keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit

from jobbook.services.sheet.sheets import Ask
from jobbook.ui.controls import button
from jobbook.ui.forms import Form
from jobbook.ui.scanner import Scanner
from jobbook.ui.scanning import Scanning, field_for_code


class Seconds:
    """A clock that stands until it is moved."""

    now = 10.0

    def __call__(self):
        return self.now


@pytest.fixture
def asked():
    """The codes that the page in sight was offered, and whether it wants one."""
    return {"wants": False, "codes": []}


@pytest.fixture
def seconds():
    return Seconds()


@pytest.fixture
def scanning(window, setting, asked, seconds, bram, wrench):
    def takes(code):
        asked["codes"].append(code)
        return asked["wants"]

    return Scanning(setting, takes, window.find_line, seconds)


@pytest.fixture
def said(scanning):
    heard = []
    scanning.said.connect(lambda words, of_use: heard.append((words, of_use)))
    return heard


@pytest.fixture
def form(qtbot, window):
    """A form with a field of each kind, in a window of its own."""
    made = Form([Ask("serial", "Serial", "serial"), Ask("value", "Value", "quantity", unit="N·m"), Ask("note", "Note")])
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


@pytest.fixture
def form_of_a_part(qtbot, window):
    asks = [Ask("number", "Number"), Ask("serial", "Serial", "serial"), Ask("batch", "Batch", "serial")]
    made = Form([*asks, Ask("supplier", "Supplier")])
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def test_a_badge_goes_to_the_signature_that_is_asked_for_and_says_whose_it_is(scanning, asked, said):
    asked["wants"] = True
    scanning.take("BADGE-7781")
    assert asked["codes"] == ["BADGE-7781"]
    assert said == [("Read: the badge of Bram Ferro.", True)]


def test_a_badge_that_nobody_asked_for_signs_nothing(scanning, asked, said):
    scanning.take("BADGE-7781")
    assert said == [("Read: the badge of Bram Ferro. No signature is asked for here.", False)]


def test_a_tool_never_stands_in_for_a_badge(qtbot, window, scanning, asked, said):
    asked["wants"] = True
    scanning.take("TW-02")
    assert asked["codes"] == []
    assert said == [("Read: tool TW-02, click wrench.", True)]
    qtbot.waitUntil(lambda: window.find_line.results.isVisible())
    assert window.find_line.text() == "TW-02"


def test_a_double_scan_counts_once(scanning, asked, said, seconds):
    for moment in (10.0, 10.5, 13.0):
        seconds.now = moment
        scanning.take("BADGE-7781")
    assert len(said) == 2


def test_a_serial_goes_into_the_field_of_text_and_waits_there(scanning, form, said):
    form.fields["serial"].setFocus()
    handed = []
    form.handed_in.connect(handed.append)
    scanning.take("7H-20611")
    assert form.fields["serial"].text() == "7H-20611"
    assert handed == []
    assert said == [("Read: 7H-20611. Nothing in the book bears this code.", False)]


def test_a_scan_for_a_field_of_figures_goes_to_the_find_line_and_leaves_the_field_alone(scanning, form, window):
    form.fields["value"].setFocus()
    assert field_for_code(QApplication.focusWidget()) is None
    scanning.take("TW-02")
    assert form.fields["value"].text() == ""
    assert window.find_line.text() == "TW-02"


def test_a_pin_takes_no_code(qtbot, dressed):
    pin = QLineEdit()
    pin.setEchoMode(QLineEdit.EchoMode.Password)
    qtbot.addWidget(pin)
    assert field_for_code(pin) is None
    assert field_for_code(None) is None


def test_a_code_from_another_keyboard_is_put_right_before_it_is_used(scanning, form, said):
    form.fields["note"].setFocus()
    scanning.take("TWß02")
    assert form.fields["note"].text() == "TW-02"
    assert "set the scanner to this machine's keyboard" in said[0][0]


def test_the_code_of_a_tool_does_not_go_into_the_field_of_a_serial(scanning, form, said):
    form.fields["serial"].setFocus()
    scanning.take("TW-02")
    assert form.fields["serial"].text() == ""
    assert said == [("Read: tool TW-02, click wrench. This field is for a part; it was left as it is.", False)]


def test_the_label_of_a_part_fills_number_serial_and_batch_and_keeps_nothing(qtbot, scanning, form_of_a_part, said):
    form, handed = form_of_a_part, []
    form.handed_in.connect(handed.append)
    form.fields["supplier"].setFocus()
    scanning.take("010950110153000310ABC-12\x1d21SN0042")
    assert {name: form.fields[name].text() for name in ("number", "serial", "batch", "supplier")} == {
        "number": "9501101530003",
        "serial": "SN0042",
        "batch": "ABC-12",
        "supplier": "",
    }
    assert handed == []
    assert said == [("Read from the label: item 9501101530003, batch ABC-12, serial SN0042.", True)]


def test_where_one_number_is_asked_for_the_label_gives_its_serial_or_else_its_batch(scanning, form):
    form.fields["note"].setFocus()
    scanning.take("010950110153000310ABC-12\x1d21SN0042")
    assert form.fields["serial"].text() == "SN0042"
    scanning.take("010950110153000310ABC-12")
    assert form.fields["serial"].text() == "ABC-12"


def test_a_label_that_nobody_asks_for_is_looked_for(qtbot, scanning, window, wrench):
    scanning.take("010950110153000310ABC-12\x1d21SN0042")
    qtbot.waitUntil(lambda: window.find_line.results.isVisible())
    assert window.find_line.text() == "(01)09501101530003(10)ABC-12(21)SN0042"


def test_the_window_listens_shows_what_was_read_and_opens_nothing(qtbot, window, wrench):
    window.listen_for_scans()
    here = window.place()
    at = QApplication.focusWidget()
    qtbot.keyClicks(at, "TW-002")
    qtbot.keyClick(at, Qt.Key.Key_Return)
    assert window.read.isVisible()
    assert window.read.text() == "Read: TW-002. Nothing in the book bears this code."
    assert window.place() == here
    window.close()


def test_the_locked_window_leaves_scans_to_the_lock(qtbot, window, duty, bram):
    window.listen_for_scans()
    duty.lock()
    qtbot.keyClicks(window.duty_page.pin, "BADGE-7781")
    with qtbot.waitSignal(duty.changed):
        qtbot.keyClick(window.duty_page.pin, Qt.Key.Key_Return)
    assert duty.person.name == "Bram Ferro"
    assert not window.read.isVisible()
    window.close()


def test_a_button_that_the_space_key_presses_does_not_stay_down(qtbot, dressed):
    made = button("Do it")
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.setFocus()
    scanner = Scanner(made)
    scanner.begin()
    with qtbot.waitSignal(made.clicked):
        qtbot.keyClick(made, Qt.Key.Key_Space)
    scanner.end()
    assert not made.isDown()
