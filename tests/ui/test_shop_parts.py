"""Parts known by number: the list, the card, and the way there from the find line."""

import pytest
from PySide6.QtCore import Qt

from jobbook.core.errors import Refused
from jobbook.core.vehicle.parts import KnownPart
from jobbook.services.house.known_parts import keep_part, known_parts
from jobbook.ui.places import SHOP, a_part
from jobbook.ui.shop.parts import PartsPage

STRUT = KnownPart(0, "AS-44.201", "Air strut, front left", "Quillhaven Spring Supply", "part", "24")


@pytest.fixture
def page(qtbot, dressed, at_once):
    made = PartsPage(at_once)
    qtbot.addWidget(made)
    made.show()
    made.open()
    return made


def numbers(page):
    model = page.cards.table.model()
    return [model.record(row).number for row in range(model.rowCount())]


def fill(page, **answers):
    page.cards.form.show_answers(answers)
    page.cards.keep.click()


def test_a_part_is_added_changed_and_stays_one(page, book):
    assert page.cards.empty.isVisible()
    page.cards.empty.act.click()
    fill(page, number="AS-44.201", title="Air strut")
    assert page.cards.said.text() == "AS-44.201 is kept."
    fill(page, supplier="Quillhaven", warranty_months="24")
    (kept,) = known_parts(book).rows
    assert (kept.number, kept.title, kept.supplier, kept.warranty_months) == (
        "AS-44.201", "Air strut", "Quillhaven", "24",
    )  # fmt: skip


def test_typing_narrows_the_list(qtbot, page, book, imke):
    keep_part(book, imke, STRUT)
    keep_part(book, imke, KnownPart(0, "DR-1", "Dryer"))
    page.refresh()
    assert numbers(page) == ["DR-1", "AS-44.201"]
    qtbot.keyClicks(page.find_field, "quill")
    qtbot.waitUntil(lambda: numbers(page) == ["AS-44.201"])


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"number": "as 44 201", "title": "Another"}, "AS-44.201 is in the list already, as Air strut, front left"),
        ({"number": "X-1", "title": ""}, "it needs its number and what it is"),
        ({"number": "X-1", "title": "x", "warranty_months": "two years"}, "no number of months"),
        ({"number": "X-1", "title": "x", "kind": "engine"}, "none of part, piece, seal"),
    ],
)
def test_what_cannot_be_kept_is_said(book, imke, told, words):
    keep_part(book, imke, STRUT)
    with pytest.raises(Refused, match=words):
        keep_part(book, imke, KnownPart(0, **told))
    assert len(known_parts(book).rows) == 1


def test_who_may_neither_keep_the_desk_nor_the_tools_keeps_no_part(book, bram):
    with pytest.raises(Refused, match="no permission"):
        keep_part(book, bram, STRUT)


def test_a_refusal_stands_on_the_card_and_what_was_typed_stays(page, duty):
    page._begin()
    duty.lock()
    fill(page, number="X-1", title="Dryer")
    assert "Nobody is on duty" in page.cards.said.text()
    assert page.cards.form.answers()["number"] == "X-1"


def test_the_find_line_leads_to_the_card(qtbot, window, book, imke):
    kept = keep_part(book, imke, STRUT)
    window.find_line.setFocus()
    qtbot.keyClicks(window.find_line, "as-44")
    qtbot.keyClick(window.find_line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.place() == a_part(kept.id))
    shop = window.pages.currentWidget().currentWidget()
    assert window.place().room == SHOP
    assert shop.part().cards.title.text() == "AS-44.201"


def test_more_parts_than_fit_are_said(page, book, imke, monkeypatch):
    monkeypatch.setattr("jobbook.ui.shop.parts_presenter.MOST", 1)
    for number in ("A-1", "A-2"):
        keep_part(book, imke, KnownPart(0, number, "Strut"))
    page.refresh()
    assert numbers(page) == ["A-2"]
    assert page.more.text().startswith("The newest")
