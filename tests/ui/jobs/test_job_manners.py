"""The manners of the job page: no window flashes up, every control has a name, words follow the scheme."""

from datetime import date

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QPushButton

from jobbook.ui import look
from tests.ui.jobs import strut_book


class WindowsShown(QObject):
    """Notes every window that appears, if only for a moment: it would take the keyboard away."""

    def __init__(self, application):
        super().__init__()
        self.names: list[str] = []
        self._application = application

    def __enter__(self):
        self._application.installEventFilter(self)
        return self

    def __exit__(self, *args):
        self._application.removeEventFilter(self)

    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Show and watched.isWidgetType() and watched.isWindow():
            self.names.append(type(watched).__name__)
        return False


def test_nothing_flashes_up_as_a_window_of_its_own(page, there, qtbot, qapp):
    strut_book.begun(there)
    shown = page()
    with WindowsShown(qapp) as windows:
        shown.presenter.open_step(0, 10)  # refused on its wheels: quiet acts
        shown.work.card._quiet.first().click()
        shown.work.card.close_form()
        shown.presenter.open_step(0, 1)
        shown.work.card.press("Enter")
        shown.presenter.open_step(0, 1)  # done: its line
        shown.work.strip.ask()
        shown.work.ask_thing()
        shown.work.begin_panel.ask_thing("joint")
        shown.presenter.ask_to_begin()
        for key in shown.tabs:
            shown.right.open_tab(key)
            for deed in shown.tabs[key].findChildren(QPushButton):
                if deed.text().endswith("…") and not deed.isHidden():
                    deed.click()
                    break
    assert windows.names == []


def test_every_control_has_a_name_to_be_read_aloud(page, there):
    strut_book.begun(there)
    shown = page()
    nameless = []
    for key in shown.tabs:
        shown.right.open_tab(key)
        for deed in shown.tabs[key].findChildren(QPushButton):
            if deed.text().endswith("…") and not deed.isHidden():
                deed.click()
                break
    for kind in (QAbstractButton, QLineEdit, QPlainTextEdit, QComboBox):
        for control in shown.findChildren(kind):
            if not control.accessibleName() and not (isinstance(control, QAbstractButton) and control.text()):
                nameless.append(control)
    inner = [c for c in nameless if c.objectName().startswith("qt_")]
    assert [c for c in nameless if c not in inner] == []


@pytest.mark.parametrize("scheme", ["dark", "light"])
def test_words_follow_the_scheme(page, there, qapp, scheme):
    strut_book.begun(there)
    shown = page()
    look.dress(qapp, scheme)
    assert look.SCHEMES[scheme].soft.lower() in shown.work.steps.lines[0, 2]._title.text()
    assert look.SCHEMES[scheme].soft.lower() in shown.left._state.text()
    look.dress(qapp, "light")


def test_times_of_today_stand_as_hours_and_older_ones_with_their_day(page, there):
    strut_book.begun(there)
    shown = page()
    shown.work.card.buttons[0].click()
    line = shown.work.steps.lines[0, 1]
    line.show_step(line.step, date(2026, 3, 12))
    assert line._right.text() == "09:00"
    line.show_step(line.step, date(2026, 3, 13))
    assert line._right.text() == "12 Mar 09:00"
