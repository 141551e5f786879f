"""A backup that is due is made, or put off to a day with its reason: what is due never goes without a word."""

from datetime import date

from jobbook.core.desk.calls import appointed
from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.core.written import day
from jobbook.services.house.backups import MAY_BACK_UP
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

PUT_OFF = "put-off/1"
BACKUP = "backup"
MOST_DAYS = 31  # our own choice: longer is not putting off but doing without


def put_off_backup(book: OpenBook, who: Person, typed: str, reason: str) -> None:
    """Ask for the backup again on that day. Refused without a reason, for today, or for longer than MOST_DAYS."""
    until = (appointed(typed, book.clock()) or "")[:10]
    if not until or not reason.strip():
        raise Refused("Nothing was kept: write the day on which to ask again, like fri or 9 Dec, and why not now.")
    if not 1 <= (date.fromisoformat(until) - book.today()).days <= MOST_DAYS:
        raise Refused(f"Nothing was kept: a backup is put off by a day at least, and by {MOST_DAYS} days at most.")
    with writing(book, who, *MAY_BACK_UP) as tx:
        tx.keep(Draft(PUT_OFF, "book", {"what": BACKUP, "until": until}, reason=reason.strip()))


def backup_put_off(book: OpenBook) -> Entry | None:
    """The entry by which the backup is put off beyond today. What was erased or restored since asks for one at once."""
    with book.store.read() as reading:
        last = next(iter(reversed(reading.journal.entries(kind=PUT_OFF))), None)
        if last is None or str(last.payload["until"]) <= book.today().isoformat():
            return None
        backup = reading.last_backup()
        restored = backup is not None and backup.kind.startswith("restored/") and backup.number > last.number
        return None if restored or reading.forgotten_after(last.number) else last


def put_off_words(book: OpenBook) -> str:
    """Until when the backup is put off, and why; empty where it is not."""
    entry = backup_put_off(book)
    if entry is None:
        return ""
    return f"put off until {day(date.fromisoformat(entry.payload['until']))}: {entry.facts['reason']}"
