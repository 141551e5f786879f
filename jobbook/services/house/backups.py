"""Backups: written while the book is open, noted in it, and asked for when the last one has grown old."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, TypedDict

from jobbook.core.errors import BookError, Refused, StoreUnavailable
from jobbook.core.people import Person, Shop
from jobbook.core.quantities.whole import whole_number
from jobbook.core.record.journal import Draft
from jobbook.services.house.people import as_now, writing
from jobbook.services.house.shop import change_shop, shop
from jobbook.services.opened import OpenBook

if TYPE_CHECKING:
    from jobbook.db.disk.backing_up import Written as Written

MAY_BACK_UP = ("desk", "people")
MAY_TAKE_THE_KEY = ("people",)
MOST_DAYS = 365
KEY_WORDS = (
    "Whoever has the key can seal papers in the workshop's name: keep this file locked away, like the shop's stamp."
)
NO_KEY_WORDS = (
    "The book's key is not in it. Keep a copy of the folder keys apart, locked away: without it no paper can leave a "
    "restored book."
)


class Running(Protocol):
    """Who waits for slow work."""

    @property
    def cancelled(self) -> bool: ...

    def report(self, done: int, total: int) -> None: ...


class ToldBy(TypedDict):
    """How slow work tells how far it is, and asks whether it is to stop."""

    progress: Callable[[int, int], None] | None
    stop: Callable[[], bool] | None


def told_by(running: Running | None) -> ToldBy:
    if running is None:
        return {"progress": None, "stop": None}
    return {"progress": running.report, "stop": lambda: running.cancelled}


@dataclass(frozen=True)
class LastBackup:
    """How the backups of a book stand. `at` is "" where there was none; `restored` where the book was restored after
    it. `since` counts entries, `forgotten` what was erased for somebody since."""

    at: str
    place: str
    days: int
    since: int
    forgotten: int
    most_days: int
    restored: bool = False
    on_server: bool = False

    @property
    def is_due(self) -> bool:
        """Old, and something was kept since. After a restoring, and after forgetting somebody, it is due at once."""
        if self.on_server or not self.since:
            return False
        return self.restored or bool(self.forgotten) or self.days >= self.most_days

    @property
    def sentence(self) -> str:
        """How it stands, in one sentence and without a date."""
        if self.on_server:
            return "The server keeps the backups of this book: ask its keeper when the last one was made."
        kept = f"{self.since} entries were" if self.since != 1 else "one entry was"
        if self.restored:
            return "The book was restored from a backup, and no backup was made since."
        if not self.at:
            return f"No backup was made yet: {kept} kept on this disk alone."
        age = {0: "of today", 1: "of yesterday"}.get(self.days, f"{self.days} days old")
        if self.forgotten:
            return f"The last backup, {age}, holds what was erased since: make a new one, and throw the older away."
        return f"The last backup is {age}; {kept if self.since else 'nothing was'} kept since."


def last_backup(book: OpenBook) -> LastBackup:
    """How the backups of this book stand today."""
    on_server = book.store.file is None
    with book.store.read() as reading:
        size = reading.journal.head().size
        entry = reading.last_backup()
        if entry is None:
            first = reading.journal.entries(limit=1)
            days = _days_since(first[0].done_at, book.today()) if first else 0
            return LastBackup("", "", days, size, 0, reading.shop().backup_days, on_server=on_server)
        forgotten = reading.forgotten_after(int(entry.payload["size"]))
        most_days = reading.shop().backup_days
    restored = entry.kind.startswith("restored/")
    since = max(size - int(entry.payload["size"]) - (0 if restored else 1), 0)  # its own entry is no news
    at = str(entry.payload["made_at"])
    days, place = _days_since(at, book.today()), str(entry.payload.get("place", ""))
    return LastBackup(at, place, days, since, 0 if restored else forgotten, most_days, restored, on_server)


def _days_since(iso: str, today: date) -> int:
    try:
        return max((today - datetime.fromisoformat(iso).date()).days, 0)
    except ValueError:
        return 0


def file_name(book: OpenBook) -> str:
    """The name that a backup made now is given: its day and hour, so that none is written over."""
    return f"jobbook-{book.clock():%Y-%m-%d-%H%M%S}.zip"


def write(
    book: OpenBook, who: Person | None, place: Path, *, with_key: bool = False, running: Running | None = None
) -> "Written":
    """Write a backup into a folder, or to the file of that name, and read it back. Nothing is noted in the book yet.

    `who` may be nobody, on the command line. Raises Refused or StoreUnavailable, and then leaves nothing."""
    from jobbook.db.disk.backing_up import write_backup  # the window starts without it

    if who is not None:
        with book.store.read() as reading:
            as_now(reading, who, *(MAY_TAKE_THE_KEY if with_key else MAY_BACK_UP))
    file = place / file_name(book) if place.is_dir() else place
    return write_backup(book.store, file.absolute(), book.now(), with_key=with_key, **told_by(running))


def note(book: OpenBook, who: Person | None, written: "Written") -> None:
    """Keep in the book that this backup was made."""
    head, facts = written.manifest.head, {"made_at": written.manifest.made_at, "digest": written.digest}
    facts |= {"file": written.file.name, "place": str(written.file.parent)}
    told = {"size": head.size, "root": head.hex, "bytes": written.size, "with_key": written.manifest.with_key}
    draft = Draft("backed-up/1", "book", facts | told)
    try:
        if who is None:
            with book.store.write("") as tx:
                tx.keep(draft)
        else:
            with writing(book, who, *MAY_BACK_UP) as tx:
                tx.keep(draft)
    except BookError as error:
        raise StoreUnavailable(
            f"The backup {written.file} is whole, but the book could not note that it was made: {error}"
        ) from error


def back_up(
    book: OpenBook, who: Person | None, place: Path, *, with_key: bool = False, running: Running | None = None
) -> "Written":
    """Write a backup and note it."""
    written = write(book, who, place, with_key=with_key, running=running)
    note(book, who, written)
    return written


def keep_backup_days(book: OpenBook, who: Person, days: str) -> Shop:
    """Keep after how many days a backup is asked for."""
    number = whole_number(days, MOST_DAYS, least=1)
    if number is None:
        raise Refused(f"“{days.strip()}” is no number of days from 1 to {MOST_DAYS}; nothing was changed.")
    return change_shop(book, who, replace(shop(book), backup_days=number))
