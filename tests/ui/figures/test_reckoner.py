"""A figure opened for one field: what is known stands there, the result comes back as it would be typed."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from jobbook.core.quantities import read_quantity
from jobbook.services.sheet.sheets import Ask, Reckoned
from jobbook.ui.figures.reckoner import Reckoner
from jobbook.ui.figures.results import typed_result
from jobbook.ui.forms import Form

DUTY = Ask("duty", "Share of running time", "quantity", unit="%", reckoned=Reckoned("duty", "percent"))
SETTING = Ask(
    "setting",
    "Set on the wrench",
    "quantity",
    unit="N·m",
    reckoned=Reckoned("adapter", "setting_nm", (("angle", "0°"),), (("torque", "torque"),), "note"),
)
ASKS = (Ask("torque", "Torque", "quantity", unit="N·m"), SETTING, DUTY)


@pytest.fixture
def form(qtbot, dressed):
    made = Form(ASKS)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def sheet_of(qtbot, form: Form, name: str) -> Reckoner:
    """The sheet that the field's key opens."""
    form.fields[name].edit.setFocus()
    qtbot.keyClick(form.fields[name].edit, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    sheet = form.findChildren(Reckoner)[-1]
    qtbot.waitUntil(sheet.isActiveWindow)
    return sheet


def typed(qtbot, sheet: Reckoner, **given: str) -> None:
    for key, text in given.items():
        qtbot.keyClicks(sheet.sheet.form.fields[key].edit, text)


def test_a_result_goes_back_into_the_field_with_its_unit_and_the_figures_name_is_kept(qtbot, form):
    sheet = sheet_of(qtbot, form, "duty")
    assert not sheet.use.isEnabled()
    typed(qtbot, sheet, run="3 min", rest="12 min")
    assert sheet.answer.text() == "20 %"
    qtbot.keyClick(sheet, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: not form.findChildren(Reckoner))
    assert form.fields["duty"].text() == "20 %"
    assert form.answers()["reckoned"] == "Share of running time: duty"
    assert form.window().focusWidget() is form.fields["duty"].edit


def test_what_is_known_is_filled_in_and_the_focus_waits_at_what_is_not(qtbot, form):
    qtbot.keyClicks(form.fields["torque"].edit, "110 N·m")
    sheet = sheet_of(qtbot, form, "setting")
    assert sheet.sheet.form.fields["torque"].text() == "110 N·m"
    assert sheet.sheet.form.fields["angle"].text() == "0°"
    assert sheet.sheet.form.fields["lever"].edit.hasFocus()
    typed(qtbot, sheet, lever="400 mm", extension="50 mm")
    sheet.use.click()
    # Computed from the published formula T·L/(L + E): 110 · 400 / 450.
    assert float(read_quantity(form.fields["setting"].text(), "torque").to("N*m")) == pytest.approx(
        110 * 400 / 450, 1e-4
    )
    assert form.answers()["note"] == "Set on the wrench: adapter"


def test_escape_leaves_the_field_as_it_was(qtbot, form):
    qtbot.keyClicks(form.fields["duty"].edit, "17 %")
    sheet = sheet_of(qtbot, form, "duty")
    typed(qtbot, sheet, run="3 min", rest="12 min")
    qtbot.keyClick(sheet, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not form.findChildren(Reckoner))
    assert form.answers() == {"torque": "", "setting": "", "duty": "17 %"}


def test_a_result_that_was_typed_over_is_reckoned_no_longer(qtbot, form):
    sheet = sheet_of(qtbot, form, "duty")
    typed(qtbot, sheet, run="3 min", rest="12 min")
    sheet.use.click()
    qtbot.keyClicks(form.fields["duty"].edit, "0")
    assert "reckoned" not in form.answers()


def test_what_cannot_be_read_gives_nothing_to_take_over(qtbot, form):
    sheet = sheet_of(qtbot, form, "duty")
    typed(qtbot, sheet, run="3 bar", rest="12 min")
    assert sheet.taken() == ""
    assert not sheet.use.isEnabled()
    assert "is a pressure" in sheet.sheet.form.fields["run"].said()
    qtbot.keyClick(sheet, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert sheet.isVisible()


def test_the_button_beside_the_field_does_the_same_as_its_key(qtbot, form):
    named = [
        made for made in form.findChildren(QPushButton) if made.accessibleName() == "Share of running time: Reckon"
    ]
    named[0].click()
    qtbot.waitUntil(lambda: bool(form.findChildren(Reckoner)))
    assert form.findChildren(Reckoner)[0].windowTitle() == "Reckon: Share of running time"


@pytest.mark.parametrize(
    ("key", "value", "text"),
    [
        ("setting_nm", 99.255, "99.2550 N·m"),
        ("setting_nm", 1234.5, "1\u202f234.5 N·m"),
        ("leak_rate_pa_m3_s", 0.0333, "0.0333 Pa·m³/s"),
        ("single_mm", -0.9, "−0.9 mm"),
        ("each_degrees", 0.5, "0.5°"),
        ("relative_drop_mm", {"FL": 31.7, "FR": -8.5, "RL": -9.8, "RR": -9.8}, "31.7 mm"),
        ("drop_mm", {}, ""),
        ("verdict", "conform", ""),
        ("choked", True, ""),
    ],
)
def test_a_result_is_written_so_that_it_is_read_back_for_certain(key, value, text):
    assert typed_result(key, {key: value}) == text
    kinds = {"setting_nm": "torque", "leak_rate_pa_m3_s": "leak rate", "single_mm": "length", "each_degrees": "angle"}
    if text and not isinstance(value, dict):
        assert float(read_quantity(text, kinds[key]).amount) == value
