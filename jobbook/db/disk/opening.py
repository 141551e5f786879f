"""Opening a book: what is looked at first, and what is refused with a sentence."""

import sqlite3
from collections.abc import Callable
from itertools import count
from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, text
from sqlalchemy.exc import DBAPIError

from jobbook.core.errors import StoreUnavailable
from jobbook.db import schema
from jobbook.db.disk.engine import file_engine, server_engine
from jobbook.db.disk.making import bring_up_file
from jobbook.db.disk.places import FILE, Mounts, is_address, look_at, refuse_network_disk
from jobbook.db.disk.troubles import shown

STEPS_BETWEEN_LOOKS = 10_000  # of the database's own machine: some thousandths of a second


def file_of(place: str | Path) -> Path | None:
    """The book's file in a folder, or None for a server's address."""
    return None if is_address(place) else Path(place) / FILE


def key_folder(place: str | Path, keys: Path | None) -> Path:
    """Where the key lies: in the book's own folder; for a server's book, in the folder that was named."""
    return (keys or Path("keys")) if is_address(place) else Path(place) / "keys"


def is_book(place: str | Path) -> bool:
    """Whether a book was begun at that place. What cannot be read counts as one: opening it then says what is wrong."""
    if is_address(place):
        engine = server_engine(str(place))
        try:
            with engine.connect() as connection:
                return inspect(connection).has_table("head") and not _empty(connection)
        except DBAPIError:
            return True
        finally:
            engine.dispose()
    file = Path(place) / FILE
    return file.is_file() and not _is_empty_book(file)


def _is_empty_book(file: Path) -> bool:
    connection = sqlite3.connect(file)
    try:
        return bool(connection.execute("SELECT size FROM head").fetchone() == (0,))
    except sqlite3.Error:
        return False
    finally:
        connection.close()


def _empty(connection: Connection) -> bool:
    return connection.execute(text("SELECT size FROM head")).scalar() == 0


def refuse_another(place: str | Path) -> None:
    """Refuse to make a book where one was begun."""
    if is_book(place):
        raise StoreUnavailable(f"There is a book at {shown(place)} already: nothing was changed. Open it instead.")


def ready(place: str | Path, mounts: Mounts) -> Engine:
    """The engine of a book that can be used: seen, of this version, brought up to date where it is older."""
    if is_address(place):
        engine = server_engine(str(place))
        try:
            _bring_up_server(engine)
        except BaseException:
            engine.dispose()
            raise
        return engine
    folder = Path(place)
    file = look_at(folder)
    refuse_network_disk(folder, mounts)
    found = _version(file, folder)
    if found < schema.VERSION:
        copy_whole(file, _free_name(folder))
        bring_up_file(file)
    return file_engine(file)


def _free_name(folder: Path) -> Path:
    """A name for the copy of an older book: never that of an earlier copy."""
    stem = f"book-before-{'.'.join(map(str, schema.VERSION))}"
    names = (folder / f"{stem}{'' if number == 1 else f'-{number}'}.sqlite" for number in count(1))
    return next(name for name in names if not name.exists())


def _version(file: Path, folder: Path) -> tuple[int, int]:
    connection = sqlite3.connect(file)
    try:
        tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        if not {"schema", "journal", "head"} <= tables:
            raise StoreUnavailable(
                f"The file {file} is a database, but no book: nothing was changed. Choose another folder."
            )
        major, minor = connection.execute("SELECT major, minor FROM schema").fetchone()
    finally:
        connection.close()
    _refuse_newer(int(major), int(minor), folder)
    return int(major), int(minor)


def _refuse_newer(major: int, minor: int, place: str | Path) -> None:
    if major > schema.VERSION[0]:
        raise StoreUnavailable(
            f"The book at {place} was written by a newer version of this program (its form is {major}.{minor}, "
            f"this program knows {schema.VERSION[0]}): nothing was changed. Install the newer version."
        )


def _bring_up_server(engine: Engine) -> None:
    with engine.begin() as connection:
        if not inspect(connection).has_table("schema"):
            raise StoreUnavailable("There is no book at this address: nothing was changed. Begin one, or look at it.")
        found = schema.version(connection)
        _refuse_newer(*found, engine.url.host or "the server")
        if found < schema.VERSION:
            schema.bring_up(connection)


def copy_whole(file: Path, target: Path, stop: Callable[[], bool] | None = None) -> None:
    """Copy a book's file as of one moment, by the database itself: a plain copy of an open book may lack its newest.

    Others go on writing meanwhile. Where `stop()` says so, sqlite3.OperationalError is raised ("interrupted")."""
    if target.exists():
        raise StoreUnavailable(f"{target} is there already: nothing was copied. Name another file.")
    connection = sqlite3.connect(file)
    try:
        if stop is not None:
            connection.set_progress_handler(lambda: int(stop()), STEPS_BETWEEN_LOOKS)
        connection.execute("VACUUM INTO ?", (str(target),))
    finally:
        connection.close()


def identity(engine: Engine) -> tuple[str, str]:
    """The book's id and its public key in hex."""
    with engine.connect() as connection:
        row = connection.execute(text("SELECT book, key FROM head")).first()
    if row is None:
        raise StoreUnavailable("The book has no head: it is damaged. Restore a backup into a new folder.")
    return str(row[0]), str(row[1])
