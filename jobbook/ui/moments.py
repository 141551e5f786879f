"""Times as they are written on a screen."""

from datetime import date, datetime


def day_and_hour(iso: str) -> str:
    """ "25 Nov 2026, 10:24" of an ISO time; text that is no time stands as it was typed."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{moment.day} {moment:%b %Y}" if len(iso) <= len("2026-11-25") else f"{moment.day} {moment:%b %Y, %H:%M}"


def day(iso: str) -> str:
    """ "25 Nov 2026" of an ISO time or date; text that is none stands as it was typed."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{moment.day} {moment:%b %Y}"


def hour(iso: str) -> str:
    """ "10:24:07" of an ISO time."""
    try:
        return f"{datetime.fromisoformat(iso):%H:%M:%S}"
    except ValueError:
        return iso


def thousands(number: int) -> str:
    """A whole number with a narrow no-break space between its thousands."""
    return f"{number:,}".replace(",", "\u202f")


def beside(iso: str, today: date) -> str:
    """The time of an entry beside its line: "10:24" of today, "24 Nov 10:24" of another day."""
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{moment:%H:%M}" if moment.date() == today else f"{moment.day} {moment:%b %H:%M}"
