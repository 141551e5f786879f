"""Waits close with an outcome from the desk: a time of the work, a leak-down stand, and what comes from outside."""

from datetime import timedelta

import pytest

from jobbook.core.desk.waits import held_words
from jobbook.core.errors import Refused
from jobbook.services.house.verifying import audit_book
from jobbook.services.measured.stands import begin_stand, stop_stand
from jobbook.services.office.calls import keep_tried
from jobbook.services.office.today import today
from jobbook.services.office.visits import Outcome, close_visit, move_visit, visits
from jobbook.services.office.waits import end_wait, hold
from tests.services.measured.test_stands import LEFT


def lines(there, kind):
    return [one for one in today(there.book).lines if one.kind == kind]


@pytest.fixture
def waiting(at):
    """A job whose wait was begun a moment ago."""
    there = at("wait")
    there.do("wait-begun")
    return there


@pytest.fixture
def there(at):
    return at("taken in")


def test_a_wait_that_is_over_stands_until_its_step_is_answered_and_can_be_answered_from_today(waiting):
    (line,) = lines(waiting, "wait")
    with pytest.raises(Refused, match="it runs until"):
        end_wait(waiting.book, waiting.bram, line.number, "main")
    waiting.clock.on(timedelta(days=2))
    (line,) = lines(waiting, "wait")
    assert line.state == "overdue"
    end_wait(waiting.book, waiting.bram, line.number, "main")
    assert lines(waiting, "wait") == []
    act = waiting.journal("act/1")[-1]
    assert (act.payload["act"]["do"], act.done_by) == ("wait", waiting.bram.id)
    with pytest.raises(Refused, match="gone on from this wait"):
        end_wait(waiting.book, waiting.bram, line.number, "main")


def test_a_wait_is_cut_short_or_taken_back_only_with_its_reason(waiting):
    (line,) = lines(waiting, "wait")
    for outcome in ("early", "taken back", "forgotten"):
        with pytest.raises(Refused):
            end_wait(waiting.book, waiting.bram, line.number, outcome, " ")
    end_wait(waiting.book, waiting.bram, line.number, "taken back", "Begun on the wrong job.")
    assert lines(waiting, "wait") == []
    assert [choice.key for choice in waiting.card().choices] == ["wait-begun"]
    waiting.do("wait-begun")
    (line,) = lines(waiting, "wait")
    end_wait(waiting.book, waiting.bram, line.number, "early", "Settled at once, measured twice.")
    assert lines(waiting, "wait") == []
    assert waiting.journal("act/1")[-1].payload["act"]["ends"] == "early"


def test_somebody_who_may_not_work_ends_no_wait(waiting):
    (line,) = lines(waiting, "wait")
    with pytest.raises(Refused, match="no permission"):
        end_wait(waiting.book, waiting.jonas, line.number, "taken back", "Not mine.")


def test_a_leak_down_stand_is_waited_for_until_it_ends(there):
    begin_stand(there.book, there.bram, there.job, LEFT)
    (line,) = lines(there, "stand")
    assert (line.state, line.job, line.since[:10]) == ("waiting", there.job, "2026-11-25")
    stop_stand(there.book, there.bram, there.job, line.number, "The vehicle was needed.")
    assert lines(there, "stand") == []


def test_nasty_case_16_a_vehicle_on_the_lift_waits_for_a_part_until_it_came(there):
    with pytest.raises(Refused, match="what exactly"):
        hold(there.book, there.bram, there.job, "part", " ", "2026-12-20", "lift")
    with pytest.raises(Refused, match="what the vehicle waits for"):
        hold(there.book, there.bram, there.job, "weather", "sun")
    number = hold(there.book, there.bram, there.job, "part", "strut FL, back-ordered", "2026-12-20", "lift")
    (line,) = lines(there, "held")
    assert line.what == f"Job {there.job} waits for a part: strut FL, back-ordered, on the lift"
    assert "waits for a part, on the lift" in [word.text for word in there.sheet().state]
    assert (line.due, line.state) == ("2026-12-20", "coming")
    move_visit(there.book, there.jonas, number, "2026-12-22", "The supplier wrote.")
    (line,) = lines(there, "held")
    assert (line.due, line.what.endswith("on the lift")) == ("2026-12-22", True)
    close_visit(there.book, there.jonas, number, Outcome("came"))
    assert lines(there, "held") == []
    assert [one.reminder.outcome for one in visits(there.book, there.job)] == ["came"]
    assert not any("waits" in word.text for word in there.sheet().state)
    assert audit_book(there.book.folder).findings == ()


def test_nasty_case_56_an_inspector_who_does_not_come_is_closed_with_what_is_done_instead(there):
    number = hold(there.book, there.jonas, there.job, "inspector", "of the insurer, named by letter", "", "lift")
    (line,) = lines(there, "held")
    assert (line.due, line.state) == ("", "waiting")
    for outcome in ("did not come", "not needed", "waived"):
        with pytest.raises(Refused):
            close_visit(there.book, there.jonas, number, Outcome(outcome))
    close_visit(there.book, there.jonas, number, Outcome("did not come", "Pictures were enough, they wrote."))
    assert lines(there, "held") == []


def test_nasty_case_47_a_customer_who_is_not_reached_is_waited_for_with_every_attempt(there):
    number = hold(there.book, there.jonas, there.job, "customer", "their word on the price, limit reached", "", "lift")
    for outcome in ("no answer", "message left"):
        keep_tried(there.book, there.jonas, f"reminder/{number}", "by telephone", outcome, "", there.job)
    (waited,) = visits(there.book, there.job)
    assert [one.outcome for one in waited.tried] == ["no answer", "message left"]
    assert waited.reminder.made_at[:10] == "2026-11-25"


def test_what_is_waited_for_is_said_with_its_place():
    assert held_words("part", "strut FL", "lift") == "a part: strut FL, on the lift"
    assert held_words("payment", "", "") == "payment"
