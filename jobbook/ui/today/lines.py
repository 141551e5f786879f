"""A line of Today, and its words. No Qt in here."""

from dataclasses import dataclass, field
from datetime import datetime

from jobbook.core.desk.today import Due, Loose
from jobbook.core.written import SHORT, day, day_and_month, weekday

STATES = {
    "overdue": "Overdue",
    "today": "Today",
    "waiting": "Waited for",
    "coming": "Coming",
    "open": "In the shop",
}
ROLES = {"overdue": "ochre", "today": "ink", "waiting": "ink"}


@dataclass(frozen=True)
class Line:
    """A line of the list: the same line while its `key` is the same, whatever is known of it meanwhile."""

    key: tuple[str, int, str]
    due: Due = field(compare=False)
    loose: Loose | None = field(default=None, compare=False)


def line_of(due: Due, loose: Loose | None = None) -> Line:
    words = due.what if due.kind in ("authority", "permission") else due.key
    return Line((due.kind, due.number, words), due, loose)


def when_words(due: Due, this_year: int) -> str:
    """When it was due or is: the hour alone where the state says that it is today, the year where it is another."""
    if due.state == "today":
        return due.due[11:16]
    if due.due:
        hour = f", {due.due[11:16]}" if "T" in due.due else ""
        return _day(due.due, this_year) + hour
    return f"since {_day(due.since, this_year)}" if due.since else ""


def _day(iso: str, this_year: int) -> str:
    moment = datetime.fromisoformat(iso)
    return f"{weekday(moment)[:SHORT]} {day_and_month(moment)}" if moment.year == this_year else day(moment)


def what_words(line: Line) -> str:
    """What it is; a vehicle that stands in the shop with how much is loose in it."""
    if line.due.kind != "job" or line.loose is None:
        return line.due.what
    job, _, said = line.due.what.partition(": ")
    return f"{job}: {loose_words(line.loose)} · {said}"


def loose_words(loose: Loose) -> str:
    told = [f"{loose.now} loose now" if loose.now else "", f"{loose.to_do} to do" if loose.to_do else ""]
    return ", ".join(filter(None, told)) or "nothing loose"


def role(line: Line) -> str:
    return ROLES.get(line.due.state, "soft")
