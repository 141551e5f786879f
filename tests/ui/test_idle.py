"""Nasty case 41 of the trade notes: the shared screen was left open. It locks itself, and the open step stays open."""

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPlainTextEdit

from jobbook.core.people import Person
from jobbook.ui.duty import Duty
from jobbook.ui.idle import DEFAULT_MINUTES, IdleLock, lock_after

SOON = 40  # what a minute lasts in these tests, in milliseconds


@pytest.fixture
def duty():
    return Duty(Person("bf", "Bram Ferro"))


@pytest.fixture
def field(qtbot):
    made = QPlainTextEdit("half a note")
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_case_41_a_window_that_nobody_touches_locks_itself_and_what_is_typed_stays(qtbot, duty, field):
    idle = IdleLock(duty, lambda: 1, field, minute=SOON)
    with qtbot.waitSignal(duty.changed):
        idle.watch(field)
    assert duty.person is None
    assert field.toPlainText() == "half a note"


def test_a_key_or_the_mouse_begins_the_time_anew(qtbot, duty, field):
    idle = IdleLock(duty, lambda: 1, field, minute=3_600_000)
    idle.watch(field)
    for touch in (
        lambda: QTest.keyClick(field.windowHandle(), Qt.Key.Key_A),
        lambda: QTest.mouseClick(field.windowHandle(), Qt.MouseButton.LeftButton),
    ):
        idle._rest.stop()
        touch()
        assert idle._rest.isActive()
    assert duty.person is not None


def test_nobody_on_duty_or_never_chosen_locks_nothing(duty, field):
    idle = IdleLock(duty, lambda: 0, field)
    idle.watch(field)
    assert not idle._rest.isActive()
    idle = IdleLock(duty, lambda: 1, field)
    duty.lock()
    assert not idle._rest.isActive()
    duty.come(Person("nop", "Nadia Oyelaran-Pike"))
    assert idle._rest.isActive()
    duty.lock()
    assert not idle._rest.isActive()


@pytest.mark.parametrize(("kept", "minutes"), [(None, DEFAULT_MINUTES), ("0", 0), (30, 30), ("soon", DEFAULT_MINUTES)])
def test_the_workstation_remembers_after_how_long(tmp_path, kept, minutes):
    settings = QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)
    if kept is not None:
        settings.setValue("lock_after", kept)
    assert lock_after(settings) == minutes
