"""A torque in the shop's specifications: looked at while it is typed, kept at once or after a second look."""

import pytest

from jobbook.services.house.shop import specifications
from jobbook.ui.places import a_figure
from jobbook.ui.shop.specifications import SpecificationsPage
from jobbook.ui.shop.specifications_presenter import FigureWanted

VARIANT = "Varnholt estate 2019"
BOLT = "M12x1.5 10.9"  # usual are 94.5 to 156.3 N·m, computed from VDI 2230 (2001)
WANTED = (FigureWanted("lower_bolt", "torque", "Strut lower bolt", BOLT), FigureWanted("wait", "time", "Wait"))


@pytest.fixture
def page(qtbot, at_once, wrench):
    made = SpecificationsPage(at_once, WANTED)
    qtbot.addWidget(made)
    made.show()
    made.open()
    made.variant.setEditText(VARIANT)
    made.cards.form.show_answers({"document": "VH-SUS-12", "edition": "3, 2024"})
    return made


def type_in(page, **answers):
    page.cards.form.show_answers(answers)
    for name in answers:
        page.cards.form.changed.emit(name)


def test_a_figure_that_is_chosen_brings_thread_and_grade_of_its_joint(page):
    type_in(page, key="lower_bolt")
    assert page.cards.form.answers()["fastener"] == BOLT


def test_stages_tools_and_plausibility_are_said_while_one_types(page):
    type_in(page, key="lower_bolt", text="9 N·m")
    said = page.cards.note.text().replace("\u202f", " ")
    assert "Read as 9 N·m." in said
    assert "On the shelf for 9 N·m: TW-02 (2 to 10 N·m)." in said
    assert "9 N·m is low for M12x1.5 10.9" in said
    type_in(page, text="9 N·m and")
    assert page.cards.note.text() == ""


def test_nothing_is_said_of_a_figure_that_is_no_torque(page):
    type_in(page, key="wait", text="2 min")
    assert page.cards.note.text() == ""


def test_what_looks_wrong_is_kept_by_a_button_of_its_own_and_never_by_pressing_keep_twice(page, book):
    type_in(page, key="lower_bolt", text="200 N·m")
    assert page.cards.confirm.isHidden()
    page.cards.keep.click()
    page.cards.keep.click()
    assert specifications(book, VARIANT) == ()
    assert "is high" in page.cards.said.text()
    page.cards.confirm.click()
    (kept,) = specifications(book, VARIANT)
    assert kept.text == "200 N·m"
    assert kept.conditions.endswith("kept as it stands in the document.")
    assert page.cards.confirm.isHidden()
    assert page.cards.form.answers()["conditions"] == ""


def test_a_changed_torque_has_to_be_looked_at_anew(page, book):
    type_in(page, key="lower_bolt", text="200 N·m")
    page.cards.keep.click()
    type_in(page, text="210 N·m")
    assert page.cards.confirm.isHidden()
    assert page.cards.said.text() == ""
    type_in(page, text="110 N·m")
    page.cards.keep.click()
    assert [spec.text for spec in specifications(book, VARIANT)] == ["110 N·m"]


def test_the_same_torque_can_be_looked_at_among_the_figures(qtbot, page):
    type_in(page, key="lower_bolt", text="110 N·m, then +90°")
    with qtbot.waitSignal(page.go) as gone:
        page.in_figures.click()
    assert gone.args == [a_figure("plausible", torque="110 N·m", thread="M12x1.5", grade="10.9")]
