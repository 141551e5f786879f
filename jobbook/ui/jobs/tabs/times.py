"""Times as a person types them beside a permission or a code that was read."""

from datetime import date, datetime

from jobbook.core.errors import Refused

SHAPE = "%Y-%m-%d %H:%M"


def shown(now: datetime) -> str:
    """The moment as it stands in a field to be changed."""
    return now.strftime(SHAPE)


def read(typed: str, now: datetime) -> str:
    """The typed time as an ISO text, in the zone of `now`. An hour alone is today's. A time to come is refused."""
    text = " ".join(typed.split())
    for shape, given in ((SHAPE, text), (SHAPE, f"{now:%Y-%m-%d} {text}")):
        try:
            moment = datetime.strptime(given, shape).replace(tzinfo=now.tzinfo)
        except ValueError:
            continue
        if moment > now:
            raise Refused(f"“{typed}” has not come yet; nothing was kept. Write when it was.")
        return moment.isoformat()
    raise Refused(f"“{typed}” is not a time; nothing was kept. Write it like {now:%Y-%m-%d} 14:30, or 14:30 for today.")


DAYS = ("%Y-%m-%d", "%d %b %Y", "%d %B %Y", "%d.%m.%Y")


def read_day(typed: str, today: date) -> str:
    """The typed day as an ISO text; empty stays empty. A month in figures is read only behind the day, with points."""
    text = " ".join(typed.split())
    if not text:
        return ""
    for shape in DAYS:
        try:
            return datetime.strptime(text, shape).date().isoformat()
        except ValueError:
            continue
    raise Refused(f"“{typed}” is not a day; nothing was kept. Write it like {today:%Y-%m-%d} or {today:%-d %b %Y}.")
