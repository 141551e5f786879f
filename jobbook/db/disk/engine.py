"""The connection to a book: how transactions begin, and what makes them last."""

from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

WRITING = "jobbook_writing"
WAIT_SECONDS = 10
# SQLite looks for a lock after 1, 2, 5, 10, 15, 20 and 25 ms, then ever more seldom, up to once in 100 ms. Asked anew
# after this many ms it goes on looking at least once in 25 ms, and so meets the pause between two writes of another.
LOOK_ANEW = 100
APPLICATION_ID = 0x4A424F4B  # "JBOK": tells a book from another program's database

LASTING = (
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    f"PRAGMA busy_timeout = {WAIT_SECONDS * 1000}",
    "PRAGMA secure_delete = ON",  # what is forgotten is overwritten, and not only unlinked
)


def file_engine(file: Path, *, pragmas: tuple[str, ...] = LASTING) -> Engine:
    """An engine on a SQLite file; a transaction that writes begins at once, so that two never meet half-way."""
    engine = create_engine(
        "sqlite+pysqlite://",
        creator=lambda: _connect(str(file), pragmas),
        poolclass=_queue_pool(),
    )
    event.listen(engine, "begin", _begin)
    return engine


def _queue_pool() -> Any:
    from sqlalchemy.pool import QueuePool

    return QueuePool


def _connect(file: str, pragmas: tuple[str, ...]) -> Any:
    import sqlite3

    connection = sqlite3.connect(file, isolation_level=None, check_same_thread=False, timeout=WAIT_SECONDS)
    for pragma in pragmas:
        connection.execute(pragma)
    return connection


def _begin(connection: Connection) -> None:
    if not connection.get_execution_options().get(WRITING):
        connection.exec_driver_sql("BEGIN")
        return
    patience = connection.exec_driver_sql("PRAGMA busy_timeout").scalar_one()
    connection.exec_driver_sql(f"PRAGMA busy_timeout = {min(patience, LOOK_ANEW)}")
    try:
        _begin_to_write(connection, patience // LOOK_ANEW)
    finally:
        connection.exec_driver_sql(f"PRAGMA busy_timeout = {patience}")


def _begin_to_write(connection: Connection, looks: int) -> None:
    """Raises OperationalError where the lock is not free in any of so many looks."""
    import sqlite3

    raw: Any = connection.connection.dbapi_connection
    for _ in range(looks - 1):
        try:
            raw.execute("BEGIN IMMEDIATE")
            return
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY:
                break
    connection.exec_driver_sql("BEGIN IMMEDIATE")  # its error is said as every other


def server_engine(address: str) -> Engine:
    """An engine on PostgreSQL; a body comes back as the text that was kept, and is not parsed on the way."""
    engine = create_engine(address, pool_pre_ping=True)
    event.listen(engine, "connect", _json_as_text)
    return engine


def _json_as_text(connection: Any, _record: Any) -> None:
    from psycopg.types.string import TextLoader

    connection.adapters.register_loader("json", TextLoader)
