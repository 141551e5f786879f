"""The composition root: a book that opens, one that is begun, and what cannot be opened."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, QSize

from jobbook import app
from jobbook.core.people import Shop
from jobbook.services.opened import needs_start, start_book
from jobbook.ui import look

ROOT = Path(app.__file__).parent.parent


@pytest.fixture
def settings(tmp_path):
    return QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def program(qapp, settings, request):
    """Makes a program for a place; at the end it is closed as a person would close it."""
    made = []

    def make(place):
        made.append(app.Program(qapp, str(place), settings))
        return made[-1]

    yield make
    for one in made:
        if one.window is not None:
            one.window.close()
        one.end()


@pytest.fixture
def shop_book(tmp_path):
    book, _ = start_book(tmp_path / "book", Shop("Saltmarsh Lane Suspension"), "Imke Tolland", "1234")
    book.close()
    return tmp_path / "book"


def test_a_book_opens_locked(program, shop_book):
    one = program(shop_book)
    assert one.begin()
    assert one.window.isVisible()
    assert one.window.sides.currentWidget() is one.window.duty_page


def test_where_there_is_no_book_one_is_begun_and_opens_with_its_first_person_on_duty(qtbot, program, tmp_path):
    one = program(tmp_path / "new")
    assert one.begin()
    first = one.first_start
    first.form.show_answers({"name": "Saltmarsh Lane", "first": "Imke Tolland", "pin": "1234", "again": "1234"})
    first.create_book.click()
    qtbot.waitUntil(lambda: first.currentIndex() == 1)
    first.begin.click()
    assert one.window.isVisible()
    assert not first.isVisible()
    assert one.window.on_duty.text() == "Imke Tolland"


def test_the_wish_for_dark_is_remembered_and_worn(qapp, program, shop_book, settings):
    one = program(shop_book)
    one.begin()
    one._wish("dark")
    assert qapp.property("scheme") == "dark"
    assert settings.value("scheme") == "dark"
    one._wish("light")
    assert qapp.property("scheme") == "light"


def no_database(place):
    place.mkdir()
    (place / "book.sqlite").write_text("This is a letter, not a database.\n" * 200)


def a_file(place):
    place.write_text("a letter")


@pytest.mark.parametrize("spoil", [no_database, a_file])
def test_what_cannot_be_opened_is_said_in_one_sentence_with_exit_status_2(spoil, tmp_path):
    place = tmp_path / "spoiled"
    spoil(place)
    before = sorted((path, path.is_file() and path.read_bytes()) for path in [place, *place.rglob("*")])
    command = [sys.executable, "-c", f"import sys; from jobbook.app import run; sys.exit(run({str(place)!r}))"]
    folders = {"XDG_CONFIG_HOME": str(tmp_path / "config"), "XDG_DATA_HOME": str(tmp_path / "data")}
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", **folders}
    ended = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, timeout=60, check=False)
    said = [line for line in ended.stderr.splitlines() if "propagateSizeHints" not in line]
    assert ended.returncode == 2
    assert len(said) == 1
    assert "nothing was changed" in said[0]
    assert sorted((path, path.is_file() and path.read_bytes()) for path in [place, *place.rglob("*")]) == before


def test_without_a_screen_the_program_says_so_and_names_what_needs_none():
    assert "no screen" in app.screen_trouble({})
    assert app.screen_trouble({"DISPLAY": ":0"}) == app.screen_trouble({"QT_QPA_PLATFORM": "offscreen"}) == ""


def test_a_report_says_nothing_of_the_workshop(qapp):
    facts = app.program_facts()
    assert {"job book", "Python", "Qt", "system"} <= set(facts)
    assert str(Path.home()) not in str(facts)


def test_a_folder_that_cannot_be_written_to_is_said_in_one_sentence(qtbot, program, tmp_path):
    (tmp_path / "in the way").write_text("a letter")
    one = program(tmp_path / "in the way" / "book")
    assert one.begin()
    first = one.first_start
    first.form.show_answers({"name": "Saltmarsh Lane", "first": "Imke Tolland", "pin": "1234", "again": "1234"})
    first.create_book.click()
    qtbot.waitUntil(lambda: bool(first.said.text()))
    assert "Not a directory" in first.said.text()
    assert needs_start(tmp_path / "in the way" / "book")
    first.close()


@pytest.mark.parametrize(
    ("screen", "whole"),
    [((1366, 728), False), ((1366, 768), False), ((1440, 800), False), ((1440, 820), True), ((1920, 1040), True)],
)
def test_the_first_window_takes_the_whole_screen_where_its_foot_would_not_be_seen(screen, whole):
    assert app.fits(QSize(*look.WINDOW_SIZE), QSize(*screen)) is whole
