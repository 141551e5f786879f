"""Times as a person types them beside a permission or a code that was read."""

from datetime import date, datetime

from jobbook.core import days, written
from jobbook.core.errors import Refused

HOUR = "%H:%M"


def shown(now: datetime) -> str:
    """The moment as it stands in a field to be changed."""
    return written.day_and_hour(now)


def read(typed: str, now: datetime) -> str:
    """The typed time as an ISO text, in the zone of `now`. An hour alone is today's. A time to come is refused."""
    text = " ".join(typed.split())
    moment = _today_at(text, now) or days.read_moment(text, now)
    if not isinstance(moment, datetime):
        raise Refused(f"“{typed}” is not a time; nothing was kept. Write it like {shown(now)}, or 14:30 for today.")
    moment = moment.replace(tzinfo=now.tzinfo)
    if moment > now:
        raise Refused(f"“{typed}” has not come yet; nothing was kept. Write when it was.")
    return moment.isoformat()


def _today_at(text: str, now: datetime) -> datetime | None:
    try:
        return datetime.combine(now.date(), datetime.strptime(text, HOUR).time())
    except ValueError:
        return None


def read_day(typed: str, today: date) -> str:
    """The typed day, until which something holds, as an ISO text; empty stays empty."""
    day = days.read_day(typed, today, ahead=True)
    if day is None and typed.strip():
        raise Refused(f"“{typed}” is not a day; nothing was kept. Write it like fri, or {written.day(today)}.")
    return days.kept(day)
