"""The job page in a window, on a real book: the whole method worked with what the page offers, and its keys."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget

from jobbook.services.papers import papers
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.signing import SECRET, SIGNER
from jobbook.ui.places import a_job
from jobbook.ui.tasks import TaskLanes
from tests.ui.jobs import strut_book
from tests.ui.jobs.strut_book import PINS, Strut

SIZE = (1218, 692)  # what a window of 1366 × 768 leaves for a page
ANSWERS = {"plugs": "1", "text": "As it should be", "serial": "7H-20611", "module": "Levelling", "distance": "6"}
HEIGHTS = "FL 401; FR 399; RL 394; RR 395"


def answer(page: JobPage) -> None:
    """Fill in what the open form asks, as a person would who has done what the step says."""
    form = page.work.card._form.form
    for name, field in form.fields.items():
        if name == "toe":
            field.set_text("FL 0°10′; FR 0°10′")
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
        if not any(choice.main for choice in card.choices):
            return done
        there.clock.later(minutes=1)
        assert page.work.card.press("Enter"), card
        if page.work.card.is_asking():
            answer(page)
        done.append(card.step.number)
    raise AssertionError(f"the work never ends: {done[-5:]}")


def press(within: QWidget, words: str) -> None:
    next(
        b for b in within.findChildren(QPushButton) if words in (b.text(), b.accessibleName()) and not b.isHidden()
    ).click()


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
    press(shown.tabs["papers"], "Issue Handover")
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
    assert shown.right._tabs["parts"].hasFocus()
    shown.tabs["parts"].findChild(QPushButton).setFocus()
    qtbot.keyClick(shown, Qt.Key.Key_4, Qt.KeyboardModifier.AltModifier)
    assert shown.right._tabs["parts"].hasFocus(), "from within the tab one comes back to its name"
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


def test_a_signed_step_is_corrected_from_its_line(page, there):
    strut_book.begun(there)
    shown = page()
    shown.work.card.press("Enter")
    shown.work.strip.ask()
    shown.work.strip._form.form.fields[SECRET].set_text(PINS["bf"])
    shown.work.strip._form.form.hand_in()
    menu = shown.work.steps.lines[0, 1].menu()
    assert [action.text() for action in menu.actions()] == ["Open", "Correct…"]
    menu.actions()[1].trigger()
    assert shown.work.card.card.step.number == 1
    assert "why" in shown.work.card._form.form.fields


def test_what_was_typed_for_one_job_never_stands_on_another(page, there):
    strut_book.begun(there)
    other = strut_book.another(there)
    shown = page()
    shown.presenter.open_step(0, 2)
    shown.work.card.press("Enter")
    shown.work.card._form.form.fields["heights"].set_text("FL 366")
    shown.right.open_tab("arrival")
    press(shown.tabs["arrival"], "Another concern…")
    shown.arrive(a_job(other))
    assert shown._shown[0].number == other
    assert not shown.tabs["arrival"].is_asking()
    assert shown.work.card is None
    shown.arrive(a_job(there.job))
    assert not shown.work.card.is_asking()


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
