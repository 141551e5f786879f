"""Times as they are written on a screen."""

from collections.abc import Callable
from datetime import date, datetime

from jobbook.core import written
from jobbook.core.days import read_moment, said


def day_and_hour(iso: str) -> str:
    """ "25 Nov 2026, 10:24" of an ISO time; text that is no time stands as it was typed."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return written.day(moment) if len(iso) <= len("2026-11-25") else written.day_and_hour(moment)


def day(iso: str) -> str:
    """ "25 Nov 2026" of an ISO time or date; text that is none stands as it was typed."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return written.day(moment)


def hour(iso: str) -> str:
    """ "10:24:07" of an ISO time."""
    try:
        return f"{datetime.fromisoformat(iso):%H:%M:%S}"
    except ValueError:
        return iso


def beside(iso: str, today: date) -> str:
    """The time of an entry beside its line: "10:24" of today, "24 Nov 10:24" of another day."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{moment:%H:%M}" if moment.date() == today else f"{written.day_and_month(moment)} {moment:%H:%M}"


def understood(clock: Callable[[], datetime], ahead: bool = True) -> Callable[[str], str]:
    """How a typed day or time is understood, in words, for the field that it is typed into; "" while it is not."""

    def in_words(typed: str) -> str:
        found = read_moment(typed, clock(), ahead)
        return said(found) if found else ""

    return in_words
