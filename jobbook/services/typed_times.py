"""Times as a person types them: an hour, or a day and an hour; never one to come."""

from datetime import date, datetime, timedelta

from jobbook.core import days
from jobbook.core.errors import Refused

LATE = timedelta(minutes=1)


def read_moment(typed: str, now: datetime) -> datetime:
    """When something was read: 17:40 (the last such time), mon 17:40, 23 Nov 17:40; nothing is now. Refused: the
    future."""
    text = typed.strip()
    if not text:
        return now
    found = _clock_time(text, now) or _whole_time(text, now)
    if found is None:
        raise Refused(f"“{text[:30]}” is no time, so nothing was kept: write 17:40, or 23 Nov 17:40.")
    if found > now + LATE:
        raise Refused(f"“{text[:30]}” lies in the future, so nothing was kept. Look at the clock.")
    return found


def typed_day(typed: str, today: date, ahead: bool, what: str = "Nothing was kept") -> str:
    """The day as it is kept; "" for none. Refused, in the words of `what`, where it cannot be read for certain."""
    day = days.read_day(typed, today, ahead)
    if day is None and typed.strip():
        raise Refused(f"{what}: “{typed.strip()[:30]}” is no day. Write it like 14 Mar 2026 or 14.3.2026.")
    return days.kept(day)


def look_at_day(text: str, what: str) -> None:
    """Refused, in the words of `what`: a text that is neither an ISO day nor empty."""
    try:
        date.fromisoformat(text or "2000-01-01")
    except ValueError as error:
        raise Refused(f"{what}: “{text}” is not a day. Write it like 2026-12-24.") from error


def _clock_time(text: str, now: datetime) -> datetime | None:
    try:
        at = datetime.strptime(text, "%H:%M").time()
    except ValueError:
        return None
    found = now.replace(hour=at.hour, minute=at.minute, second=0, microsecond=0)
    return found if found <= now else found - timedelta(days=1)


def _whole_time(text: str, now: datetime) -> datetime | None:
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        moment = days.read_moment(text, now)
        if not isinstance(moment, datetime):
            return None
        found = moment
    return found if found.tzinfo is not None else found.replace(tzinfo=now.tzinfo)
