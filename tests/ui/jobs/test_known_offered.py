"""Parts that the shop knows are offered while their number, their name or their supplier is typed."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QShortcut

from jobbook.core.vehicle.parts import KnownPart
from jobbook.services import work
from jobbook.services.house.known_parts import keep_part
from jobbook.ui.jobs.deed_form import DeedForm
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import at_work, deed
from tests.ui.jobs.test_job_page import press

STRUT = KnownPart(0, "AS-4471-L", "Air strut, front left", "Brackwater Springs", "part", "24")


@pytest.fixture
def offering(there):
    """The form by which the strut is issued."""
    keep_part(there.book, there.bram, STRUT)
    keep_part(
        there.book, there.bram, KnownPart(0, "AS-4471-R", "Air strut, front right", "Brackwater Springs", "part", "24")
    )
    strut_book.allowed(there)
    work.begin_method(there.book, there.bram, there.job, strut_book.METHOD, "FL", strut_book.OPTIONS)
    presenter, seen = at_work(there)
    presenter.open_tab("parts")
    blocks = (line for block in seen.tabs["parts"].blocks for line in block.lines)
    return next(d for line in blocks for d in line.deeds if any(ask.name == "warranty_months" for ask in d.asks))


def empty(issue):
    return {ask.name: ask.value for ask in issue.asks}


@pytest.mark.parametrize(
    ("field", "typed", "numbers"),
    [
        ("number", "AS-4471", {"AS-4471-L", "AS-4471-R"}),
        ("number", "strut left", {"AS-4471-L"}),
        ("supplier", "brackwa", {"AS-4471-L", "AS-4471-R"}),
        ("number", "a", set()),
        ("number", "bellows", set()),
    ],
)
def test_a_known_part_is_offered_by_number_name_and_supplier(offering, field, typed, numbers):
    offered = offering.offers(empty(offering) | {field: typed})
    assert {one.fills["number"] for one in offered} == numbers


def test_only_what_is_known_is_filled_in_and_never_condition_or_serial(offering):
    (offer,) = offering.offers(empty(offering) | {"number": "strut left"})
    assert offer.words == "AS-4471-L · Air strut, front left · Brackwater Springs"
    assert offer.fills == {"number": "AS-4471-L", "supplier": "Brackwater Springs", "warranty_months": "24"}
    assert offering.offers(empty(offering) | dict(offer.fills)) != (offer,)


def test_a_line_of_the_estimate_takes_number_and_words_of_a_known_part(there, offering):
    presenter, seen = at_work(there)
    presenter.open_tab("permission")
    line = deed(seen, "permission", "line", "part")
    (offer,) = line.offers(empty(line) | {"words": "strut left"})
    assert offer.fills == {"words": "Air strut, front left", "part": "AS-4471-L"}
    assert deed(seen, "permission", "line", "labour").offers is None


def test_the_keys_of_offers_are_no_keys_of_the_page_of_a_job(qtbot, page, there):
    keep_part(there.book, there.bram, STRUT)
    shown = page()
    shown.right.open_tab("permission")
    press(shown.tabs["permission"], "Part…")
    form = shown.tabs["permission"]._form
    words = form.form.fields["words"]
    words.focusProxy().setFocus()
    qtbot.keyClicks(words.edit, "strut left")
    qtbot.waitUntil(form.offer.isVisible)
    taken = {key.key().toString() for key in shown.findChildren(QShortcut)}
    offered = [line.shortcut().toString() for line in form.offer.lines if line.isVisible()]
    assert offered == ["F2"]
    assert not set(offered) & taken
    form.offer.lines[0].click()
    assert form.form.answers()["part"] == "AS-4471-L"
    assert not form.offer.isVisible()


def test_an_offer_is_taken_by_a_click_and_goes_away(qtbot, dressed, offering):
    form = DeedForm(offering.asks, "Keep")
    form.offer_known(offering.offers)
    qtbot.addWidget(form)
    form.show()
    number = form.form.fields["number"]
    qtbot.keyClicks(number.edit, "AS-4471-L")
    (line,) = (one for one in form.offer.lines if one.isVisible())
    qtbot.mouseClick(line, Qt.MouseButton.LeftButton)
    answers = form.form.answers()
    assert (answers["supplier"], answers["warranty_months"], answers["serial"]) == ("Brackwater Springs", "24", "")
    assert not form.offer.isVisible()
