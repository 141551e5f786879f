"""Making a book, and bringing the file of an older one up to date: whole, or not at all."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, inspect, text

from jobbook.core.errors import StoreUnavailable
from jobbook.core.record.tree import EMPTY_ROOT
from jobbook.db import schema
from jobbook.db.disk.engine import APPLICATION_ID, WRITING, file_engine, server_engine
from jobbook.db.disk.keys import FILE as KEY_FILE
from jobbook.db.disk.keys import Key, create_key, read_key
from jobbook.db.disk.papers_on_disk import sync_folder
from jobbook.db.disk.places import FILE, Mounts, is_address, refuse_network_disk

FOLDERS = ("photos", "papers")
BOOK_BYTES, KEY_BYTES = 16, 32
MAKING = ("PRAGMA synchronous = FULL", "PRAGMA foreign_keys = OFF")


def make(place: str | Path, random: Callable[[int], bytes], mounts: Mounts, keys: Path) -> None:
    """Make a new book: key first, then the file under another name, and its own name last.

    A book that was begun and left empty is used as it is; that there is no other is for the caller to see."""
    if is_address(place):
        _make_on_server(str(place), random, keys)
        return
    folder = Path(place)
    folder.mkdir(parents=True, exist_ok=True)
    refuse_network_disk(folder, mounts)
    if (folder / FILE).exists():
        return
    for name in FOLDERS:
        (folder / name).mkdir(exist_ok=True)
    key = _key(keys, random)
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
                return
            key = _key(keys, random)
            schema.bring_up(connection)
            _put_head(connection, random(BOOK_BYTES).hex(), key.hex)
    finally:
        engine.dispose()


def _put_head(connection: Connection, book: str, key: str) -> None:
    sql = "INSERT INTO head (one, book, key, size, root, peaks) VALUES (1, :book, :key, 0, :root, :peaks)"
    connection.execute(text(sql), {"book": book, "key": key, "root": EMPTY_ROOT, "peaks": b""})


def bring_up_file(file: Path) -> None:
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
