"""The shop: people, tools, figures and the workshop's facts, kept through their cards."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox

from jobbook.core.errors import Refused
from jobbook.services.house.people import all_people, by_badge, by_pin
from jobbook.services.house.shop import keep_tool, shop, specifications, tools
from jobbook.ui.shop.appearance import AppearancePage
from jobbook.ui.shop.people import PeoplePage
from jobbook.ui.shop.specifications import SpecificationsPage
from jobbook.ui.shop.specifications_presenter import FigureWanted, figures_of_the_methods
from jobbook.ui.shop.tools import ToolsPage
from jobbook.ui.shop.workshop import WorkshopPage

VARIANT = "Varnholt estate 2019"
LOWER_BOLT = FigureWanted("lower_bolt", "torque", "Strut lower bolt")


@pytest.fixture
def shown(qtbot, at_once):
    def show(page):
        qtbot.addWidget(page)
        page.show()
        page.open()
        return page

    return show


def named(book, name):
    return next(person for person in all_people(book) if person.name == name)


def test_a_person_is_added_with_permissions_pin_and_badge(shown, at_once, book):
    page = shown(PeoplePage(at_once))
    page.cards.begun.emit()
    answers = {"name": "Nadia Oyelaran-Pike", "permissions": "work,check", "pin": "3333", "badge": "BADGE-4410"}
    page.cards.form.show_answers(answers)
    page.cards.keep.click()
    nadia = named(book, "Nadia Oyelaran-Pike")
    assert nadia.permissions == {"work", "check"}
    assert by_pin(book, nadia.id, "3333") == by_badge(book, "BADGE-4410") == nadia
    assert "is kept" in page.cards.said.text()


def test_somebody_who_leaves_stays_in_the_list_and_can_sign_no_more(shown, at_once, book, bram):
    page = shown(PeoplePage(at_once))
    page.cards.choose(bram)
    page.cards.form.show_answers({"active": "no"})
    page.cards.keep.click()
    assert not named(book, "Bram Ferro").active
    with pytest.raises(Refused):
        by_pin(book, bram.id, "2222")


def test_an_empty_pin_leaves_the_old_one(shown, at_once, book, bram):
    page = shown(PeoplePage(at_once))
    page.cards.choose(bram)
    page.cards.form.show_answers({"permissions": "work,check,release"})
    page.cards.keep.click()
    assert by_pin(book, bram.id, "2222").permissions == {"work", "check", "release"}


def test_the_last_one_who_keeps_people_cannot_lose_that(shown, at_once, book, imke):
    page = shown(PeoplePage(at_once))
    page.cards.choose(imke)
    page.cards.form.show_answers({"permissions": "work"})
    page.cards.keep.click()
    assert "nobody would be left" in page.cards.said.text()
    assert named(book, "Imke Tolland").may("people")


def test_a_tool_is_added_and_its_state_is_said_with_a_mark(shown, at_once, book):
    page = shown(ToolsPage(at_once))
    assert not page.cards.empty.isHidden()
    page.cards.form.show_answers({"number": "TW-07", "low": "20", "high": "100", "due_on": "2001-01-31"})
    page.cards.keep.click()
    assert [(tool.number, tool.range_text) for tool in tools(book)] == [("TW-07", "20 to 100 N·m")]
    assert page.cards.empty.isHidden()
    row = page.cards.table.model()
    assert row.index(0, 3).data() == "calibration overdue since 31 Jan 2001"


def test_the_day_of_a_calibration_is_typed_and_shown_as_one_says_it(shown, at_once, book, wrench):
    page = shown(ToolsPage(at_once))
    page.cards.choose(next(one for one in tools(book) if one.number == wrench.number))
    page.cards.form.show_answers({"calibrated_on": "14.3.2025", "due_on": "14 Mar 2031"})
    page.cards.keep.click()
    kept = next(one for one in tools(book) if one.number == wrench.number)
    assert (kept.calibrated_on, kept.due_on) == ("2025-03-14", "2031-03-14")
    assert page.cards.form.answers()["calibrated_on"] == "14 Mar 2025"
    page.cards.form.show_answers({"calibrated_on": "3/4/2025"})
    page.cards.keep.click()
    assert "is no day" in page.cards.said.text()


def test_a_number_that_is_taken_makes_no_second_card(shown, at_once, book, wrench):
    page = shown(ToolsPage(at_once))
    page.cards.begun.emit()
    page.cards.form.show_answers({"number": wrench.number, "high": "999"})
    page.cards.keep.click()
    assert "in the crib already" in page.cards.said.text()
    assert tools(book) == (wrench,)


def test_a_tool_keeps_its_number(shown, at_once, book, wrench):
    page = shown(ToolsPage(at_once))
    page.cards.form.show_answers({"number": "TW-99"})
    page.cards.keep.click()
    assert "keeps its number" in page.cards.said.text()
    assert tools(book) == (wrench,)


def test_what_is_being_typed_on_a_card_survives_that_the_book_changes(shown, at_once, book, imke, wrench):
    page = shown(ToolsPage(at_once))
    page.cards.form.show_answers({"certificate": "K-119, half typed"})
    keep_tool(book, imke, replace(wrench, number="TW-30"))
    page.refresh()
    assert page.cards.table.model().rowCount() == 2
    assert page.cards.form.answers()["certificate"] == "K-119, half typed"


def test_what_was_typed_on_a_card_stands_there_again_after_another_was_looked_at(shown, at_once, book, bram, imke):
    page = shown(PeoplePage(at_once))
    page.cards.choose(bram)
    page.cards.form.show_answers({"name": "Bram Ferro-Hale", "pin": "9999"})
    page.cards.choose(imke)
    assert page.cards.form.answers()["name"] == "Imke Tolland"
    page.cards.choose(bram)
    assert page.cards.form.answers()["name"] == "Bram Ferro-Hale"
    assert page.cards.form.answers()["pin"] == "", "a PIN is never remembered"
    assert "not kept yet" in page.cards.said.text()
    page.cards.keep.click()
    page.cards.choose(imke)
    page.cards.choose(named(book, "Bram Ferro-Hale"))
    assert page.cards.said.text() == ""


def test_a_new_card_that_was_left_stands_there_again_and_one_that_was_kept_does_not(shown, at_once, imke):
    page = shown(PeoplePage(at_once))
    page.cards.begun.emit()
    page.cards.form.show_answers({"name": "Nadia Oyelaran-Pike", "permissions": "work"})
    page.cards.choose(imke)
    page.cards.begun.emit()
    assert page.cards.form.answers()["name"] == "Nadia Oyelaran-Pike"
    page.cards.form.show_answers({"pin": "3333"})
    page.cards.keep.click()
    page.cards.begun.emit()
    assert page.cards.form.answers()["name"] == ""


def test_a_range_that_is_no_number_is_refused_in_one_sentence(shown, at_once, book):
    page = shown(ToolsPage(at_once))
    page.cards.form.show_answers({"number": "TW-07", "low": "twenty"})
    page.cards.keep.click()
    assert "is not a number: “twenty”" in page.cards.said.text()
    assert tools(book) == ()


@pytest.fixture
def figures(shown, at_once):
    page = shown(SpecificationsPage(at_once, (LOWER_BOLT,)))
    page.variant.setEditText(VARIANT)
    answers = {"key": "lower_bolt", "text": "70 N·m + 90°", "tolerance": "± 5 %"}
    page.cards.form.show_answers(answers | {"document": "VH-SUS-12", "edition": "3, 2024"})
    return page


def test_a_figure_is_kept_as_typed_with_its_source(figures, book):
    figures.cards.keep.click()
    (kept,) = specifications(book, VARIANT)
    assert (kept.text, kept.tolerance, kept.document, kept.edition) == ("70 N·m + 90°", "± 5 %", "VH-SUS-12", "3, 2024")
    assert len(kept.stages) == 2


def test_a_figure_of_another_kind_is_refused_in_one_sentence(figures, book):
    figures.cards.form.show_answers({"text": "70 mm"})
    figures.cards.keep.click()
    assert figures.cards.said.text().endswith(".")
    assert specifications(book, VARIANT) == ()


def test_a_figure_needs_its_variant(figures, book):
    figures.variant.setEditText("")
    figures.cards.keep.click()
    assert "Name the variant first" in figures.said.text()


def test_ride_heights_can_be_entered_for_each_corner(figures, book):
    figures.cards.form.show_answers({"key": "height FL", "text": "402 mm", "tolerance": "± 10 mm"})
    figures.cards.keep.click()
    assert [(kept.key, kept.text) for kept in specifications(book, VARIANT)] == [("height FL", "402 mm")]


def test_the_figures_of_the_shipped_methods_are_offered():
    keys = [figure.key for figure in figures_of_the_methods()]
    assert keys
    assert len(keys) == len(set(keys))


def test_the_workshops_facts_are_kept(shown, at_once, book):
    page = shown(WorkshopPage(at_once))
    page.form.show_answers({"phone": "01000 555 099", "retorque_km": "120"})
    page.keep.click()
    assert (shop(book).phone, shop(book).retorque_km) == ("01000 555 099", 120)


def test_a_distance_that_is_no_number_is_said_under_its_field(shown, at_once, book):
    before = shop(book)
    page = shown(WorkshopPage(at_once))
    page.form.show_answers({"retorque_km": "soon"})
    page.keep.click()
    assert "not a whole number" in page.form.fields["retorque_km"].said()
    assert shop(book) == before


def test_light_and_dark_are_wished_for_by_a_click(qtbot, dressed):
    page = AppearancePage("system")
    qtbot.addWidget(page)
    with qtbot.waitSignal(page.wished) as wished:
        page.form.fields["scheme"]._buttons["dark"].click()
    assert wished.args == ["dark"]


def test_after_how_long_the_window_locks_itself_is_chosen(qtbot, dressed):
    page = AppearancePage("system", 5)
    qtbot.addWidget(page)
    assert page.form.answers()["lock"] == "5"
    with qtbot.waitSignal(page.lock_wished) as wished:
        qtbot.keyClick(page.form.fields["lock"].findChild(QComboBox), Qt.Key.Key_End)
    assert wished.args == [0]


def test_nobody_without_the_permission_changes_a_person(shown, at_once, duty, book, bram):
    page = shown(PeoplePage(at_once))
    duty.come(bram)
    page.cards.choose(bram)
    page.cards.form.show_answers({"name": "Bram F."})
    page.cards.keep.click()
    assert "no permission" in page.cards.said.text()
    assert replace(bram) == named(book, "Bram Ferro")
