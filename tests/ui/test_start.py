"""The first start and the lock."""

import pytest
from PySide6.QtCore import Qt

from jobbook.services.house.people import all_people, by_pin
from jobbook.services.house.shop import shop
from jobbook.services.opened import needs_start
from jobbook.ui.start.duty_page import DutyPage
from jobbook.ui.start.first_start import FirstStart


@pytest.fixture
def first(qtbot, lanes, tmp_path):
    made = FirstStart(str(tmp_path / "new book"), lanes)
    qtbot.addWidget(made)
    made.show()
    answers = {"name": "Saltmarsh Lane Suspension", "first": "Imke Tolland", "pin": "1234", "again": "1234"}
    made.form.show_answers(answers)
    return made


def test_the_first_start_creates_the_book_and_says_where_its_key_lies(qtbot, first, tmp_path):
    first.create_book.click()
    qtbot.waitUntil(lambda: first.currentIndex() == 1)
    assert str(tmp_path / "new book" / "keys") in first.where.text()
    assert list((tmp_path / "new book" / "keys").iterdir()) != []
    with qtbot.waitSignal(first.created) as created:
        first.begin.click()
    book, person = created.args
    assert shop(book).name == "Saltmarsh Lane Suspension"
    assert by_pin(book, person.id, "1234").name == "Imke Tolland"
    book.close()


def test_two_pins_that_differ_create_nothing(qtbot, first, tmp_path):
    first.form.show_answers({"again": "4321"})
    first.create_book.click()
    assert "differ" in first.form.fields["again"].said()
    assert needs_start(tmp_path / "new book")


def test_a_pin_that_is_too_short_is_refused_in_one_sentence_and_nothing_is_half_written(qtbot, first, tmp_path):
    first.form.show_answers({"pin": "12", "again": "12"})
    first.create_book.click()
    qtbot.waitUntil(lambda: bool(first.said.text()))
    assert "at least four digits" in first.said.text()
    assert needs_start(tmp_path / "new book")
    assert first.create_book.isEnabled()


@pytest.fixture
def lock(qtbot, setting, bram):
    made = DutyPage(setting)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def test_the_right_pin_lets_its_person_in(qtbot, lock, imke):
    lock.choose(imke.id)
    with qtbot.waitSignal(lock.came) as came:
        qtbot.keyClicks(lock.pin, "1234")
        qtbot.keyClick(lock.pin, Qt.Key.Key_Return)
    assert came.args[0].name == "Imke Tolland"


def test_a_wrong_pin_says_so_and_the_field_is_ready_again(qtbot, lock, imke):
    lock.choose(imke.id)
    with qtbot.assertNotEmitted(lock.came):
        qtbot.keyClicks(lock.pin, "9999")
        qtbot.keyClick(lock.pin, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: bool(lock.said.text()))
    assert "not the PIN of Imke Tolland" in lock.said.text()
    assert lock.pin.text() == ""
    assert lock.pin.hasFocus()


def test_another_persons_pin_does_not_fit(qtbot, lock, imke):
    lock.choose(imke.id)
    lock.presenter.pin(imke.id, "2222")
    qtbot.waitUntil(lambda: bool(lock.said.text()))
    assert "Imke Tolland" in lock.said.text()


def test_a_badge_lets_its_person_in_wherever_the_focus_is(qtbot, lock):
    with qtbot.waitSignal(lock.came) as came:
        qtbot.keyClicks(lock.pin, "BADGE-7781")
        qtbot.keyClick(lock.pin, Qt.Key.Key_Return)
    assert came.args[0].name == "Bram Ferro"


def test_a_strange_badge_is_refused(qtbot, lock):
    qtbot.keyClicks(lock.pin, "BADGE-0000")
    qtbot.keyClick(lock.pin, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "belongs to nobody" in lock.said.text())


def test_up_and_down_choose_the_name_while_the_focus_stays_in_the_pin(qtbot, lock):
    first = lock.chosen()
    qtbot.keyClick(lock.pin, Qt.Key.Key_Down)
    assert lock.chosen() != first
    qtbot.keyClick(lock.pin, Qt.Key.Key_Up)
    assert lock.chosen() == first
    assert lock.pin.hasFocus()


def test_who_has_left_is_not_listed(lock, book, imke):
    names = [one.text() for one in lock.people.buttons()]
    assert sorted(names) == sorted(person.name for person in all_people(book) if person.active)
