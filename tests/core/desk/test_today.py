"""What is due, in order, and what a job waits for."""

from datetime import UTC, datetime

import pytest

from jobbook.core.desk.today import Due, in_order, state_of, waited_for
from jobbook.core.record.journal import Draft, Entry, body_of

NOW = datetime(2026, 11, 25, 13, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("due", "since", "state"),
    [
        ("2026-11-24", "", "overdue"),
        ("2026-11-25", "", "today"),
        ("2026-11-25T12:59", "", "overdue"),
        ("2026-11-25T13:00", "", "today"),
        ("2026-11-26", "", "coming"),
        ("", "2026-11-20T08:00:00+00:00", "waiting"),
        ("", "", "open"),
    ],
)
def test_a_day_is_overdue_when_it_is_over_and_a_time_when_it_has_passed(due, since, state):
    assert state_of(Due("call", "x", due, since), NOW) == state


def test_clock_and_backup_are_told_of_only_when_they_are_overdue():
    assert state_of(Due("backup", "x", "", "2026-11-01"), NOW) == state_of(Due("clock", "x"), NOW) == "overdue"


def test_a_vehicle_without_a_promise_is_not_overdue_however_long_it_stands():
    assert state_of(Due("job", "x", "", "2020-01-01"), NOW) == "open"


def test_overdue_first_and_the_clock_before_everything():
    listed = [
        Due("job", "in the shop", number=3), Due("visit", "later", "2026-12-01"),
        Due("authority", "asked", "", "2026-11-20"),
        Due("call", "this evening", "2026-11-25T17:00"), Due("visit", "long ago", "2026-10-01"), Due("clock", "wrong"),
        Due("tool", "yesterday", "2026-11-24"),
    ]  # fmt: skip
    said = [one.what for one in in_order(listed, NOW)]
    assert said == ["wrong", "long ago", "yesterday", "this evening", "asked", "later", "in the shop"]
    assert in_order(reversed(listed), NOW) == in_order(listed, NOW)


def entry(number, kind, replaces=None, **payload):
    draft = Draft(kind, "job/1", payload, job=1, replaces=replaces)
    body = body_of(draft, book="b", act=f"a{number}", entered_at="2026-11-25", entered_by="bf", salt="")
    return Entry(number, kind, 1, f"day {number}", replaces, body, b"")


REPAIR = entry(1, "permission/1", scope="repair")


def test_a_job_without_any_permission_waits_for_the_first():
    assert waited_for([]) == (("permission", "a first permission", ""),)
    assert waited_for([entry(1, "permission/1", scope="authority")])[0][1] == "a first permission"
    assert waited_for([REPAIR]) == ()


def test_a_payer_that_was_asked_is_waited_for_until_it_authorised_or_refused():
    asked = entry(2, "asked/1", what="authority", of="insurer")
    assert waited_for([REPAIR, asked]) == (("authority", "authority from insurer", "day 2"),)
    assert waited_for([REPAIR, asked, entry(3, "permission/1", scope="authority")]) == ()
    assert waited_for([REPAIR, asked, entry(3, "permission-changed/1", of=2, what="refused")]) == ()
    again = entry(4, "asked/1", what="authority", of="insurer")
    assert waited_for([REPAIR, asked, again]) == (("authority", "authority from insurer", "day 4"),)


def test_a_finding_waits_until_it_was_allowed_declined_or_answered_otherwise():
    found = entry(2, "finding/1", words="line chafed", needs="permission")
    assert waited_for([REPAIR, found]) == (("permission", "permission: line chafed", "day 2"),)
    assert waited_for([REPAIR, found, entry(3, "permission/1", scope="extra", finding="2")]) == ()
    assert waited_for([REPAIR, found, entry(3, "permission/1", scope="extra")]) != ()
    assert waited_for([REPAIR, found, entry(3, "finding-answered/1", finding=2, answer="told")]) == ()
    corrected = entry(3, "finding/1", replaces=2, words="line cut", needs="permission")
    assert waited_for([REPAIR, found, corrected])[0][1] == "permission: line cut"
    assert waited_for([REPAIR, found, corrected, entry(4, "declined/1", finding=2)]) == ()
    assert waited_for([REPAIR, entry(2, "finding/1", words="tyre worn", needs="")]) == ()
