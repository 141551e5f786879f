"""What is asked on the telephone, how a time is read, and what the caller is told before they hang up."""

from datetime import datetime

import pytest

from jobbook.core.desk.calls import FLAT, OVERNIGHT, Call, advice, appointed, concern_of, read_moment


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("", ""),
        ("  ", ""),
        ("2026-11-27", "2026-11-27"),
        ("2026-11-27 17:00", "2026-11-27T17:00"),
        ("2026-11-27  7.30", None),
        ("2026-11-27 07.30", "2026-11-27T07:30"),
        ("2026-11-27T17:00:00+01:00", "2026-11-27T17:00"),
        ("27.11.2026", None),
        ("tomorrow", None),
        ("2026-02-30", None),
        ("2026-11-27 25:00", None),
    ],
)
def test_a_time_is_read_for_certain_or_not_at_all(typed, kept):
    assert read_moment(typed) == kept


def test_an_appointment_is_typed_as_one_says_it_and_kept_by_its_day():
    """25 November 2026 is a Wednesday."""
    now = datetime(2026, 11, 25, 16, 20)
    assert appointed("fri 17:00", now) == "2026-11-27T17:00"
    assert appointed("27.11.2026", now) == "2026-11-27"
    assert appointed(" ", now) == ""
    assert appointed("friyay", now) is None


def test_who_cannot_say_that_it_stands_right_is_told_not_to_drive():
    """Common practice: a spring without air is not driven on; the maker's towing instructions come first."""
    assert advice("no", False) == advice("unknown", False) == (FLAT,)
    assert advice("yes", False) == ()
    assert advice("yes", True) == (OVERNIGHT,)
    assert "flatbed" in FLAT
    assert "maker's" in FLAT


def test_the_concern_carries_what_was_said_on_the_telephone():
    call = Call(1, "A", "1", "Down in the\nmorning.", "", "", "Stop: level", ("FL",), "two weeks", "cold", "standing")
    said = "Down in the morning; warning: Stop: level; FL; since two weeks; cold; after standing."
    assert concern_of(call) == said
    assert (
        concern_of(Call(1, "A", "1", "Hisses", elsewhere="a line joined"))
        == "Hisses; earlier work elsewhere: a line joined."
    )
    assert concern_of(Call(1, None, None, None)) == ""
