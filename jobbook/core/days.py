"""Days and hours as people write them: "fri 17:00", "27 Nov", "27.11.2026 9:30", "tomorrow", "2026-11-27 17:00".

What could be read in two ways is not read at all: 3/4/2026 is April in one place and March in another.
"""

import re
from datetime import UTC, date, datetime, time, timedelta

from jobbook.core import written
from jobbook.core.written import MONTHS, SHORT, WEEKDAYS, day_and_month, weekday

NAMED = {"yesterday": -1, "today": 0, "tomorrow": 1}
WEEK = timedelta(days=7)
LEAST_OF_A_WEEKDAY, LEAST_OF_A_MONTH = 2, 3  # letters

_HOUR = re.compile(r"(?:^|(?<=[\w.])[ t])(\d{1,2})[:.](\d{2})(?::\d{2}(?:\.\d+)?)?(?:[+-]\d{2}:\d{2}|z)?$")
_HALF = re.compile(r"(?:^|(?<=[\w.]) )(\d{1,2})(?::(\d{2}))? ?(am|pm)$")
_ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})$")
_POINTS = re.compile(r"(\d{1,2})\. ?(\d{1,2})(?:\. ?(\d{4})?)?$")
_NAMED_MONTH = re.compile(r"(\d{1,2})\.? ([a-z]+)\.?(?: (\d{4}))?$")


def read_day(typed: str, today: date, ahead: bool = False) -> date | None:
    """The day that was typed; None where nothing was, or where it cannot be read for certain.

    A weekday or a day without its year is the last such day until today; `ahead`, the next one from today on."""
    return _day(_plain(typed), today, ahead)


def read_moment(typed: str, now: datetime, ahead: bool = False) -> date | datetime | None:
    """The day, or the day with its hour (without a zone, on the clock of `now`); None as with `read_day`.

    An hour alone is the last such time until now; `ahead`, the next one."""
    text = _plain(typed)
    hour, rest = _hour(text)
    if hour is None:
        return _day(text, now.date(), ahead)
    if rest:
        day = _day(rest, now.date(), ahead)
        return None if day is None else _following(datetime.combine(day, hour), rest, now, ahead)
    here = datetime.combine(now.date(), hour)
    minute = now.replace(tzinfo=None, second=0, microsecond=0)
    return here + timedelta(days=here < minute if ahead else -(here > minute))


def day_of(iso: str) -> date:
    """The day of a time as it is kept: an ISO text that begins with its day."""
    return date.fromisoformat(iso[:10])


def in_time(iso: str) -> datetime:
    """A key to sort kept times by, whatever zones they were written in; no time comes before all others.

    In the hour that comes twice when clocks are set back, the texts do not sort as the moments do."""
    moment = datetime.fromisoformat(iso) if iso else datetime.min
    return moment.astimezone(UTC) if moment.tzinfo else moment.replace(tzinfo=UTC)


def kept(moment: date | datetime | None) -> str:
    """As it is kept: "2026-11-27" or "2026-11-27T17:00"; "" for none."""
    if isinstance(moment, datetime):
        return moment.isoformat(timespec="minutes")
    return moment.isoformat() if moment is not None else ""


def said(moment: date | datetime) -> str:
    """As it is said back to whoever typed it: "Friday 27 Nov 2026, 17:00"."""
    day = f"{weekday(moment)} {written.day(moment)}"
    return f"{day}, {moment:%H:%M}" if isinstance(moment, datetime) else day


def spoken(iso: str, today: date) -> str:
    """A day or time as one says it: "today 17:00", "Fri 27 Nov, 17:00"; text that is no time stands as it was typed."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    named = {away: word for word, away in NAMED.items()}.get((moment.date() - today).days, "")
    year = f" {moment.year}" if moment.year != today.year else ""
    day = named or f"{weekday(moment)[:SHORT]} {day_and_month(moment)}{year}"
    if len(iso) <= len("2026-11-25"):
        return day
    return f"{day} {moment:%H:%M}" if named else f"{day}, {moment:%H:%M}"


def _plain(typed: str) -> str:
    return " ".join(typed.lower().replace(",", " ").split())


def _hour(text: str) -> tuple[time | None, str]:
    """The hour at the end, and what stands before it. An hour alone has a colon: 9.10 is a day in October."""
    found = _HOUR.search(text)
    if found and (found.start() or ":" in found[0]):
        hour, minute = int(found[1]), int(found[2])
    elif found := _HALF.search(text):
        hour, minute = int(found[1]) % 12 + 12 * (found[3] == "pm"), int(found[2] or 0)
        if not 1 <= int(found[1]) <= 12:
            return None, text
    else:
        return None, text
    if hour > 23 or minute > 59:
        return None, text
    return time(hour, minute), text[: found.start()].strip()


def _following(moment: datetime, named: str, now: datetime, ahead: bool) -> datetime:
    """A weekday whose hour is over, or has not come, is that of the week after or before."""
    here = now.replace(tzinfo=None, second=0, microsecond=0)
    if not _starts_one(named, WEEKDAYS, LEAST_OF_A_WEEKDAY):
        return moment
    if ahead:
        return moment + WEEK if moment < here else moment
    return moment - WEEK if moment > here else moment


def _day(text: str, today: date, ahead: bool) -> date | None:
    if text in NAMED:
        return today + timedelta(days=NAMED[text])
    weekday = _starts_one(text, WEEKDAYS, LEAST_OF_A_WEEKDAY)
    if weekday:
        away = weekday - 1 - today.weekday()
        return today + timedelta(days=away % 7 if ahead else -(-away % 7))
    if found := _ISO.match(text):
        return _date(int(found[1]), int(found[2]), int(found[3]))
    if found := _POINTS.match(text):
        return _with_year(found[3], int(found[2]), int(found[1]), today, ahead)
    if found := _NAMED_MONTH.match(text):
        month = _starts_one(found[2], MONTHS, LEAST_OF_A_MONTH)
        return _with_year(found[3], month, int(found[1]), today, ahead) if month else None
    return None


def _starts_one(text: str, names: tuple[str, ...], least: int) -> int:
    """Which of the names begins so, counted from 1; 0 for none."""
    fits = [place for place, name in enumerate(names, 1) if name.startswith(text)]
    return fits[0] if len(text) >= least and len(fits) == 1 else 0


def _with_year(year: str | None, month: int, day: int, today: date, ahead: bool) -> date | None:
    if year:
        return _date(int(year), month, day)
    years = range(today.year, today.year + 9) if ahead else range(today.year, today.year - 9, -1)
    days = (_date(one, month, day) for one in years)  # a 29 February may be eight years away
    return next((one for one in days if one is not None and (one >= today if ahead else one <= today)), None)


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
