"""The figures in the window: found by typing, answered while one types, refused under the field that is wrong."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from jobbook.ui.figures.page import FiguresPage
from jobbook.ui.places import FIGURES, Place, a_figure

ADAPTER = {"torque": "110 N·m", "lever": "400 mm", "extension": "50 mm", "angle": "30°"}


@pytest.fixture
def page(qtbot, dressed):
    made = FiguresPage()
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.arrive(Place(FIGURES))
    return made


def typed(qtbot, page, **given):
    for key, text in given.items():
        edit = page.sheet.form.fields[key].edit
        edit.clear()
        qtbot.keyClicks(edit, text)


def test_the_result_stands_there_as_soon_as_the_last_input_is_complete(qtbot, page):
    typed(qtbot, page, torque="110 N*m", lever="400 mm", extension="50 mm")
    assert page.sheet.lines == ()
    assert page.sheet.said.text() == "Still needed: Angle between adapter and handle."
    typed(qtbot, page, angle="30 deg")
    # Computed from the published formula: 110·400/(400 + 50·cos 30°) = 99.255.
    assert [one.line for one in page.sheet.lines] == ["Set: 99.255 N·m"]
    assert page.sheet.drawing.accessibleName().endswith("set 99.255 N·m")


def test_what_cannot_be_read_is_said_under_its_field(qtbot, page):
    page.arrive(a_figure("adapter", **ADAPTER))
    typed(qtbot, page, lever="400")
    field = page.sheet.form.fields["lever"]
    assert field.said().endswith(".")
    assert not field.said().startswith("lever")
    assert page.sheet.lines == ()
    typed(qtbot, page, lever="400 mm")
    assert field.said() == ""
    assert page.sheet.lines


def test_a_refusal_about_several_fields_stands_where_the_result_would(qtbot, page):
    page.arrive(a_figure("adapter", **ADAPTER | {"angle": "180°", "extension": "399 mm"}))
    assert "reaches back to the grip" in page.sheet.said.text()
    assert page.sheet.lines == ()


def test_a_figure_is_found_by_typing_and_opened_by_keys_alone(qtbot, page):
    qtbot.keyClicks(page.find_field, "toe")
    qtbot.keyClick(page.find_field, Qt.Key.Key_Down)
    assert page.sheet.name.text() == "toe"
    qtbot.keyClick(page.table, Qt.Key.Key_Return)
    assert page.sheet.form.fields["single_toe"].has_focus()


def test_nothing_found_is_said_and_the_open_sheet_stays(qtbot, page):
    qtbot.keyClicks(page.find_field, "gearbox")
    qtbot.waitUntil(lambda: page.nothing.isVisible())
    assert page.sheet.name.text() == "adapter"


def test_what_was_typed_into_a_figure_is_there_when_one_comes_back(qtbot, page):
    typed(qtbot, page, torque="95 N*m")
    page.presenter.choose("toe")
    page.presenter.choose("adapter")
    assert page.sheet.form.answers()["torque"] == "95 N*m"


def test_copy_in_a_field_takes_the_result_and_a_marked_text_takes_itself(qtbot, page):
    page.arrive(a_figure("adapter", **ADAPTER))
    edit = page.sheet.form.fields["torque"].edit
    qtbot.keyClick(edit, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "Set: 99.255 N·m"
    edit.selectAll()
    qtbot.keyClick(edit, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "110 N·m"


@pytest.mark.parametrize("name", ["leak-down", "plausible", "decide", "toe", "part-life", "grade"])
def test_every_figure_can_be_opened_or_the_first_one_is(qtbot, dressed, name):
    made = FiguresPage(name)
    qtbot.addWidget(made)
    made.arrive(Place(FIGURES))
    assert made.sheet.name.text() == (name if name != "grade" else "adapter")


def test_the_window_remembers_the_figure_that_was_open(qtbot, window, settings):
    window.go(a_figure("stages", stages="50 N·m, then +90°"))
    page = window.rooms[FIGURES].page("list")
    assert [one.line for one in page.sheet.lines] == ["Stages: 50\u202fN·m\n+90°"]
    assert settings.value("figure") == "stages"
