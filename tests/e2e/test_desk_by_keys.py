"""From the telephone call to the permission, by keyboard alone, in the real window."""

import pytest
from PySide6.QtCore import QSettings, Qt

from jobbook import app
from jobbook.core.people import Shop
from jobbook.services.opened import start_book
from jobbook.ui.jobs.arriving.call_page import CallPage
from jobbook.ui.jobs.arriving.take_in import TakeInPage
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.today.page import TodayPage
from tests.e2e.keys import Keys

CONTROL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


@pytest.fixture
def window(qapp, tmp_path):
    """The window on a book that was begun; Imke Tolland has still to say that it is she."""
    book, _ = start_book(tmp_path / "book", Shop("Saltmarsh Lane Suspension"), "Imke Tolland", "2468")
    book.close()
    settings = QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)
    one = app.Program(qapp, str(tmp_path / "book"), settings)
    assert one.begin()
    yield one.window
    one.window.close()
    one.end()


@pytest.fixture
def keys(qtbot):
    return Keys(qtbot)


def shown(keys, window, kind):
    """The page of that kind, as soon as it is in sight."""
    keys.until(lambda: any(page.isVisible() for page in window.findChildren(kind)))
    return next(page for page in window.findChildren(kind) if page.isVisible())


def test_a_call_becomes_a_job_with_a_permission_and_no_hand_leaves_the_keyboard(window, keys):
    keys.until(window.isVisible)
    keys.type("2468")
    keys.press(Qt.Key.Key_Return)
    shown(keys, window, TodayPage)
    a_call(keys, window)
    taken_in(keys, window)
    page = shown(keys, window, JobPage)
    allowed(keys, page)
    with window._setting.book.store.read() as reading:
        job = reading.jobs.get(1)
        assert job.concerns[0].words == "Front left is down in the morning."
        assert reading.customers.get(job.customer_id).name == "Ansel Harrow"
        (given,) = reading.permissions(1)
        assert (given.who, given.how, given.total) == ("Ansel Harrow", "by telephone", "150")


def a_call(keys, window):
    keys.press(Qt.Key.Key_2, CONTROL)
    keys.press(Qt.Key.Key_T, CONTROL)
    shown(keys, window, CallPage)
    keys.fill(("Name", "Ansel Harrow"), ("Number to call back", "Quillhaven 0147"), ("Plate", "KX-07-ALD"))
    keys.fill(("Complaint", "Front left is down in the morning."))
    keys.press(Qt.Key.Key_Return, CONTROL)
    shown(keys, window, TodayPage)


def taken_in(keys, window):
    """Enter on the line of Today opens the call; it is here, so it is taken in with what was said already."""
    keys.press(Qt.Key.Key_Return)
    shown(keys, window, CallPage)
    keys.press(Qt.Key.Key_N, CONTROL)
    shown(keys, window, TakeInPage)
    keys.fill(("Make", "Varnholt"), ("Model", "estate"), ("Odometer", "128410"))
    keys.press(Qt.Key.Key_Return, CONTROL)


def allowed(keys, page):
    keys.press(Qt.Key.Key_3, ALT)
    keys.choose("Permission was given")
    keys.fill(("Allows", "Diag"), ("How", "b"), ("What was allowed", "Find the cause"), ("Limit or new total", "150"))
    before = page.window().kept_words()
    keys.choose("Keep")
    keys.until(lambda: page.window().kept_words() != before)
