"""Phrases in the shop, and picked into a field: what was typed stays as it is."""

import pytest
from PySide6.QtWidgets import QPushButton

from jobbook.services.office.phrases import own_phrases, shipped
from jobbook.services.sheet.sheets import Ask
from jobbook.ui.forms import Form
from jobbook.ui.picking import phrase_menu
from jobbook.ui.shop.phrases import PhrasesPage

OWN = "salt in the connector"


@pytest.fixture
def page(qtbot, dressed, at_once):
    made = PhrasesPage(at_once)
    qtbot.addWidget(made)
    made.show()
    made.open()
    return made


def add(page):
    page.cards.begun.emit()
    page.cards.form.show_answers({"field": "cause", "text": OWN})
    page.cards.keep.click()


def test_a_phrase_is_added_and_stands_in_the_list(page, book):
    add(page)
    assert [one.text for one in own_phrases(book)] == [OWN]
    assert "is in the list" in page.cards.said.text()
    add(page)
    assert "in the list already" in page.cards.said.text()


def test_one_of_the_shops_own_is_taken_away_and_one_that_ships_is_not(page, book):
    add(page)
    (own,) = own_phrases(book)
    page.cards.choose(shipped()[0])
    assert not page.away.isVisible()
    page.presenter.take_away()
    assert "comes with the program" in page.cards.said.text()
    page.cards.choose(own)
    page.away.click()
    assert own_phrases(book) == ()
    assert "out of the list" in page.cards.said.text()


@pytest.fixture
def form(qtbot, dressed):
    phrases = ("soap bubbles at normal height", "R&D & more")
    made = Form(
        (
            Ask("line", "A line", phrases=phrases),
            Ask("text", "A text", "long text", phrases=phrases, hint=lambda typed: "short" if len(typed) < 9 else ""),
        )
    )
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def pick(form, name, place):
    """Pick a phrase of the field's menu, at the cursor as it stands."""
    field = form.fields[name]
    phrase_menu(field.ask, field.edit, field.changed.emit).actions()[place].trigger()


@pytest.mark.parametrize("name", ["line", "text"])
def test_a_phrase_goes_in_at_the_cursor_and_nothing_typed_is_changed(qtbot, form, name):
    qtbot.keyClicks(form.fields[name].edit, "FL  leeks; ")
    pick(form, name, 0)
    assert form.answers()[name] == "FL  leeks; soap bubbles at normal height"
    qtbot.keyClicks(form.fields[name].edit, ",")
    pick(form, name, 1)
    assert form.answers()[name] == "FL  leeks; soap bubbles at normal height, R&D & more"
    assert form.fields[name].edit.hasFocus()


def test_every_field_with_phrases_says_by_which_key_they_are_picked(form):
    buttons = [made for made in form.findChildren(QPushButton) if made.accessibleName().endswith(": Phrases")]
    assert [made.toolTip() for made in buttons] == ["Phrases  Alt+Down"] * 2


def test_a_hint_stands_under_the_field_and_goes_when_it_has_nothing_more_to_say(qtbot, form):
    field = form.fields["text"]
    qtbot.keyClicks(field.edit, "leeks")
    assert field.said() == "short"
    assert form.answers()["text"] == "leeks"
    qtbot.keyClicks(field.edit, " at FL")
    assert field.said() == ""
