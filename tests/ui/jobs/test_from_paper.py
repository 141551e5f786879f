"""An old job keyed in from its paper by keyboard, on a real book."""

import pytest
from PySide6.QtCore import Qt

from jobbook.services.jobs import jobs
from jobbook.services.office import desk
from jobbook.ui.jobs.arriving.from_paper import FromPaperPage
from jobbook.ui.places import FROM_PAPER, JOBS, Place


@pytest.fixture
def page(qtbot, setting):
    made = FromPaperPage(setting)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.arrive(FROM_PAPER)
    return made


def type_in(qtbot, page, form, **answers):
    for name, text in answers.items():
        field = getattr(page, form).fields[name]
        field.setFocus()
        qtbot.keyClicks(field.edit, text)


def kept(qtbot, page):
    qtbot.keyClick(page, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: page.keep.isEnabled() and (page.told.isVisible() or page.said.isVisible()))


def test_a_paper_is_keyed_in_and_the_form_waits_for_the_next(qtbot, page, book):
    type_in(qtbot, page, "paper", day="05.2019", number="1188")
    type_in(qtbot, page, "vehicle", plate="OD-31-RYE", make="Ondry")
    type_in(qtbot, page, "found", concern="Rear goes down over the weekend")
    kept(qtbot, page)
    (row,) = jobs(book).rows
    assert page.told.text() == f"Job {row.number} keyed in from paper, May 2019. The next paper can be keyed in."
    assert desk.get_job(book, row.number).from_paper == "number 1188, May 2019"
    assert page.answers()["day"] == page.answers()["concern"] == ""
    assert page.paper.fields["day"].edit.hasFocus()


def test_what_is_refused_stays_typed_and_says_why(qtbot, page, book):
    type_in(qtbot, page, "paper", day="2019")
    type_in(qtbot, page, "found", concern="Rear goes down")
    kept(qtbot, page)
    assert "the VIN or the plate" in page.said.text()
    assert page.answers()["concern"] == "Rear goes down"
    assert jobs(book).rows == ()


def test_the_day_is_asked_for_before_anything_is_kept(qtbot, page):
    first = page.paper.fields["day"].edit
    qtbot.waitUntil(first.hasFocus)
    qtbot.keyClick(first, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: page.paper.fields["day"].said().endswith("is needed."))


def test_a_vehicle_that_the_book_knows_is_named_while_its_vin_is_typed(qtbot, page, strut_job):
    type_in(qtbot, page, "vehicle", vin="A09VH2AT4KB204117")
    assert "is in the book already" in page.vehicle.fields["vin"].said()


def test_it_is_reached_from_taking_in_and_left_by_escape(qtbot, window):
    window.go(Place(JOBS, "new"))
    window.rooms[JOBS].page("new").old.click()
    assert window.place() == FROM_PAPER
    first = window.rooms[JOBS].page("paper").paper.fields["day"].edit
    qtbot.waitUntil(first.hasFocus)
    qtbot.keyClick(first, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: window.place() == Place(JOBS, "new"))


def test_what_the_book_knows_already_is_said_while_it_is_typed(qtbot, page, book):
    type_in(qtbot, page, "paper", day="2019", customer="Pell Marrow")
    type_in(qtbot, page, "vehicle", plate="OD-31-RYE", make="Ondry", model="van")
    type_in(qtbot, page, "found", concern="Rear goes down")
    kept(qtbot, page)
    type_in(qtbot, page, "paper", customer="Pell Marrow")
    assert "bring them together" in page.paper.fields["customer"].said()
    type_in(qtbot, page, "vehicle", plate="OD31RYE")
    assert page.vehicle.fields["plate"].said().startswith("Ondry van is in the book already")
    assert "one more visit of theirs" in page.paper.fields["customer"].said()
