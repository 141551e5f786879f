"""Beginning through the page: a method with its questions, the figures that are missing, a joint of one's own."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from jobbook.services.job import methods
from jobbook.services.sheet.sheets import Unsigned
from jobbook.ui.jobs.signing import to_sign
from jobbook.ui.jobs.working.work_begin import OfferLine
from tests.ui.jobs import strut_book
from tests.ui.jobs.strut_book import FIGURES, SOURCE

ANSWERS = {"corner": "FL", "option link_on_strut": "yes", "option keeps_pressure": "no", "option battery_off": "no"}


@pytest.fixture
def work(page, there):
    strut_book.allowed(there)
    shown = page()
    shown.right.open_tab("work")
    return shown.work


def choose_the_front_strut(work, qtbot) -> None:
    qtbot.keyClick(work.begin, Qt.Key.Key_Return)
    front = next(
        line for line in work.begin_panel.findChildren(OfferLine) if "Front air strut" in line.accessibleName()
    )
    qtbot.keyClick(front, Qt.Key.Key_Return)


def test_with_nothing_begun_the_page_says_so_and_offers_to_begin(work):
    assert work._empty.isVisible()
    assert work.begin.isVisible()
    assert work.card is None


def test_every_shipped_method_is_offered_with_what_it_is_for(work, qtbot):
    qtbot.keyClick(work.begin, Qt.Key.Key_Return)
    lines = work.begin_panel.findChildren(OfferLine)
    assert len(lines) == len(methods.shipped_methods())
    assert lines[0].hasFocus()


def test_a_method_is_begun_after_its_questions_and_the_focus_is_on_its_first_act(work, qtbot):
    choose_the_front_strut(work, qtbot)
    form = work.begin_panel._form.form
    assert set(form.fields) == set(ANSWERS)
    form.hand_in()
    assert work.card is None  # unanswered questions are said under their fields
    form.show_answers(ANSWERS)
    form.hand_in()
    assert work.card.card.step.number == 1
    assert work.card.buttons[0].hasFocus()
    assert work.begin_panel.isHidden()


def test_escape_leaves_the_choice_of_methods(work, qtbot):
    qtbot.keyClick(work.begin, Qt.Key.Key_Return)
    qtbot.keyClick(work.begin_panel, Qt.Key.Key_Escape)
    assert work.begin_panel.isHidden()
    assert work.begin.isVisible()


def test_missing_figures_are_counted_entered_with_their_source_and_then_gone(work, qtbot):
    choose_the_front_strut(work, qtbot)
    work.begin_panel._form.form.show_answers(ANSWERS)
    work.begin_panel._form.form.hand_in()
    assert work.lacking._count.text() == f"{len(FIGURES)} figures are missing:"
    qtbot.keyClick(work.lacking.enter, Qt.Key.Key_Return)
    form = work.figure_form._form.form
    form.show_answers(FIGURES | {"tolerance": SOURCE["tolerance"]})
    form.hand_in()
    assert "needed" in form.fields["document"].said()
    form.show_answers({"document": SOURCE["document"], "edition": SOURCE["edition"]})
    form.hand_in()
    assert work.lacking.isHidden()
    assert work.figure_form.isHidden()


def test_a_figure_of_another_kind_is_refused_above_the_buttons_and_stays_typed(work, qtbot):
    choose_the_front_strut(work, qtbot)
    work.begin_panel._form.form.show_answers(ANSWERS)
    work.begin_panel._form.form.hand_in()
    work.ask_figures()
    form = work.figure_form._form.form
    form.show_answers({"wheel_torque": "90 mm", "document": "VH-SUS-12", "edition": "3"})
    form.hand_in()
    assert "90 mm" in work.figure_form._form._refusal.text()
    assert form.fields["wheel_torque"].text() == "90 mm"


def test_a_joint_of_ones_own_is_added_at_the_end_of_the_steps(work, qtbot):
    choose_the_front_strut(work, qtbot)
    work.begin_panel._form.form.show_answers(ANSWERS)
    work.begin_panel._form.form.hand_in()
    add = next(b for b in work.findChildren(QPushButton) if b.text().startswith("Something that"))
    qtbot.keyClick(add, Qt.Key.Key_Return)
    (joint, *_others) = work.begin_panel.findChildren(OfferLine)
    assert joint.accessibleName().startswith("A joint")
    qtbot.keyClick(joint, Qt.Key.Key_Return)
    form = work.begin_panel._form.form
    form.show_answers({"title": "Brake hose bracket bolt", "count": "many"})
    form.hand_in()
    assert "1 to 40" in work.begin_panel._form._refusal.text()
    form.show_answers({"count": "2"})
    form.hand_in()
    assert work.steps.lines[-1, 1].step.title == "Brake hose bracket bolt"
    assert work.steps._titles[-1].text() == "Added on the spot"


def act(number: int, by: str, grouped: bool = True) -> Unsigned:
    return Unsigned(f"a{number}", number, "words", by, "2026-03-12T09:00:00+01:00", grouped)


@pytest.mark.parametrize(
    ("waiting", "signed"),
    [
        ((act(1, "Bram"), act(2, "Nadia"), act(3, "Bram")), ("a1", "a3")),
        ((act(1, "Bram", False), act(2, "Bram")), ("a2",)),  # what stands alone is never in a group
        ((act(1, "Bram", False), act(2, "Bram", False)), ("a1",)),
        ((act(1, "Nadia"),), ("a1",)),  # refused below, with the sentence that says whose it is
    ],
)
def test_one_signature_stands_under_what_this_person_did(waiting, signed):
    assert to_sign(waiting, "Bram") == signed
