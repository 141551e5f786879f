"""Seeing what other programs write into the same book."""

import sqlite3
from pathlib import Path
from threading import Lock

from sqlalchemy import Engine, text

KINDS = "SELECT number, kind FROM journal WHERE number > :seen ORDER BY number"


class Watch:
    """Remembers how far this program has seen the journal; its own entries are not news to it."""

    def __init__(self, engine: Engine, file: Path | None) -> None:
        self._engine, self._lock = engine, Lock()
        self._own: set[int] = set()
        # A connection of its own: the counter tells of every commit but those made on the connection that asks.
        self._asking = sqlite3.connect(file, isolation_level=None, check_same_thread=False) if file else None
        self._version = self._data_version()
        with engine.connect() as connection:
            self._seen = int(connection.execute(text("SELECT size FROM head")).scalar() or 0)

    def _data_version(self) -> int:
        if self._asking is None:
            return -1
        return int(self._asking.execute("PRAGMA data_version").fetchone()[0])

    def wrote(self, numbers: list[int]) -> None:
        with self._lock:
            self._own |= set(numbers)

    def look(self) -> set[str]:
        """The kinds of the entries that others have kept since the last look."""
        with self._lock:
            version = self._data_version()
            if version == self._version and version >= 0:
                return set()
            self._version = version
            with self._engine.connect() as connection:
                news = connection.execute(text(KINDS), {"seen": self._seen}).all()
            kinds = {kind for number, kind in news if number not in self._own}
            self._seen = max([self._seen, *(number for number, _ in news)])
            self._own = {number for number in self._own if number > self._seen}
            return kinds

    def close(self) -> None:
        if self._asking is not None:
            self._asking.close()
