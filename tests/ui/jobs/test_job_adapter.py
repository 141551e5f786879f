"""With an adapter on the wrench: the form answers while the measures are typed, and hands all of it in together."""

from datetime import date, datetime

import pytest
from PySide6.QtCore import Qt

from jobbook.core.quantities import read_quantity
from jobbook.core.tools import Tool
from jobbook.core.work.model import Act
from jobbook.services.measured.adapters import MEASURES, SET_TO
from jobbook.services.sheet.sheets import Ask, Card, Choice, Option, StepRow, WithAdapter
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.working.work_adapter import AdapterForm
from jobbook.ui.jobs.working.work_card import StepCard

TOOLS = (
    Tool("TW-07", "click wrench", "20", "100", calibrated_on="2026-01-10"),
    Tool("TW-09", "click wrench", "40", "200", calibrated_on="2026-01-10"),
)
ASKED = WithAdapter(read_quantity("110 N·m", "torque"), TOOLS, date(2026, 3, 12))
TOOL = Ask("tool", "Tool", "tool", tuple(Option(tool.number, tool.number) for tool in TOOLS))
ADAPTER = Choice(
    "adapter", "With an adapter…", "A", Act("tighten", on="bolt@FL"), (*MEASURES, SET_TO, TOOL), adapter=ASKED
)
MORNING = datetime.fromisoformat("2026-03-12T09:00:00+01:00")


@pytest.fixture
def card(qtbot, dressed):
    step = StepRow(0, 41, "Tighten lower bolt", "FL", "ring")
    made = StepCard(Card(step, "", "", choices=(ADAPTER,)), Signers(), lambda: MORNING)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


@pytest.fixture
def form(qtbot, card):
    card.press("A")
    asked = card.findChild(AdapterForm)
    assert asked is not None
    return asked


def typed(qtbot, form, **measures):
    for name, text in measures.items():
        edit = form.measures.fields[name].edit
        edit.clear()
        qtbot.keyClicks(edit, text)


def test_nothing_is_set_before_anything_is_measured(form):
    assert form.setting.isHidden()
    assert form.beside.text() == "What to set stands here as soon as L and E are measured."


def test_the_setting_stands_large_as_soon_as_the_adapter_is_measured(qtbot, form):
    """Computed from the published formula: 110·400/450 = 97.78, and 99.26 at 30°."""
    typed(qtbot, form, lever="400", extension="50")
    assert form.setting.text() == "set 97.8\u202fN·m"
    typed(qtbot, form, angle="30")
    assert form.setting.text() == "set 99.3\u202fN·m"
    assert "extension E 50 mm, angle 30°" in form.drawing.accessibleName()


def test_a_tool_that_cannot_be_set_so_can_not_be_chosen_and_says_why(qtbot, form):
    tool = form.form.fields["tool"]
    typed(qtbot, form, lever="400", extension="50")
    tool.set_text("TW-07")
    assert tool.text() == "TW-07"
    typed(qtbot, form, angle="90")  # at a right angle nothing is gained: 110 N·m, above 100
    assert tool.text() == ""
    assert "above the tool's" in tool._unfit["TW-07"].text()
    typed(qtbot, form, angle="0")
    assert tool._unfit["TW-07"].text() == ""


def test_enter_leads_from_the_measures_to_the_setting_and_hands_in_all_of_it(qtbot, card, form):
    typed(qtbot, form, lever="400", extension="50")
    form.begin()
    for name in ("lever", "extension", "angle", "drag"):
        assert form.measures.fields[name].has_focus()
        qtbot.keyClick(form.measures.fields[name].edit, Qt.Key.Key_Return)
    assert form.form.fields["setting"].has_focus()
    qtbot.keyClicks(form.form.fields["setting"].edit, "97.8")
    form.form.fields["tool"].set_text("TW-07")
    with qtbot.waitSignal(card.chosen) as chosen:
        form.keep.click()
    choice, given = chosen.args
    assert choice == ADAPTER
    assert given == {
        "lever": "400",
        "extension": "50",
        "angle": "0",
        "drag": "",
        "setting": "97.8",
        "tool": "TW-07",
    }


def test_without_what_was_set_nothing_is_handed_in(qtbot, card, form):
    typed(qtbot, form, lever="400", extension="50")
    form.form.fields["tool"].set_text("TW-07")
    with qtbot.assertNotEmitted(card.chosen):
        form.keep.click()
    assert "needed" in form.form.fields["setting"].said()


def test_an_adapter_that_reaches_back_to_the_grip_is_said_in_a_sentence(qtbot, form):
    typed(qtbot, form, lever="400", extension="395", angle="180")
    assert form.setting.isHidden()
    assert "reaches back to the grip" in form.beside.text()
