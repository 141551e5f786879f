"""Waits run on by themselves, through a restart, and are cut short only with a reason."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work.model import Act
from jobbook.core.work.state import START
from jobbook.services import work
from jobbook.services.work.waiting import is_running, wait_length


@pytest.fixture
def there(at):
    return at("wait")


def test_a_wait_is_begun_runs_through_a_restart_and_is_over_in_its_time(there):
    begun = there.do("wait-begun")
    assert begun.words == "Wait begun"
    until = (there.clock.now + timedelta(minutes=2)).isoformat()
    there.open_again()
    assert there.card().waits_until == until
    assert [choice.key for choice in there.card().choices] == ["early"]
    there.clock.on(timedelta(minutes=2))
    assert there.card().waits_until == ""
    assert [choice.key for choice in there.card().choices] == ["main"]
    number = there.card().step.number
    there.do("main")
    assert there.card(number).step.mark == "disc"


def test_a_wait_that_still_runs_is_not_over_whoever_says_so(there):
    there.do("wait-begun")
    early = there.choice("early")
    over = replace(early, key="main", act=replace(early.act, ends=""), asks=())
    with pytest.raises(Refused, match="the wait runs until"):
        work.keep(there.book, there.bram, there.job, over, {})


def test_a_wait_that_was_not_begun_is_not_over(there):
    choice = there.choice("wait-begun")
    with pytest.raises(Refused, match="this wait was not begun"):
        work.keep(there.book, there.bram, there.job, replace(choice, key="main"), {})


def test_a_wait_is_cut_short_only_with_a_reason(there):
    there.do("wait-begun")
    with pytest.raises(Refused, match="needs an answer to “Why is the wait cut short"):
        work.keep(there.book, there.bram, there.job, there.choice("early"), {"reason": " "})
    there.do("early", reason="settled at once, measured twice")
    with there.book.store.read() as reading:
        act = reading.journal.entries(job=there.job, kind="act/1")[-1].payload["act"]
    assert (act["ends"], act["reason"]) == ("early", "settled at once, measured twice")


def test_waits_are_compared_as_moments_also_in_the_night_when_clocks_change():
    until = "2026-10-25T02:10:00+01:00"
    before = datetime(2026, 10, 25, 1, 5, tzinfo=UTC)
    assert is_running(until, before)
    assert is_running(until, datetime.fromisoformat("2026-10-25T02:50:00+02:00"))
    assert not is_running(until, datetime.fromisoformat("2026-10-25T02:10:00+01:00"))
    assert not is_running("", before)


def test_the_length_of_a_wait_may_be_two_and_a_half_minutes_and_needs_its_figure():
    assert wait_length(Act("wait", minutes="2.5"), START) == timedelta(seconds=150)
    with pytest.raises(Refused) as refusal:
        wait_length(Act("wait", figure_key="curing"), START)
    assert refusal.value.rule == "figure-unknown"
