"""Where things stand, rebuilt from the entries in a scratch database and compared row by row with what is kept."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import Any

from sqlalchemy import text
from sqlalchemy.exc import SQLAlchemyError

from jobbook.core.record.journal import Entry
from jobbook.db.rows import Rows
from jobbook.db.standings.standing import KINDS

# Each table with what its rows are told apart by; texts are compared byte by byte on both databases.
KEYS: dict[str, tuple[str, ...]] = {
    "shop": ("one",),
    "person": ("id",),
    "credential": ("person", "what"),
    "customer": ("id",),
    "contact": ("customer", "number"),
    "vehicle": ("id",),
    "plate": ("entry",),
    "owner": ("entry",),
    "merged": ("what", "id"),
    "job": ("number",),
    "call": ("id",),
    "concern": ("job", "number"),
    "begun": ("act",),
    "tool": ("number",),
    "part": ("id",),
    "specification": ("id",),
    "piece": ("id",),
    "fitted": ("piece",),
    "odometer": ("entry",),
    "reminder": ("id",),
    "found": ("kind", "token", "subject", "source"),
}
TEXTS: tuple[str, ...] = ("person.id", "credential.person", "credential.what", "begun.act", "tool.number", "piece.id")
TEXTS += ("fitted.piece", "found.kind", "found.token", "found.source", "merged.what")
STEP = 2000


def copy_sealed(kept: Rows, scratch: Rows) -> None:
    """The sealed values as they are now: names are found by them."""
    insert = text("INSERT INTO sealed (commitment, salt, value) VALUES (:commitment, :salt, :value)")
    for batch in _batches(kept, "SELECT commitment, salt, value FROM sealed"):
        scratch.connection.execute(insert, [dict(row) for row in batch])


def stand(scratch: Rows, entry: Entry) -> str | None:
    """Let one entry stand in the scratch database; returns a sentence when it cannot."""
    try:
        KINDS[entry.kind](scratch, entry)
    except (KeyError, TypeError, ValueError, AttributeError, SQLAlchemyError):
        return f"Entry {entry.number} does not say what an entry “{entry.kind}” has to say."
    return None


def differences(kept: Rows, scratch: Rows) -> Iterator[str]:
    """A sentence for each table that does not follow from the entries; it names the first row that differs."""
    for table, keys in KEYS.items():
        pairs = zip_longest(_ordered(kept, table, keys), _ordered(scratch, table, keys))
        first = next(((have, due) for have, due in pairs if have != due), None)
        if first is not None:
            yield f"Where things stand does not follow from the entries: {table}, {_named(*first, keys)}."


def _named(have: dict[str, Any] | None, due: dict[str, Any] | None, keys: tuple[str, ...]) -> str:
    row = have or due or {}
    what = "is not there" if have is None else "has no entry behind it" if due is None else "says something else"
    # A key is missing where the very name of its column was altered.
    return f"{', '.join(f'{key} {row.get(key)!r}' for key in keys)} {what}"


def _ordered(rows: Rows, table: str, keys: tuple[str, ...]) -> Iterator[dict[str, Any]]:
    collate = "COLLATE BINARY" if rows.on_sqlite else 'COLLATE "C"'
    order = ", ".join(f"{key} {collate}" if f"{table}.{key}" in TEXTS else key for key in keys)
    for batch in _batches(rows, f"SELECT * FROM {table} ORDER BY {order}"):
        yield from (dict(row) for row in batch)


def _batches(rows: Rows, sql: str) -> Iterator[Sequence[Any]]:
    result = rows.connection.execute(text(sql)).mappings()
    while batch := result.fetchmany(STEP):
        yield batch
