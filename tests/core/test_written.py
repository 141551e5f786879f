"""Days and whole numbers as they are written on screen and paper."""

from datetime import date, datetime
from email.utils import format_datetime

import pytest

from jobbook.core import written

FRIDAY = date(2026, 11, 6)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        *((written.day(FRIDAY), "6 Nov 2026"), (written.day_and_month(FRIDAY), "6 Nov")),
        *((written.month(FRIDAY), "November"), (written.month_and_year(FRIDAY), "Nov 2026")),
        *((written.weekday(FRIDAY), "Friday"), (written.weekday(date(2000, 1, 1)), "Saturday")),
        (written.day_and_hour(datetime(2026, 3, 1, 7, 5)), "1 Mar 2026, 07:05"),
        *((written.thousands(128410), "128\u202f410"), (written.thousands(999), "999")),
        *((written.unless_erased(None), "(erased)"), (written.unless_erased(""), "")),
    ],
)
def test_it_is_written_in_one_form(said: str, words: str) -> None:
    assert said == words


def test_months_and_days_are_called_as_in_rfc_5322_whatever_the_locale() -> None:
    """RFC 5322, 3.3 names them by three letters; the library writes them so in every locale."""
    for moment in (datetime(2026, month, day) for month in range(1, 13) for day in range(1, 8)):
        weekday, day, month, year, *_ = format_datetime(moment).replace(",", "").split()
        assert written.day(moment) == f"{int(day)} {month} {year}"
        assert written.weekday(moment)[: written.SHORT] == weekday
