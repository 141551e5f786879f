"""How days, whole numbers and what was erased are written, on the screen and on paper alike.

Months and days of the week have our own names here, since those of a machine change with its language.
"""

from datetime import date, datetime

MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
SHORT = 3  # letters
ERASED = "(erased)"


def month(moment: date) -> str:
    """ "November"."""
    return MONTHS[moment.month - 1].capitalize()


def weekday(moment: date) -> str:
    """ "Friday"."""
    return WEEKDAYS[moment.weekday()].capitalize()


def month_and_year(moment: date) -> str:
    """ "Nov 2026"."""
    return f"{month(moment)[:SHORT]} {moment.year}"


def day_and_month(moment: date) -> str:
    """ "5 Nov"."""
    return f"{moment.day} {month(moment)[:SHORT]}"


def day(moment: date) -> str:
    """ "5 Nov 2026"."""
    return f"{moment.day} {month_and_year(moment)}"


def day_and_hour(moment: datetime) -> str:
    """ "5 Nov 2026, 10:24"."""
    return f"{day(moment)}, {moment:%H:%M}"


def thousands(number: int) -> str:
    """ "128 410", with a narrow space that does not break."""
    return f"{number:,}".replace(",", "\u202f")


def unless_erased(text: str | None) -> str:
    """What a person or a customer said, or that it was erased."""
    return ERASED if text is None else text
