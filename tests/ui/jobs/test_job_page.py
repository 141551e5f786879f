"""The job page in a window, on a real book: the whole method worked with what the page offers, and its keys."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QPushButton, QWidget

from jobbook.services.papers import papers
from jobbook.ui import look
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.signing import SECRET, SIGNER
from jobbook.ui.places import a_job
from jobbook.ui.tasks import TaskLanes
from tests.ui.jobs import strut_book
from tests.ui.jobs.strut_book import PINS, Strut

SIZE = (1218, 692)  # what a window of 1366 × 768 leaves for a page
ANSWERS = {"plugs": "1", "text": "As it should be", "serial": "7H-20611", "module": "Levelling", "distance": "6"}
HEIGHTS = "FL 401; FR 399; RL 394; RR 395"


@pytest.fixture
def there(tmp_path) -> Strut:
    made = strut_book.strut(tmp_path / "book")
    yield made
    made.book.close()


@pytest.fixture
def page(qtbot, dressed, there):
    def show(lanes=None) -> JobPage:
        made = JobPage(there.setting(lanes))
        qtbot.addWidget(made)
        made.resize(*SIZE)
        with qtbot.waitActive(made):
            made.show()
            made.activateWindow()
        made.arrive(a_job(there.job))
        return made

    return show


def answer(page: JobPage) -> None:
    """Fill in what the open form asks, as a person would who has done what the step says."""
    form = page.work.card._form.form
    for name, field in form.fields.items():
        if name == SECRET or not field.is_empty() or not field.ask.required:
            continue
        fit = [option.value for option in field.ask.options if not option.unfit]
        kinds = {"heights": HEIGHTS, "pieces": ",".join(fit), "choice": fit[:1], "tool": fit[:1]}
        said = "nop" if name == SIGNER else kinds.get(field.ask.kind) or ANSWERS[name]
        field.set_text(said if isinstance(said, str) else said[0])
    if SECRET in form.fields:
        form.fields[SECRET].set_text(PINS[form.fields[SIGNER].text()])
    form.hand_in()


def work_to_the_end(page: JobPage, there: Strut) -> list[int]:
    """Take the main choice of every step, with Enter; wait where the page waits. Returns the steps in their order."""
    done = []
    for _ in range(150):
        card = page.work.card.card
        if card.waits_until:
            there.clock.later(minutes=30)
            page.work.card.wait_over.emit()
            continue
        if not card.choices:
            return done
        there.clock.later(minutes=1)
        assert page.work.card.press("Enter"), card
        if page.work.card.is_asking():
            answer(page)
        done.append(card.step.number)
    raise AssertionError(f"the work never ends: {done[-5:]}")


class WindowsShown(QObject):
    """Notes every window that appears, if only for a moment: it would take the keyboard away."""

    def __init__(self, application):
        super().__init__()
        self.names: list[str] = []
        self._application = application

    def __enter__(self):
        self._application.installEventFilter(self)
        return self

    def __exit__(self, *args):
        self._application.removeEventFilter(self)

    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Show and watched.isWidgetType() and watched.isWindow():
            self.names.append(type(watched).__name__)
        return False


def press(within: QWidget, words: str) -> None:
    next(b for b in within.findChildren(QPushButton) if b.text() == words and not b.isHidden()).click()


def test_the_whole_method_is_worked_signed_released_and_papered_through_the_page(page, there, qtbot):
    shown = page() if strut_book.begun(there) else None
    steps = work_to_the_end(shown, there)
    assert steps == sorted(steps)  # it goes on from one step to the next
    assert {step.mark for step in shown._shown[0].steps} == {"disc"}
    shown.work.strip.ask()
    shown.work.strip._form.form.fields[SECRET].set_text(PINS["bf"])
    shown.work.strip._form.form.hand_in()
    assert (shown._shown[0].loose_now, shown._shown[0].still_to_do) == ((), ())
    shown.right.open_tab("checks")
    press(shown.tabs["checks"], "Release…")
    release = shown.tabs["checks"]._form.form
    release.show_answers({"odometer": "128 416", SECRET: PINS["bf"]})
    release.hand_in()
    assert shown._shown[0].stage == "released"
    shown.right.open_tab("papers")
    press(shown.tabs["papers"], "Issue")
    assert [paper.kind for paper in papers(there.book, there.job)] == ["handover"]


def test_a_job_opens_where_it_stands(page, there):
    shown = page()
    assert shown.right.current() == "diagnosis"  # arrived: what is not whole yet comes first
    strut_book.begun(there)
    again = page()
    assert again.right.current() == "work"


def test_an_unknown_job_is_said_in_a_sentence(page):
    shown = page()
    shown.arrive(a_job(4711))
    assert "4711" in shown._sentence.text()
    assert shown._sentence.isVisible()


def test_alt_and_a_digit_open_the_tabs_and_left_and_right_go_along_them(page, qtbot):
    shown = page()
    qtbot.keyClick(shown, Qt.Key.Key_4, Qt.KeyboardModifier.AltModifier)
    assert shown.right.current() == "parts"
    shown.right._tabs["parts"].setFocus()
    qtbot.keyClick(shown.right._tabs["parts"], Qt.Key.Key_Right)
    assert shown.right.current() == "work"


def test_a_step_is_done_found_and_undone_with_keys_alone(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    assert shown.work.card.buttons[0].hasFocus()
    qtbot.keyClick(shown.work.card.buttons[0], Qt.Key.Key_Return)
    assert shown.work.card.card.step.number == 2
    assert shown.work.card.buttons[0].hasFocus()
    qtbot.keyClick(shown.work.card.buttons[0], Qt.Key.Key_Up)
    assert shown.work.steps.lines[0, 1].hasFocus()
    qtbot.keyClick(shown.work.steps.lines[0, 1], Qt.Key.Key_Return)
    assert shown.work.card.card.step.number == 1
    qtbot.keyClick(shown, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert shown._shown[0].unsigned == ()
    qtbot.keyClick(shown.work.card.buttons[0], Qt.Key.Key_Return)
    qtbot.keyClick(shown.work.card.buttons[0], Qt.Key.Key_U)
    assert shown._shown[0].unsigned == ()


def test_a_key_that_is_held_down_does_one_step_only(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    first = shown.work.card.buttons[0]
    from PySide6.QtGui import QKeyEvent

    held = QKeyEvent(QKeyEvent.Type.KeyPress, Qt.Key.Key_Return, Qt.KeyboardModifier.NoModifier, "\r", autorep=True)
    first.keyPressEvent(held)
    assert shown.work.card.card.step.number == 1


def test_show_all_leads_to_the_final_checks(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    qtbot.keyClick(shown.left.held, Qt.Key.Key_Return)
    assert shown.right.current() == "checks"


def test_after_the_window_was_locked_the_step_is_open_still_and_the_next_person_signs(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    shown.work.card.press("Enter")
    shown.work.strip.ask()
    shown.work.strip._form.form.fields[SECRET].set_text("22")
    with qtbot.waitExposed(shown):
        shown.hide()
        shown.show()
    there.duty.person = there.people["nop"]
    shown.come_back()
    assert shown.work.card.card.step.number == 2
    shown.work.strip.ask()
    fields = shown.work.strip._form.form.fields
    assert (fields[SIGNER].text(), fields[SECRET].text()) == ("nop", "")


def test_nothing_flashes_up_as_a_window_of_its_own(page, there, qtbot, qapp):
    strut_book.begun(there)
    shown = page()
    with WindowsShown(qapp) as windows:
        shown.presenter.open_step(0, 10)  # refused on its wheels: quiet acts
        shown.work.card._quiet.first().click()
        shown.work.card.close_form()
        shown.presenter.open_step(0, 1)
        shown.work.card.press("Enter")
        shown.presenter.open_step(0, 1)  # done: its line
        shown.work.strip.ask()
        shown.work.ask_joint()
        shown.presenter.ask_to_begin()
        for key in shown.tabs:
            shown.right.open_tab(key)
            for deed in shown.tabs[key].findChildren(QPushButton):
                if deed.text().endswith("…") and not deed.isHidden():
                    deed.click()
                    break
    assert windows.names == []


def test_a_refusal_on_a_tab_is_said_in_its_form_and_what_was_typed_stays(page, there):
    shown = page()
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another reading…")
    form = shown.tabs["arrival"]._form.form
    form.show_answers({"value": "12 km", "what": "test"})
    form.hand_in()
    assert "12 km" in shown.tabs["arrival"]._form._refusal.text()
    assert form.fields["value"].text() == "12 km"


def test_what_is_typed_on_a_tab_stays_when_the_book_changes_elsewhere(page, there):
    shown = page()
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another concern…")
    shown.tabs["arrival"]._form.form.fields["words"].set_text("It also sq")
    strut_book.allowed(there)
    shown.refresh({"permission/1"})
    assert shown.tabs["arrival"]._form.form.fields["words"].text() == "It also sq"
    assert next(t for t in shown._shown[0].tabs if t.key == "permission").mark == "disc"


def test_the_writing_lane_keeps_and_the_page_follows(page, there, qtbot):
    strut_book.begun(there)
    lanes = TaskLanes()
    shown = page(lanes)
    with qtbot.waitSignal(shown.said):
        shown.work.card.buttons[0].click()
    assert shown.work.card.card.step.number == 2
    lanes.close()


def test_a_preview_is_a_file_that_the_systems_viewer_is_given(page, there, monkeypatch):
    strut_book.begun(there)
    shown, given = page(), []
    monkeypatch.setattr(shown, "open_path", given.append)
    shown.right.open_tab("papers")
    press(shown.tabs["papers"], "Preview")
    assert given[0].read_bytes().startswith(b"%PDF-")
    assert Path(shown._previews.path()) == given[0].parent


def test_every_control_has_a_name_to_be_read_aloud(page, there):
    strut_book.begun(there)
    shown = page()
    nameless = []
    for key in shown.tabs:
        shown.right.open_tab(key)
        for deed in shown.tabs[key].findChildren(QPushButton):
            if deed.text().endswith("…") and not deed.isHidden():
                deed.click()
                break
    for kind in (QAbstractButton, QLineEdit, QPlainTextEdit, QComboBox):
        for control in shown.findChildren(kind):
            if not control.accessibleName() and not (isinstance(control, QAbstractButton) and control.text()):
                nameless.append(control)
    inner = [c for c in nameless if c.objectName().startswith("qt_")]
    assert [c for c in nameless if c not in inner] == []


@pytest.mark.parametrize("scheme", ["dark", "light"])
def test_words_follow_the_scheme(page, there, qapp, scheme):
    strut_book.begun(there)
    shown = page()
    look.dress(qapp, scheme)
    assert look.SCHEMES[scheme].soft.lower() in shown.work.steps.lines[0, 2]._title.text()
    assert look.SCHEMES[scheme].soft.lower() in shown.left._state.text()
    look.dress(qapp, "light")


def test_times_of_today_stand_as_hours_and_older_ones_with_their_day(page, there):
    strut_book.begun(there)
    shown = page()
    shown.work.card.buttons[0].click()
    line = shown.work.steps.lines[0, 1]
    line.show_step(line.step, date(2026, 3, 12))
    assert line._right.text() == "09:00"
    line.show_step(line.step, date(2026, 3, 13))
    assert line._right.text() == "12 Mar 09:00"
