"""What an old paper of a job says, and what it leaves out. What it does not say is unknown, and never nought."""

import re
from dataclasses import dataclass
from datetime import date, timedelta

from jobbook.core.errors import Refused
from jobbook.core.written import day, month_and_year

UNKNOWN = "unknown"

_SHAPES = (
    (re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{1,2})-(?P<day>[0-9]{1,2})"), "day"),
    (re.compile(r"(?P<day>[0-9]{1,2})\.\s?(?P<month>[0-9]{1,2})\.\s?(?P<year>[0-9]{4})"), "day"),
    (re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{1,2})"), "month"),
    (re.compile(r"(?P<month>[0-9]{1,2})\.\s?(?P<year>[0-9]{4})"), "month"),
    (re.compile(r"(?P<year>[0-9]{4})"), "year"),
)
FIRST_YEAR = 1950


@dataclass(frozen=True)
class PaperDay:
    """The day on a paper: the last one that it can mean, and how much of it stands there (day, month, year)."""

    latest: date
    known: str

    @property
    def words(self) -> str:
        """“14 May 2019”, “May 2019”, “2019”: no more than stands on the paper."""
        shapes = {"day": day(self.latest), "month": month_and_year(self.latest)}
        return shapes.get(self.known, f"{self.latest:%Y}")


def read_day(typed: str, today: date) -> PaperDay:
    """Return the day of a paper: 2019-05-14, 14.05.2019, 2019-05, 05.2019 or 2019. Refused: all else, and a day to
    come."""
    text = typed.strip()
    for shape, known in _SHAPES:
        match = shape.fullmatch(text)
        if match:
            return PaperDay(_latest(text, known, {k: int(v) for k, v in match.groupdict().items()}, today), known)
    raise Refused(
        f"“{text[:24]}” is no day of a paper, so nothing was kept: write 2019-05-14, 14.05.2019, 05.2019 or 2019."
    )


def _latest(text: str, known: str, parts: dict[str, int], today: date) -> date:
    try:
        first = date(parts["year"], parts.get("month", 1), parts.get("day", 1))
    except ValueError:
        raise Refused(f"There is no day “{text[:24]}”, so nothing was kept; look at the paper again.") from None
    if first > today or first.year < FIRST_YEAR:
        raise Refused(f"“{text[:24]}” cannot be the day of an old paper, so nothing was kept; look at it again.")
    return min(today, _end_of(first, known))


def _end_of(first: date, known: str) -> date:
    if known == "day":
        return first
    if known == "year":
        return date(first.year, 12, 31)
    return (first.replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)
