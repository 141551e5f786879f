"""The page Today: what is due leads to its place by Enter, and closes with an outcome by keys alone."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from jobbook.core.desk.calls import Call
from jobbook.core.record.journal import Draft
from jobbook.services.house.shop import keep_tool, tools
from jobbook.services.office.calls import attempts, get_call, take_call
from jobbook.services.office.desk import get_job
from jobbook.ui.places import BACKUP, SHOP, TAKE_IN, TODAY, Place, a_call, a_job, a_tool, it_is_here
from jobbook.ui.running import RunningTask
from jobbook.ui.today.page import TodayPage
from jobbook.ui.today.presenter import place_of

CALL = Call(
    0, "Orla Finchley", "01000 555 231", "Stands on the stops.", "KS-44", "Ondry van", expected="2026-01-02 09:00"
)


@pytest.fixture
def call(book, imke):
    return take_call(book, imke, CALL)


@pytest.fixture
def page(window):
    window.go(Place(TODAY))
    found = window.pages.currentWidget().currentWidget()
    assert isinstance(found, TodayPage)
    return found


def kinds(page):
    return [line.due.kind for line in page._rows]


def choose(page, kind):
    page.table.selectRow(kinds(page).index(kind))


def press(qtbot, key, modifier=Qt.KeyboardModifier.NoModifier):
    qtbot.keyClick(QApplication.focusWidget(), key, modifier)


def test_a_book_in_which_nothing_is_due_says_what_will_stand_here(qtbot, window, page):
    assert page.empty.isVisible()
    assert not page.card.isVisible()
    assert page.take_in.hasFocus()
    page.empty.act.click()
    assert window.place() == TAKE_IN


def test_overdue_stands_first_and_enter_opens_it(qtbot, window, call, strut_job, page):
    assert kinds(page)[0] == "call"
    assert page.table.hasFocus()
    press(qtbot, Qt.Key.Key_Return)
    assert window.place() == a_call(call)


def test_what_is_loose_follows_in_its_own_time(qtbot, strut_job, page):
    qtbot.waitUntil(lambda: page._rows[kinds(page).index("job")].loose is not None)
    index = page.table.model().index(kinds(page).index("job"), 2)
    assert "loose" in index.data()
    assert "“Front left is right down" in index.data()


def test_an_attempt_is_kept_by_keys_and_the_line_stays(qtbot, book, call, page):
    choose(page, "call")
    assert page.what.text().startswith("Orla Finchley comes")
    page.forms["call"].fields["outcome"].setFocus()
    page.forms["call"].show_answers({"outcome": "tried no answer"})
    page.forms["call"].changed.emit("outcome")
    assert not page.forms["call"].fields["how"].isHidden()
    assert page.forms["call"].fields["moved"].isHidden()
    press(qtbot, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    kept = f"Kept: {page.lines[kinds(page).index('call')].due.what}"
    qtbot.waitUntil(lambda: page.said.text() == kept)
    assert attempts(book, f"call/{call}")[0].outcome == "no answer"
    assert kinds(page)[0] == "call"
    assert page.forms["call"].answers()["outcome"] == ""
    assert page.table.hasFocus()


def test_tab_leads_past_opening_it_to_what_came_of_it_and_on_to_keeping_it(qtbot, call, strut_job, page):
    for kind in ("job", "call"):
        choose(page, kind)
        qtbot.waitUntil(lambda: page.window().findChildren(RunningTask) == [])  # Tab leads to what can be stopped, too
        (page.here if kind == "call" else page.open_place).setFocus()
        press(qtbot, Qt.Key.Key_Tab)
        first = next(iter(page.forms[kind].fields.values()))
        assert first.has_focus(), kind
    press(qtbot, Qt.Key.Key_Tab)
    assert page.keep.hasFocus()


def test_a_call_that_ended_is_gone_from_the_list(qtbot, book, call, strut_job, page):
    choose(page, "call")
    page.forms["call"].show_answers({"outcome": "went elsewhere", "note": "Found somebody nearer."})
    page.keep.click()
    qtbot.waitUntil(lambda: "call" not in kinds(page))
    assert get_call(book, call).outcome == "went elsewhere"
    assert page.table.chosen() is not None


def test_an_outcome_that_is_refused_says_so_beside_what_was_typed(qtbot, book, call, page):
    choose(page, "call")
    page.forms["call"].show_answers({"outcome": "moved", "moved": "soon"})
    page.keep.click()
    qtbot.waitUntil(lambda: "no day or time" in page.said.text())
    assert page.forms["call"].answers()["moved"] == "soon"
    page.forms["call"].show_answers({"moved": "2026-12-01 09:00", "note": "Asked for it."})
    page.keep.click()
    qtbot.waitUntil(lambda: get_call(book, call).expected == "2026-12-01T09:00")


def test_a_promise_is_moved_from_its_vehicle(qtbot, book, strut_job, page):
    choose(page, "job")
    page.forms["job"].show_answers({"outcome": "moved", "moved": "2026-11-30 12:00", "note": "The part is late."})
    page.keep.click()
    qtbot.waitUntil(lambda: get_job(book, strut_job).promised == "2026-11-30 12:00")


def test_a_visit_is_closed_with_its_outcome(qtbot, book, imke, strut_job, wrench, window):
    facts = {"job": strut_job, "what": "Wheel joints tightened once more", "due_on": "2026-01-09", "due_at": "100 km"}
    with book.store.write(imke.id) as tx:
        number = tx.keep(Draft("reminder/1", f"job/{strut_job}", facts, job=strut_job)).number
    window.go(Place(TODAY))
    page = window.pages.currentWidget().currentWidget()
    choose(page, "visit")
    page.forms["visit"].show_answers({"outcome": "done here", "tool": "TW-02", "wheel RL": "12"})
    page.forms["visit"].changed.emit("outcome")
    assert not page.forms["visit"].fields["wheel RL"].isHidden()
    page.keep.click()
    qtbot.waitUntil(lambda: "above the tool" in page.said.text())
    page.forms["visit"].show_answers({"note": "Set twice, one after the other.", "by": imke.id})
    page.keep.click()
    qtbot.waitUntil(lambda: "visit" not in kinds(page))
    with book.store.read() as reading:
        assert reading.reminders.get(number).outcome == "done here"


def test_an_attempt_to_reach_whoever_must_permit_is_kept_in_the_job(qtbot, book, strut_job, page):
    choose(page, "permission")
    answers = {"outcome": "tried no answer", "reached_at": "01000 555 077"}
    page.forms["permission"].show_answers(answers)
    page.keep.click()
    qtbot.waitUntil(lambda: page.said.text().startswith("Kept: Job 1"))
    with book.store.read() as reading:
        (entry,) = reading.journal.entries(job=strut_job, kind="contact/1")
    assert entry.payload["outcome"] == "no answer"


def test_the_vehicle_that_was_expected_is_taken_in_from_its_line(window, call, page):
    choose(page, "call")
    page.here.click()
    assert window.place() == it_is_here(call)


def test_what_permission_is_waited_for_opens_at_its_tab(window, strut_job, page):
    choose(page, "permission")
    page.open_place.click()
    assert window.pages.currentWidget().currentWidget().right.current() == "permission"


def test_every_kind_of_line_leads_somewhere(call, strut_job, page):
    places = {line.due.kind: place_of(line.due) for line in page._rows}
    assert places["call"] == a_call(call)
    assert places["job"] == a_job(strut_job)
    assert places["permission"] == a_job(strut_job, "permission")
    from jobbook.core.desk.today import Due

    assert place_of(Due("tool", "x", key="TW-02")) == a_tool("TW-02")
    assert place_of(Due("backup", "x")) == Place(SHOP, name=BACKUP)


def test_the_list_follows_what_is_written_elsewhere_and_stays_where_it_was(qtbot, book, imke, call, strut_job, page):
    choose(page, "job")
    take_call(book, imke, CALL)
    qtbot.waitUntil(lambda: kinds(page).count("call") == 2)
    assert page.table.chosen().due.kind == "job"


def test_nobody_on_duty_keeps_nothing(page, call, duty):
    page.presenter.open()
    choose(page, "call")
    duty.lock()
    page.presenter.keep(page._line.due, {})
    assert "Nobody is on duty" in page.said.text()


def test_a_tool_that_was_calibrated_is_due_no_more(qtbot, book, imke, wrench, window):
    keep_tool(book, imke, replace(wrench, calibrated_on="2024-01-09", due_on="2025-01-09"))
    window.go(Place(TODAY))
    page = window.pages.currentWidget().currentWidget()
    choose(page, "tool")
    form = page.forms["tool"]
    assert form.fields["paper"].isHidden()
    form.show_answers(
        {"outcome": "calibrated", "calibrated_on": "2026-11-20", "due_on": "2999-01-01", "paper": "QC-26-07"}
    )
    form.changed.emit("outcome")
    assert not form.fields["paper"].isHidden()
    page.keep.click()
    qtbot.waitUntil(lambda: "tool" not in kinds(page))
    assert [tool.certificate for tool in tools(book) if tool.number == wrench.number] == ["QC-26-07"]
