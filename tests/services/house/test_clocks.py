"""A computer whose clock is wrong by a year: nothing goes backward against the last entry without somebody's word."""

from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.core.record.clocks import MAY_GO_BACK, gone_back
from jobbook.services.house.clocks import clock_trouble, confirm_clock
from jobbook.services.office.desk import concern
from jobbook.services.opened import last_kept
from tests.services.workshop import MORNING


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
