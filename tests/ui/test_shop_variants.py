"""Figures by variant in the shop: what is known of it, the day a figure begins, second looks, jobs done with others."""

import pytest
from PySide6.QtWidgets import QPushButton

from jobbook.core.figures.leakdown import CORNERS
from jobbook.services.house.people import add_person
from jobbook.services.house.shop import specifications
from jobbook.services.vehicle.figure_story import figure_story, use_words
from jobbook.services.vehicle.variants import known_variant
from jobbook.ui.shop.specifications import SpecificationsPage
from jobbook.ui.shop.specifications_presenter import FigureWanted

VARIANT = "Varnholt estate 2019"
WANTED = (FigureWanted("lower_bolt", "torque", "Lower bolt"),)
HEIGHT = {"key": "height FL", "text": "402 mm", "tolerance": "± 10 mm", "document": "VH-SUS-12", "edition": "3, 2024"}


@pytest.fixture
def page(qtbot, dressed, at_once):
    made = SpecificationsPage(at_once, WANTED)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.variant.setEditText(VARIANT)
    return made


def kept(page, book, **changes):
    page.cards.form.show_answers(HEIGHT | changes)
    page.cards.keep.click()
    return specifications(book, VARIANT)


def press(within, words):
    next(one for one in within.findChildren(QPushButton) if one.text() == words and not one.isHidden()).click()


def words(page):
    return [one.text() for one in page.history.findChildren(QPushButton)]


def test_limits_of_the_geometry_are_entered_like_any_figure(page, book):
    given = {"key": "geometry toe front", "text": "0°10′", "tolerance": "+5′ −10′"}
    (figure,) = kept(page, book, **given)
    assert (figure.kind, figure.tolerance) == ("angle", "+5′ −10′")
    page.cards.form.show_answers({"text": "1.5 mm"})
    page.cards.keep.click()
    assert "without its diameter" in page.cards.said.text()
    assert len(page.presenter.wanted) == len(WANTED) + len(CORNERS) + 12


def test_what_is_known_of_a_variant_is_told_in_a_line_and_changed_in_place(page, book):
    kept(page, book)
    page.about.change.click()
    given = {"make": "Varnholt", "model": "estate", "built_from": "2019", "built_to": "2021-06", "codes": "1bl 2mh"}
    page.about.form.form.show_answers(given)
    page.about.form.keep.click()
    assert known_variant(book, VARIANT).codes == ("1BL", "2MH")
    assert page.about.form is None


def test_a_span_that_cannot_be_is_refused_where_it_was_typed(page, book):
    kept(page, book)
    page.about.change.click()
    page.about.form.form.show_answers({"built_from": "spring"})
    page.about.form.keep.click()
    assert page.about.form is not None
    page.about.form.cancel.click()
    assert page.about.form is None
    assert known_variant(book, VARIANT).built_from == ""


def test_a_figure_that_begins_later_is_told_and_not_in_force_yet(page, book):
    kept(page, book)
    (figure,) = kept(page, book, text="392 mm", valid_from="2199-01-01")
    assert figure.text == "402 mm"
    story = figure_story(book, figure)
    assert story.coming == ("From 1 Jan 2199: 392 mm ± 10 mm · VH-SUS-12, 3, 2024",)
    assert story.earlier == ()


def test_a_figure_that_takes_anothers_place_tells_what_was_before(page, book):
    kept(page, book)
    (figure,) = kept(page, book, text="392 mm", edition="4, 2026")
    story = figure_story(book, figure)
    assert "402 mm ± 10 mm · VH-SUS-12, 3, 2024" in story.earlier[0]
    assert story.said.endswith("no second look yet.")


def test_a_second_look_is_signed_by_another_person_with_their_own_pin(page, book, imke):
    add_person(book, imke, "Nadia Oyelaran-Pike", frozenset({"work"}), "1357")
    (figure,) = kept(page, book)
    page.presenter.choose(figure)
    press(page.history, "Second look…")
    form = page.history.form
    people = {option.label: option.value for option in form.form.fields["signer"].ask.options}
    assert "Imke Tolland" not in people
    form.form.show_answers({"signer": people["Nadia Oyelaran-Pike"], "secret": "1357"})
    form.keep.click()
    (looked,) = specifications(book, VARIANT)
    assert looked.second_look_by == people["Nadia Oyelaran-Pike"]
    assert "second look by Nadia Oyelaran-Pike" in figure_story(book, looked).said
    assert "Second look…" not in words(page)


def test_what_a_second_person_read_otherwise_stands_with_the_figure(page, book, imke):
    nadia = add_person(book, imke, "Nadia Oyelaran-Pike", frozenset({"work"}), "1357")
    (figure,) = kept(page, book)
    page.presenter.choose(figure)
    page.presenter.second_look({"doubt": "the sheet has 382 mm", "signer": nadia.id, "secret": "1357"})
    (doubted,) = specifications(book, VARIANT)
    assert figure_story(book, doubted).doubt.endswith("the sheet has 382 mm")
    assert "Second look…" in words(page)


def test_a_wrong_pin_keeps_nothing_and_is_said_in_the_form(page, book, imke):
    nadia = add_person(book, imke, "Nadia Oyelaran-Pike", frozenset({"work"}), "1357")
    (figure,) = kept(page, book)
    page.presenter.choose(figure)
    press(page.history, "Second look…")
    page.history.form.form.show_answers({"signer": nadia.id, "secret": "9999"})
    page.history.form.keep.click()
    assert page.history.form is not None
    assert specifications(book, VARIANT)[0].second_look_by == ""
    page.history.form.cancel.click()
    assert page.history.form is None


def test_jobs_done_with_another_figure_are_a_press_away(page, qtbot, book):
    from jobbook.core.vehicle.specifications import OlderUse

    (figure,) = kept(page, book)
    story = figure_story(book, figure)
    use = OlderUse(12, "2025-09-18", "382 mm", "± 10 mm", "VH-SUS-12", "2")
    page.history.show_story(type(story)(story.said, "", (), (), (use,), False), None)
    assert use_words(use) == "382 mm ± 10 mm · VH-SUS-12, 2"
    with qtbot.waitSignal(page.go) as went:
        press(page.history, "Job 12")
    assert went.args[0].number == 12
