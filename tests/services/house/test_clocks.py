"""A computer whose clock is wrong by a year: nothing goes backward against the last entry without somebody's word."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.core.record.clocks import MAY_GO_BACK, Ahead, gone_back, leapt
from jobbook.services.house.clocks import clock_trouble, confirm_clock, trouble_and_doubt
from jobbook.services.house.verifying import audit_book
from jobbook.services.office.desk import concern
from jobbook.services.office.intake import take_in
from jobbook.services.office.today import today
from jobbook.services.opened import last_kept
from jobbook.services.sheet.jobsheet import job_sheet
from tests.services.workshop import ARRIVAL, MORNING


@pytest.fixture
def there(at):
    return at("taken in")


def test_nasty_case_76_a_clock_that_is_wrong_by_a_year_keeps_nothing_and_says_both_times(there):
    _last, size = last_kept(there.book)
    there.clock.on(timedelta(days=-365))
    with pytest.raises(Refused) as refusal:
        concern(there.book, there.jonas, there.job, 2, words="It rattles too.")
    assert "2025" in str(refusal.value)
    assert "2026" in str(refusal.value)
    assert "nothing was kept" in str(refusal.value)
    assert last_kept(there.book)[1] == size
    assert clock_trouble(there.book) == str(refusal.value)


def test_somebody_who_looked_confirms_the_clock_and_the_book_goes_on(there):
    there.clock.on(timedelta(days=-365))
    with pytest.raises(Refused, match="say why"):
        confirm_clock(there.book, there.imke, " ")
    with pytest.raises(Refused, match="no permission"):
        confirm_clock(there.book, there.jonas, "I looked at the clock.")
    confirm_clock(there.book, there.imke, "The clock ran a year ahead until this morning; set by the time signal.")
    assert clock_trouble(there.book) == ""
    concern(there.book, there.jonas, there.job, 2, words="It rattles too.")
    with there.book.store.read() as reading:
        (entry,) = reading.journal.entries(kind="clock-set-back/1")
    assert (entry.entered_by, entry.payload["entry"]) == (there.imke.id, entry.number - 1)
    assert entry.payload["last"] > entry.payload["now"]


def test_a_clock_that_goes_back_an_hour_in_the_night_stops_nobody(there):
    there.clock.on(timedelta(hours=-1))
    concern(there.book, there.jonas, there.job, 2, words="It rattles too.")
    assert clock_trouble(there.book) == ""


def test_the_limit_is_a_day_and_zones_are_compared_as_moments():
    assert gone_back(MORNING.isoformat(), MORNING - MAY_GO_BACK) == ""
    assert gone_back(MORNING.isoformat(), MORNING - MAY_GO_BACK - timedelta(seconds=1))
    assert gone_back("", MORNING) == gone_back("yesterday", MORNING) == gone_back("2027-01-01", MORNING) == ""


def ran_ahead(there):
    """A year ahead for one entry of the job, then set right and confirmed. Returns the number of that entry."""
    there.clock.on(timedelta(days=365))
    concern(there.book, there.jonas, there.job, 2, words="It rattles too.")
    number = last_kept(there.book)[1]
    there.clock.on(timedelta(days=-365))
    confirm_clock(there.book, there.imke, "The clock ran a year ahead until this morning.")
    return number


def test_nasty_case_76_entries_of_a_clock_that_ran_ahead_are_named_by_the_audit_as_no_fault(there):
    number = ran_ahead(there)
    report = audit_book(there.book.folder)
    assert report.findings == ()
    (note,) = report.notes
    assert note.startswith(f"Entry {number} bears times up to 25 Nov 2027")
    assert f"set right on 25 Nov 2026, 08:00 (entry {number + 1})" in note


def test_the_job_that_bears_wrong_times_says_so_and_another_does_not(there):
    assert "Times of this job" not in there.sheet().cry
    number = ran_ahead(there)
    first = there.sheet().cry.split("\n")[0]
    assert first.startswith(f"Times of this job are not right. Entry {number} bears")
    car = replace(ARRIVAL.vehicle, vin="", plate="NEW 1")
    other = take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=car))
    with there.book.store.read() as reading:
        (wrong,) = reading.ahead()
        kept = reading.journal.entries(job=other)
    assert all(not wrong.first <= entry.number <= wrong.last for entry in kept)
    assert "Times of this job" not in job_sheet(there.book, other).cry


def test_before_anything_is_kept_after_a_long_silence_today_asks_to_look_at_the_clock(there):
    assert trouble_and_doubt(there.book) == ("", "")
    there.clock.on(timedelta(days=365))
    assert "Nov 2027" in trouble_and_doubt(there.book)[1]
    assert today(there.book).lines[0].kind == "clock ahead"
    concern(there.book, there.jonas, there.job, 2, words="It rattles too.")
    assert trouble_and_doubt(there.book) == ("", "")


def test_a_time_that_cannot_be_read_raises_no_doubt_and_several_entries_are_named_together():
    assert leapt("", MORNING) == leapt("yesterday", MORNING) == leapt("2020-01-01", MORNING) == ""
    ahead = Ahead(3, 9, "2027-11-25T08:00:00+01:00", "2026-11-25T08:00:00+01:00", 10)
    assert ahead.sentence.startswith("Entries 3 to 9 bear times up to 25 Nov 2027, 08:00")
