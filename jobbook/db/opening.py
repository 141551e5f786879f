"""Making a book and opening one: what is looked at first, and what is refused with a sentence."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, text
from sqlalchemy.exc import DBAPIError

from jobbook.core.errors import StoreUnavailable
from jobbook.core.tree import EMPTY_ROOT
from jobbook.db import schema
from jobbook.db.engine import APPLICATION_ID, WRITING, file_engine, server_engine
from jobbook.db.keys import FILE as KEY_FILE
from jobbook.db.keys import Key, create_key, read_key
from jobbook.db.papers_on_disk import sync_folder
from jobbook.db.places import FILE, Mounts, is_address, look_at, refuse_network_disk
from jobbook.db.troubles import shown

FOLDERS = ("photos", "papers")
BOOK_BYTES, KEY_BYTES = 16, 32
MAKING = ("PRAGMA synchronous = FULL", "PRAGMA foreign_keys = OFF")


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


def make(place: str | Path, random: Callable[[int], bytes], mounts: Mounts, keys: Path | None) -> None:
    """Make a new book: key first, then the file under another name, and its own name last."""
    if is_book(place):
        raise StoreUnavailable(
            f"There is a book at {shown(place)} already: nothing was changed. Open it, or choose another."
        )
    if is_address(place):
        _make_on_server(str(place), random, key_folder(place, keys))
        return
    folder = Path(place)
    folder.mkdir(parents=True, exist_ok=True)
    refuse_network_disk(folder, mounts)
    if (folder / FILE).exists():
        return  # an empty book, begun and left: it is used as it is
    for name in FOLDERS:
        (folder / name).mkdir(exist_ok=True)
    key = _key(folder / "keys", random)
    _make_file(folder / FILE, random(BOOK_BYTES).hex(), key.hex)


def _key(keys: Path, random: Callable[[int], bytes]) -> Key:
    """A new key; or the one that lies there, which may be of a making that broke off, and is never written over."""
    return read_key(keys) if (keys / KEY_FILE).exists() else create_key(keys, random(KEY_BYTES))


def _make_file(file: Path, book: str, key: str) -> None:
    beside = file.with_suffix(".new")
    beside.unlink(missing_ok=True)
    with _making(beside) as connection:
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        schema.bring_up(connection)
        _put_head(connection, book, key)
    beside.replace(file)
    sync_folder(file.parent)


def _make_on_server(address: str, random: Callable[[int], bytes], keys: Path) -> None:
    engine = server_engine(address)
    try:
        with engine.begin() as connection:
            if inspect(connection).has_table("head"):
                return  # an empty book, begun and left
            key = _key(keys, random)
            schema.bring_up(connection)
            _put_head(connection, random(BOOK_BYTES).hex(), key.hex)
    finally:
        engine.dispose()


def _put_head(connection: Connection, book: str, key: str) -> None:
    sql = "INSERT INTO head (one, book, key, size, root, peaks) VALUES (1, :book, :key, 0, :root, :peaks)"
    connection.execute(text(sql), {"book": book, "key": key, "root": EMPTY_ROOT, "peaks": b""})


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
        copy_whole(file, folder / f"book-before-{'.'.join(map(str, schema.VERSION))}.sqlite")
        _bring_up_file(file)
    return file_engine(file)


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


def _bring_up_file(file: Path) -> None:
    with _making(file) as connection:
        schema.bring_up(connection)
        astray = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
        if astray:
            raise StoreUnavailable(
                f"The book {file} could not be brought up to date, since rows of {astray[0][0]} name what is not "
                "there: it stays as it was, and its copy lies beside it. Run the audit of the older version."
            )


@contextmanager
def _making(file: Path) -> Iterator[Connection]:
    """One transaction on a file with foreign keys off: on, they once took rows along when tables were remade."""
    engine = file_engine(file, pragmas=MAKING)
    try:
        with engine.connect().execution_options(**{WRITING: True}) as connection, connection.begin():
            yield connection
    finally:
        engine.dispose()


def _bring_up_server(engine: Engine) -> None:
    with engine.begin() as connection:
        if not inspect(connection).has_table("schema"):
            raise StoreUnavailable("There is no book at this address: nothing was changed. Begin one, or look at it.")
        found = schema.version(connection)
        _refuse_newer(*found, engine.url.host or "the server")
        if found < schema.VERSION:
            schema.bring_up(connection)


def copy_whole(file: Path, target: Path) -> None:
    """Copy a book's file as of one moment, by the database itself: a plain copy of an open book may lack its newest."""
    if target.exists():
        raise StoreUnavailable(f"{target} is there already: nothing was copied. Name another file.")
    connection = sqlite3.connect(file)
    try:
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
