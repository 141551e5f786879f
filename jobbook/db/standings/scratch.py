"""A scratch database of the same shape: to compare a book's shape with, and to rebuild where things stand in."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

from sqlalchemy import Connection, Engine, create_engine
from sqlalchemy.pool import StaticPool

from jobbook.db import schema
from jobbook.db.rows import Rows

MASTER = "SELECT type, name, tbl_name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_stat%' ORDER BY type, name"

Shape = tuple[tuple[str, str, str, str | None], ...]


def _engine(place: str) -> Engine:
    connection = sqlite3.connect(place, isolation_level=None, check_same_thread=False)
    return create_engine("sqlite+pysqlite://", creator=lambda: connection, poolclass=StaticPool)


def shape_of(connection: Connection) -> Shape:
    """Every table, index, view and trigger with its text, as SQLite keeps it."""
    return tuple((r[0], r[1], r[2], r[3]) for r in connection.exec_driver_sql(MASTER).all())


@lru_cache(maxsize=1)
def fresh_shape() -> Shape:
    """The shape of a book that is made now, by the migrations."""
    engine = _engine(":memory:")
    with engine.begin() as connection:
        schema.bring_up(connection)
        shape = shape_of(connection)
    engine.dispose()
    return shape


@contextmanager
def scratch() -> Iterator[Rows]:
    """An empty database of a fresh book's shape that is gone afterwards; it spills to disk when it grows large."""
    engine = _engine("")
    try:
        with engine.connect() as connection:
            connection.exec_driver_sql("PRAGMA synchronous = OFF")
            connection.exec_driver_sql("PRAGMA journal_mode = OFF")
            connection.exec_driver_sql("BEGIN")
            for kind, name, _table, sql in sorted(fresh_shape(), key=lambda row: row[0] != "table"):
                if sql is not None and kind in ("table", "index") and not name.startswith("sqlite_"):
                    connection.exec_driver_sql(sql)
            yield Rows(connection)
    finally:
        engine.dispose()
