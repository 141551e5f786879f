"""Days and hours as people write them; the weekday of each expected day is from the calendar of November 2026."""

from datetime import date, datetime, timedelta, timezone

import pytest

from jobbook.core.days import in_time, kept, read_day, read_moment, said, spoken

NOW = datetime(2026, 11, 25, 16, 20, 30, tzinfo=timezone(timedelta(hours=1)))  # a Wednesday


@pytest.mark.parametrize(
    ("typed", "ahead", "behind"),
    [
        ("2026-11-27", "2026-11-27", "2026-11-27"),
        ("27.11.2026", "2026-11-27", "2026-11-27"),
        ("27. 11. 2026", "2026-11-27", "2026-11-27"),
        ("27.11.", "2026-11-27", "2025-11-27"),
        ("27.11", "2026-11-27", "2025-11-27"),
        ("3.1.", "2027-01-03", "2026-01-03"),
        ("27 Nov", "2026-11-27", "2025-11-27"),
        ("27 November 2026", "2026-11-27", "2026-11-27"),
        ("3. Sept", "2027-09-03", "2026-09-03"),
        ("29 Feb", "2028-02-29", "2024-02-29"),
        ("today", "2026-11-25", "2026-11-25"),
        ("Tomorrow", "2026-11-26", "2026-11-26"),
        ("yesterday", "2026-11-24", "2026-11-24"),
        ("wed", "2026-11-25", "2026-11-25"),
        ("Fri", "2026-11-27", "2026-11-20"),
        ("monday", "2026-11-30", "2026-11-23"),
        ("27.11.2026 17:00", "2026-11-27T17:00", "2026-11-27T17:00"),
        ("2026-11-27  7.30", "2026-11-27T07:30", "2026-11-27T07:30"),
        ("2026-11-27T17:00:00+01:00", "2026-11-27T17:00", "2026-11-27T17:00"),
        ("25 Nov 2026, 16:13", "2026-11-25T16:13", "2026-11-25T16:13"),
        ("fri 10", "", ""),
        ("fri 10:00", "2026-11-27T10:00", "2026-11-20T10:00"),
        ("fri 9.30", "2026-11-27T09:30", "2026-11-20T09:30"),
        ("wed 9:00", "2026-12-02T09:00", "2026-11-25T09:00"),
        ("wed 18:00", "2026-11-25T18:00", "2026-11-18T18:00"),
        ("tomorrow 8am", "2026-11-26T08:00", "2026-11-26T08:00"),
        ("27 nov 5:30 pm", "2026-11-27T17:30", "2025-11-27T17:30"),
        ("12 am", "2026-11-26T00:00", "2026-11-25T00:00"),
        ("17:00", "2026-11-25T17:00", "2026-11-24T17:00"),
        ("9:00", "2026-11-26T09:00", "2026-11-25T09:00"),
        ("16:20", "2026-11-25T16:20", "2026-11-25T16:20"),
    ],
)
def test_a_day_is_the_next_one_of_an_appointment_and_the_last_one_of_what_was_done(typed, ahead, behind):
    assert kept(read_moment(typed, NOW, ahead=True)) == ahead
    assert kept(read_moment(typed, NOW)) == behind


@pytest.mark.parametrize(
    "typed",
    ["", "  ", "3/4/2026", "27/11/2026", "2026-02-30", "31.11.", "t", "ma 3", "27 ju", "soon", "2026-11-27 25:00",
     "17.00", "13pm", "0am", "27.11.26", "friyay", "2026-11"],
)  # fmt: skip
def test_what_is_no_day_or_could_be_two_is_not_read(typed):
    assert read_moment(typed, NOW, ahead=True) is None
    assert read_moment(typed, NOW) is None


def test_a_day_alone_has_no_hour_and_is_said_back_with_its_weekday():
    assert read_day("fri", NOW.date(), ahead=True) == date(2026, 11, 27)
    assert read_day("fri 10:00", NOW.date()) is None
    assert said(date(2026, 11, 27)) == "Friday 27 Nov 2026"
    assert said(datetime(2026, 11, 27, 17)) == "Friday 27 Nov 2026, 17:00"
    assert kept(None) == ""


@pytest.mark.parametrize(
    ("iso", "words"),
    [
        ("2026-11-25 17:00", "today 17:00"),
        ("2026-11-26T09:30", "tomorrow 09:30"),
        ("2026-11-24", "yesterday"),
        ("2026-11-27 17:00", "Fri 27 Nov, 17:00"),
        ("2026-12-08", "Tue 8 Dec"),
        ("2027-01-04", "Mon 4 Jan 2027"),
        ("after the holidays", "after the holidays"),
    ],
)
def test_a_promise_is_said_as_one_says_it(iso, words):
    assert spoken(iso, NOW.date()) == words


def test_in_the_hour_that_comes_twice_times_sort_by_their_moments():
    """Clocks in Central Europe went from 03:00 +02:00 back to 02:00 +01:00 on 25 October 2026 (IANA time zone data)."""
    in_summer, in_winter = "2026-10-25T02:50:00+02:00", "2026-10-25T02:10:00+01:00"
    assert in_summer > in_winter
    assert sorted([in_winter, "", in_summer, "2026-10-25"], key=in_time) == ["", "2026-10-25", in_summer, in_winter]
