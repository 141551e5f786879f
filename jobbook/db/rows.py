"""Rows from SQL: a thin door to one connection, the same for SQLite and PostgreSQL."""

import json
from collections.abc import Sequence
from dataclasses import MISSING, fields
from functools import lru_cache
from typing import Any, TypeVar

from sqlalchemy import Connection, CursorResult, RowMapping, TextClause, text

from jobbook.core.errors import NotFound

Record = TypeVar("Record")


@lru_cache(maxsize=1024)
def _prepared(sql: str) -> TextClause:
    return text(sql)


class Rows:
    """Statements on one connection, inside the transaction that the store has begun; it lives no longer than that."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.on_sqlite = connection.dialect.name == "sqlite"

    def _said(self, sql: str, values: dict[str, Any]) -> CursorResult[Any]:
        if self.on_sqlite:
            # SQLite's own driver reads :name too; going past the compiler saves a sixth of a sign-off's time.
            return self.connection.exec_driver_sql(sql, values)
        return self.connection.execute(_prepared(sql), values)

    def all(self, sql: str, **values: Any) -> Sequence[RowMapping]:
        return self._said(sql, values).mappings().all()

    def first(self, sql: str, **values: Any) -> RowMapping | None:
        return self._said(sql, values).mappings().first()

    def one(self, what: str, sql: str, **values: Any) -> RowMapping:
        """The first row. Raises NotFound in the words for it: "call 3"."""
        row = self.first(sql, **values)
        if row is None:
            raise NotFound(f"There is no {what} in the book; nothing was changed.")
        return row

    def value(self, sql: str, **values: Any) -> Any:
        """The first column of the first row, or None."""
        return self._said(sql, values).scalar()

    def run(self, sql: str, **values: Any) -> None:
        self._said(sql, values)


def record(kind: type[Record], facts: dict[str, Any]) -> Record:
    """A record of `core` from the facts that it has fields for; lists become tuples, and its defaults fill the rest.

    A text that the entry does not hold is empty: an old entry never makes a job unreadable."""
    known = fields(kind)  # type: ignore[arg-type]
    texts = {field.name: "" for field in known if field.default is MISSING and field.type in (str, str | None)}
    names = {field.name for field in known}
    return kind(**texts | {k: tuple(v) if isinstance(v, list) else v for k, v in facts.items() if k in names})


def payload_of(body: str) -> dict[str, Any]:
    """The payload of an entry's body."""
    payload: dict[str, Any] = json.loads(body)["payload"]
    return payload


def unsealed(commitment: str, value: str | None) -> str | None:
    """A sealed value as records carry it: "" where none was given, None where it was erased."""
    return "" if commitment == "" else value
