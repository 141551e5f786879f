"""Today: what is due from everything that the book knows, and what comes of visits and promises."""

from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import event

from jobbook.core.errors import NotFound, Refused
from jobbook.core.record.journal import Draft
from jobbook.services.house.backups import back_up
from jobbook.services.house.putting_off import put_off_backup
from jobbook.services.office import calls, desk
from jobbook.services.office.intake import take_in
from jobbook.services.office.loose import loose_ends
from jobbook.services.office.today import today
from jobbook.services.office.today_card import card
from jobbook.services.office.visits import Outcome, close_visit, move_promise, move_visit, visits
from tests.services.office.test_calls import CALL
from tests.services.workshop import ARRIVAL, MORNING, REPAIR


@pytest.fixture
def there(at):
    return at("taken in")


@pytest.fixture
def visit(there):
    """A re-torque visit that is due in two weeks; its number."""
    facts = {"job": there.job, "what": "Wheel joints tightened once more", "due_on": "2026-12-09", "due_at": "100 km"}
    with there.book.store.write(there.imke.id) as tx:
        return tx.keep(Draft("reminder/1", f"job/{there.job}", facts, job=there.job)).number


def lines(there, *kinds):
    return [one for one in today(there.book).lines if one.kind in kinds]


def test_a_vehicle_in_the_shop_stands_there_with_its_promise_until_it_is_released(there):
    (line,) = lines(there, "job")
    assert (line.job, line.state) == (there.job, "open")
    assert "Front left is down" in line.what
    move_promise(there.book, there.jonas, there.job, "2026-11-25 17:00", "Said at the desk.")
    there.clock.now = MORNING + timedelta(hours=10)
    (line,) = lines(there, "job")
    assert (line.due, line.state) == ("2026-11-25T17:00", "overdue")
    facts = {"job": there.job, "restriction": "", "let_go": []}
    with there.book.store.write(there.imke.id) as tx:
        tx.keep(Draft("released/1", f"job/{there.job}", facts, job=there.job, meaning="released"))
    assert lines(there, "job") == []


def test_a_promise_is_moved_with_its_reason_and_the_first_stays_in_the_journal(there):
    for promised, reason in (("", "late"), ("soon", "late"), ("2026-11-27", " ")):
        with pytest.raises(Refused):
            move_promise(there.book, there.jonas, there.job, promised, reason)
    move_promise(there.book, there.jonas, there.job, "2026-11-27 17:00", "The strut comes tomorrow; told by telephone.")
    assert desk.get_job(there.book, there.job).promised == "2026-11-27 17:00"
    (entry,) = there.journal("promise/1")
    assert entry.facts["reason"].startswith("The strut comes tomorrow")


def test_calls_are_expected_and_go_with_their_outcome(there):
    number = calls.take_call(there.book, there.jonas, CALL)
    (line,) = lines(there, "call")
    assert (line.number, line.due, line.state) == (number, "2026-11-26T17:00", "coming")
    assert "stands overnight" in line.what
    told = dict(card(there.book, line))
    assert told["Call back"] == "Quillhaven 0147"
    assert told["Shows"] == "FL, since two weeks, cold, after standing"
    assert "flatbed" in told["Caution"]
    calls.keep_tried(there.book, there.jonas, f"call/{number}", "by telephone", "no answer", "rang twice")
    assert dict(card(there.book, line))["Tried"].endswith("by telephone: no answer, rang twice")
    calls.close_call(there.book, there.jonas, number, "did not come")
    assert lines(there, "call") == []


def test_a_vehicle_that_was_announced_and_came_ends_its_call(there):
    number = calls.take_call(there.book, there.jonas, CALL)
    car = replace(ARRIVAL.vehicle, vin="", plate="NEW 1")
    job = take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=car, call=number))
    assert calls.get_call(there.book, number).job == job
    assert calls.get_call(there.book, number).outcome == "arrived"
    with pytest.raises(Refused, match="ended already"):
        take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=replace(car, plate="NEW 2"), call=number))
    assert [one.job for one in lines(there, "job")] == [there.job, job]


def test_permission_and_the_payers_authority_are_waited_for(there):
    (line,) = lines(there, "permission")
    assert line.what == f"Job {there.job} waits for a first permission"
    assert dict(card(there.book, line))["Call"] == "Quillhaven 0147"
    desk.give_permission(there.book, there.jonas, there.job, REPAIR)
    assert lines(there, "permission") == []
    desk.ask_authority(there.book, there.jonas, there.job, "insurer")
    (line,) = lines(there, "authority")
    assert line.what == f"Job {there.job} waits for authority from insurer"


def test_a_wait_that_runs_is_shown_and_stays_until_its_step_is_answered(there):
    facts = {"job": there.job, "method": "m", "corner": "FL", "step": 4}
    until = (there.clock.now + timedelta(minutes=40)).isoformat()
    with there.book.store.write(there.bram.id) as tx:
        tx.keep(Draft("waiting/1", f"job/{there.job}", facts | {"until": until}, job=there.job))
    (line,) = lines(there, "wait")
    assert (line.state, line.job) == ("today", there.job)
    there.clock.on(timedelta(hours=1))
    assert lines(there, "wait")[0].state == "overdue"
    there.clock.on(timedelta(hours=12))
    assert lines(there, "wait")[0].state == "overdue"
    act = {"do": "wait", "method_key": "m", "corner": "FL", "step": 4}
    with there.book.store.write(there.bram.id) as tx:
        tx.keep(Draft("act/1", f"job/{there.job}", {"job": there.job, "act": act}, job=there.job))
    assert lines(there, "wait") == []


def test_tools_are_due_and_the_backup_grows_old(there, tmp_path):
    assert lines(there, "tool", "backup") == []
    there.clock.now = MORNING + timedelta(days=100)
    due = lines(there, "tool")
    assert [one.key for one in due] == ["AG-01", "EW-01", "TW-07", "TW-09"]
    assert {one.state for one in due} == {"coming"}
    assert lines(there, "backup")[0].what.startswith("No backup was made yet")
    for day, reason in (("", "no stick"), ("2027-03-20", " "), ("2026-01-01", "no stick"), ("2027-05-30", "no stick")):
        with pytest.raises(Refused):
            put_off_backup(there.book, there.jonas, day, reason)
    put_off_backup(there.book, there.jonas, "2027-03-08", "The stick is at the bank.")
    assert lines(there, "backup") == []
    there.clock.now = MORNING + timedelta(days=103)
    assert lines(there, "backup")[0].state == "overdue"
    back_up(there.book, there.jonas, tmp_path)
    assert lines(there, "backup") == []


def test_a_clock_that_went_back_stands_before_everything(there):
    there.clock.on(timedelta(days=-300))
    first = today(there.book).lines[0]
    assert (first.kind, first.state) == ("clock", "overdue")


def test_nasty_case_51_a_visit_that_was_missed_is_closed_after_attempts(there, visit):
    there.clock.now = MORNING + timedelta(days=20)
    (line,) = lines(there, "visit")
    assert (line.number, line.state) == (visit, "overdue")
    with pytest.raises(Refused, match="nobody tried"):
        close_visit(there.book, there.jonas, visit, Outcome("did not come"))
    calls.keep_tried(there.book, there.jonas, f"reminder/{visit}", "by telephone", "no answer", "", there.job)
    calls.keep_tried(there.book, there.jonas, f"reminder/{visit}", "by message", "message left", "", there.job)
    close_visit(there.book, there.jonas, visit, Outcome("did not come"))
    (kept,) = visits(there.book, there.job)
    assert (kept.reminder.outcome, kept.by, len(kept.tried)) == ("did not come", there.jonas.id, 2)
    assert lines(there, "visit") == []
    assert len(there.journal("tried/1")) == 2
    (closed,) = there.journal("reminder-closed/1")
    assert (closed.payload["outcome"], closed.entered_by) == ("did not come", there.jonas.id)
    with pytest.raises(Refused, match="closed already"):
        close_visit(there.book, there.jonas, visit, Outcome("waived", "after all"))


def test_nasty_case_52_a_visit_that_was_made_elsewhere_needs_its_proof(there, visit):
    with pytest.raises(Refused, match="what shows it"):
        close_visit(there.book, there.jonas, visit, Outcome("done elsewhere"))
    close_visit(there.book, there.jonas, visit, Outcome("done elsewhere", "Tyre dealer at Quillhaven, invoice 4471."))
    with there.book.store.read() as reading:
        assert reading.reminders.get(visit).outcome == "done elsewhere"
        (closed,) = reading.journal.entries(kind="reminder-closed/1")
        assert reading.sealed(closed.payload["note"]) == "Tyre dealer at Quillhaven, invoice 4471."


def test_a_visit_here_names_its_tool_and_invents_no_reading(there, visit):
    with pytest.raises(Refused, match="name the tool"):
        close_visit(there.book, there.bram, visit, Outcome("done here"))
    with pytest.raises(NotFound, match="TW-99"):
        close_visit(there.book, there.bram, visit, Outcome("done here", tool="TW-99", told={"FL": "140"}))
    with pytest.raises(Refused, match="say what came"):
        close_visit(there.book, there.bram, visit, Outcome("forgotten"))
    close_visit(there.book, there.bram, visit, Outcome("done here", "", "TW-09", "128 530", {"FL": "140"}))
    (closed,) = there.journal("reminder-closed/1")
    assert (closed.payload["tool"], closed.payload["odometer"]) == ("TW-09", "128 530")


def test_any_other_reminder_is_done_or_no_longer_needed(there):
    facts = {"job": there.job, "what": "Look at the request again", "due_on": "2026-11-30", "due_at": ""}
    with there.book.store.write(there.imke.id) as tx:
        number = tx.keep(Draft("reminder/1", f"job/{there.job}", facts, job=there.job)).number
    (line,) = lines(there, "reminder")
    assert (line.number, line.what) == (number, f"Job {there.job}: Look at the request again")
    with pytest.raises(Refused, match="say what came"):
        close_visit(there.book, there.jonas, number, Outcome("done elsewhere", "x"))
    close_visit(there.book, there.jonas, number, Outcome("done"))
    assert lines(there, "reminder") == []


def test_a_visit_is_moved_with_its_reason(there, visit):
    for day, reason in (("", "ill"), ("soon", "ill"), ("2026-12-20", " ")):
        with pytest.raises(Refused):
            move_visit(there.book, there.jonas, visit, day, reason)
    move_visit(there.book, there.jonas, visit, "2026-12-20", "Is abroad.")
    move_visit(there.book, there.jonas, visit, "2026-12-05", "Back earlier.")
    (line,) = lines(there, "visit")
    assert (line.number, line.due) == (visit, "2026-12-05")


def test_a_visit_is_shown_two_weeks_before_and_not_earlier(there, visit):
    move_visit(there.book, there.jonas, visit, "2026-12-10", "Asked for it.")
    assert lines(there, "visit") == []
    there.clock.on(timedelta(days=1))
    assert len(lines(there, "visit")) == 1


def test_what_is_loose_is_counted_as_the_job_page_counts_it(at):
    there = at("lower bolt")
    sheet = there.sheet()
    loose = loose_ends(there.book, [there.job])[there.job]
    assert (loose.now, loose.to_do) == (len(sheet.loose_now), len(sheet.still_to_do))
    assert loose.first == sheet.loose_now[0].sentence
    with there.book.store.read() as reading:
        assert today(there.book).last == {there.job: reading.journal.entries(job=there.job)[-1].number}


def test_today_asks_a_fixed_number_of_questions(there, visit):
    def queries():
        said = []

        def listen(_connection, _cursor, statement, *_rest):
            if not statement.startswith(("BEGIN", "PRAGMA")):
                said.append(statement)

        event.listen(there.book.store._engine, "before_cursor_execute", listen)
        today(there.book)
        event.remove(there.book.store._engine, "before_cursor_execute", listen)
        return len(said)

    before = queries()
    assert before <= 14
    for number in range(5):
        calls.take_call(there.book, there.jonas, CALL)
        car = replace(ARRIVAL.vehicle, vin="", plate=f"NEW {number}")
        take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=car))
    assert queries() == before
