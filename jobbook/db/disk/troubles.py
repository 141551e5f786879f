"""What can go wrong with a book on disk or on a server, said in one sentence for the person."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from jobbook.core.errors import NotFound, StoreUnavailable

NOTHING_KEPT = "nothing of this last action was kept, everything before it is"

# The most telling part of SQLite's result code (https://www.sqlite.org/rescode.html), and what it means here.
BY_CODE = {
    sqlite3.SQLITE_NOTADB: "The book at {place} is damaged or is no book: {kept}. Restore a backup into a new folder.",
    sqlite3.SQLITE_CORRUPT: "The book at {place} is damaged: {kept}. Copy its folder as it is, then restore a backup.",
    sqlite3.SQLITE_READONLY: "The book at {place} is read-only: {kept}. Make its folder writable, then try again.",
    sqlite3.SQLITE_CANTOPEN: "The book at {place} cannot be opened: {kept}. Look at its folder.",
    sqlite3.SQLITE_FULL: "The disk of the book at {place} is full: {kept}. Make room, then do it again.",
    sqlite3.SQLITE_BUSY: "Another program holds the book at {place}: {kept}. Try again in a moment.",
    sqlite3.SQLITE_LOCKED: "Another program holds the book at {place}: {kept}. Try again in a moment.",
    sqlite3.SQLITE_IOERR: "The disk of the book at {place} reports a fault: {kept}. Look at the disk before going on.",
}
SERVER = "The server of the book at {place} does not answer as it should: {kept}. Look at the server, then try again."


@contextmanager
def said_plainly(place: str | Path) -> Iterator[None]:
    """Turn what the database reports into StoreUnavailable; a defect of ours goes on as it is."""
    try:
        yield
    except DBAPIError as error:
        told = _told(error.orig, place)
        if told is None:
            raise
        raise told from error
    except sqlite3.Error as error:
        told = _told(error, place)
        if told is None:
            raise
        raise told from error


@contextmanager
def disk_said_plainly(place: str | Path) -> Iterator[None]:
    """The same, and what the disk itself reports; around work on files, and never around a caller's block."""
    try:
        with said_plainly(place):
            yield
    except OSError as error:
        why = error.strerror or "the disk reports a fault"
        raise StoreUnavailable(
            f"The book at {place} cannot be used ({why}): {NOTHING_KEPT}. Look at its folder and its disk."
        ) from error


@contextmanager
def opening_said_plainly(place: str | Path) -> Iterator[None]:
    """The same while a book is made or opened, where whatever else the database reports means damage."""
    try:
        with disk_said_plainly(place):
            yield
    except (DBAPIError, sqlite3.Error, UnicodeDecodeError) as error:
        damaged = BY_CODE[sqlite3.SQLITE_NOTADB]
        raise StoreUnavailable(damaged.format(place=shown(place), kept="nothing was changed")) from error


def _told(error: BaseException | None, place: str | Path) -> StoreUnavailable | NotFound | None:
    if isinstance(error, sqlite3.Error):
        code = getattr(error, "sqlite_errorcode", 0)
        if code == sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY:
            return _names_nothing()
        sentence = BY_CODE.get(code & 0xFF)
        return StoreUnavailable(sentence.format(place=place, kept=NOTHING_KEPT)) if sentence else None
    state = getattr(error, "sqlstate", None)  # PostgreSQL's error classes
    if state == "23503":
        return _names_nothing()
    unreachable = state is None and type(error).__name__ == "OperationalError"
    if unreachable or (state or "")[:2] in ("08", "25", "53", "57", "58"):
        return StoreUnavailable(SERVER.format(place=shown(place), kept=NOTHING_KEPT))
    return None


def shown(place: str | Path) -> str:
    """The place as it may be shown: a server's address without its password."""
    before, at, after = str(place).rpartition("@")
    scheme, _, rest = before.partition("://")
    return f"{scheme}://{rest.split(':')[0]}@{after}" if at and rest else str(place)


def _names_nothing() -> NotFound:
    return NotFound(
        "This names a job, vehicle, customer or person that is not in the book: "
        f"{NOTHING_KEPT}. Open the page again and choose anew."
    )
