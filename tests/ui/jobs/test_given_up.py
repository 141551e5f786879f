"""What was typed and given up stands there again: Escape, another job and another deed lose no words."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPlainTextEdit, QPushButton

from jobbook.services.sheet.sheets import Ask
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.places import a_job
from tests.ui.jobs import strut_book
from tests.ui.jobs.test_job_page import press


def typing(page, value="12 km"):
    press(page.tabs["arrival"], "Another reading…")
    form = page.tabs["arrival"]._form
    form.form.fields["value"].set_text(value)
    return form


def test_escape_keeps_what_was_typed_for_when_the_same_is_asked_again(page):
    shown = page()
    shown.right.open_tab("arrival")
    QTest.keyClick(typing(shown), Qt.Key.Key_Escape)
    assert not shown.tabs["arrival"].is_asking()
    press(shown.tabs["arrival"], "Another reading…")
    form = shown.tabs["arrival"]._form
    assert form.form.fields["value"].text() == "12 km"
    assert not form._again.isHidden()
    assert form.form.fields["what"].text() == "", "what was never answered is asked as before"


def test_what_was_typed_waits_with_its_own_job(page, there):
    shown = page()
    other = strut_book.another(there)
    shown.right.open_tab("arrival")
    typing(shown)
    shown.arrive(a_job(other))
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another reading…")
    assert shown.tabs["arrival"]._form.form.fields["value"].text() == ""
    shown.arrive(a_job(there.job))
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another reading…")
    assert shown.tabs["arrival"]._form.form.fields["value"].text() == "12 km"


def test_what_was_kept_is_not_offered_again(page):
    shown = page()
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another concern…")
    form = shown.tabs["arrival"]._form.form
    form.fields["words"].set_text("Rattles over cobbles")
    form.hand_in()
    press(shown.tabs["arrival"], "Another concern…")
    assert shown.tabs["arrival"]._form.form.fields["words"].text() == ""


def test_a_pin_is_never_remembered(qtbot, dressed):
    form = DeedForm((Ask("why", "Why"), Ask("secret", "PIN", "secret")), "Sign")
    qtbot.addWidget(form)
    form.form.show_answers({"why": "seized", "secret": "2468"})
    assert form.typed() == {"why": "seized"}


def test_control_and_enter_hand_in_from_any_field_of_the_form(page, qtbot):
    shown = page()
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another concern…")
    field = shown.tabs["arrival"]._form.form.fields["words"]
    field.set_text("Rattles over cobbles")
    field.focusProxy().setFocus()
    qtbot.keyClick(field.findChild(QPlainTextEdit), Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: not shown.tabs["arrival"].is_asking())
    assert any("Rattles over cobbles" in line.text() for line in shown.tabs["arrival"].findChildren(QLabel))


def test_after_a_test_is_answered_the_focus_is_on_the_one_that_comes_next(page):
    shown = page()
    shown.right.open_tab("diagnosis")
    tab = shown.tabs["diagnosis"]
    before = next(button for button in tab.findChildren(QPushButton) if button.property("role") == "main")
    press(tab, "Not done…")
    tab._form.form.show_answers({"answer": "not possible", "reason": "no scan tool on the bench"})
    tab._form.form.hand_in()
    there = QApplication.focusWidget()
    assert there.property("role") == "main"
    assert there.accessibleName() != before.accessibleName()


def test_after_a_line_is_kept_the_focus_is_ready_for_another(page):
    shown = page()
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another concern…")
    form = shown.tabs["arrival"]._form.form
    form.fields["words"].set_text("Rattles over cobbles")
    form.hand_in()
    assert QApplication.focusWidget().accessibleName() == "Another concern…"
