"""The store of one book: `read()` and `write(person)` are its two doors."""

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from datetime import datetime
from functools import cached_property
from pathlib import Path

from sqlalchemy import Engine, text
from sqlalchemy.exc import DBAPIError

from jobbook.core.errors import StoreUnavailable
from jobbook.db.book import Book, Givens
from jobbook.db.disk import opening
from jobbook.db.disk.engine import WRITING
from jobbook.db.disk.files_on_disk import erase_file, remove_file, write_file
from jobbook.db.disk.keys import Key, read_key
from jobbook.db.disk.making import make
from jobbook.db.disk.papers_on_disk import digest_of
from jobbook.db.disk.places import Mounts, read_mounts
from jobbook.db.disk.troubles import disk_said_plainly, opening_said_plainly, said_plainly
from jobbook.db.disk.watching import Watch
from jobbook.db.files import all_erased
from jobbook.db.rows import Rows
from jobbook.db.writing import WritingBook

__all__ = ["Book", "Clock", "Random", "Store", "WritingBook", "create_book", "is_book", "open_book"]

Clock = Callable[[], datetime]
Random = Callable[[int], bytes]
Listener = Callable[[set[str]], None]

is_book = opening.is_book


class Store:
    """An open book. It lives from `open_book` or `create_book` until `close`; it may be used from several threads."""

    def __init__(self, place: str | Path, engine: Engine, clock: Clock, random: Random, keys: Path) -> None:
        self.place = place
        self._engine, self._clock, self._random, self._keys = engine, clock, random, keys
        self._listeners: list[Listener] = []
        self.file = opening.file_of(place)  # the book's file, or None on a server
        # The book's folder; on a server, the folder that holds the keys of this workstation.
        self.folder = Path(place) if self.file is not None else keys.parent
        with opening_said_plainly(place):
            self.book_id, self.key_hex = opening.identity(engine)
            self._watch = Watch(engine, self.file)
        self._givens = self._given()

    @cached_property
    def key(self) -> Key:
        """The book's key. Raises StoreUnavailable where this workstation has none, or another book's."""
        return self.read_key_again()

    def read_key_again(self) -> Key:
        """The key as it lies there now, for the audit."""
        key = read_key(self._keys)
        if key.hex != self.key_hex:
            raise StoreUnavailable(
                f"The key in {self._keys} is not this book's ({key.fingerprint}): nothing was signed. "
                "Put the book's own key back from a backup."
            )
        return key

    def _given(self) -> Givens:
        folder = self.folder if self.file is not None else None
        return Givens(self.book_id, lambda: self.key, folder, self._clock, self._random)

    @contextmanager
    def read(self) -> Iterator[Book]:
        """A reading of one moment; what others write meanwhile is not in it."""
        options = {} if self.file is not None else {"isolation_level": "REPEATABLE READ"}
        with said_plainly(self.place), self._engine.connect().execution_options(**options) as connection:
            yield Book(Rows(connection), self._givens)

    @contextmanager
    def write(self, person: str) -> Iterator[WritingBook]:
        """A write by that person: kept whole when the block ends; nothing is kept when it raises."""
        with said_plainly(self.place), self._engine.connect().execution_options(**{WRITING: True}) as connection:
            connection.begin()
            book = WritingBook(Rows(connection), self._givens, person)
            try:
                yield book
                book.finish()
                connection.commit()
            except BaseException:
                connection.rollback()
                book.take_back_papers()
                raise
        self._watch.wrote(book.numbers)
        self._tell(set(book.kinds))
        self._remove_erased(book.files_erased)
        if book.forgotten:
            self._overwrite_what_was_forgotten()

    def remove_what_was_erased(self) -> None:
        """Take away the contents whose erasing was kept just before the power went. What cannot be taken away now is
        found by the audit."""
        with self.read() as book:
            erased = list(all_erased(book.rows))
        with suppress(StoreUnavailable):
            self._remove_erased(erased)

    def _remove_erased(self, digests: Sequence[str]) -> None:
        """From the book's folder; of a book on a server, the small pictures that lie beside this workstation."""
        try:
            for digest in digests:
                erase_file(self.folder, digest)
        except OSError as error:
            raise StoreUnavailable(
                f"The book says that the file is erased, but its bytes still lie in {self.folder} "
                f"({error.strerror or 'the disk reports a fault'}): they go when the book is opened again."
            ) from error

    def _overwrite_what_was_forgotten(self) -> None:
        """Let no copy of an erased value wait in the write-ahead log; another program's reading may put it off."""
        if self.file is None:
            return
        try:
            with self._engine.connect() as connection:
                raw = connection.connection.dbapi_connection
                assert raw is not None
                raw.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")
        except (DBAPIError, sqlite3.Error) as error:
            raise StoreUnavailable(
                f"What was to be forgotten is forgotten in the book at {self.place}, but a copy may stand in its log: "
                "close every program that has the book open, and open it again."
            ) from error

    def lay(self, data: bytes) -> bool:
        """Lay a file into the book before an entry names it by its digest; nobody's write waits meanwhile.

        False where it was there already. Raises StoreUnavailable, and then leaves nothing of it."""
        if self.file is not None:
            with disk_said_plainly(self.place):
                return write_file(self.folder, data)
        with said_plainly(self.place), self._engine.begin() as connection:
            sql = "INSERT INTO file_content (digest, content) VALUES (:digest, :content) ON CONFLICT DO NOTHING"
            return connection.execute(text(sql), {"digest": digest_of(data), "content": data}).rowcount > 0

    def take_back(self, digest: str) -> None:
        """Take away a file that was laid into the book and that no entry came to name."""
        with self.read() as book:
            if book.files.is_named(digest) and book.files.erasing(digest) is None:
                return
        if self.file is not None:
            remove_file(self.folder, digest)
            return
        with said_plainly(self.place), self._engine.begin() as connection:
            connection.execute(text("DELETE FROM file_content WHERE digest = :digest"), {"digest": digest})

    def on_change(self, tell: Listener) -> None:
        """Call `tell` with the kinds touched, after each commit of this program and at `poll` for those of others."""
        self._listeners.append(tell)

    def poll(self) -> set[str]:
        """The kinds that other programs have kept since the last look; the listeners are told too."""
        with said_plainly(self.place):
            kinds = self._watch.look()
        self._tell(kinds)
        return kinds

    def _tell(self, kinds: set[str]) -> None:
        for tell in list(self._listeners) if kinds else ():
            tell(set(kinds))

    def backup(self, file: Path) -> None:
        """Write a whole copy of the book's file while it is in use. Never over another file."""
        if self.file is None:
            raise StoreUnavailable("The server keeps the backups of this book: nothing was copied. Ask its keeper.")
        with disk_said_plainly(file):
            opening.copy_whole(self.file, file)

    def close(self) -> None:
        self._watch.close()
        self._engine.dispose()

    def __enter__(self) -> "Store":
        return self

    def __exit__(self, *_error: object) -> None:
        self.close()


def create_book(
    place: str | Path, *, clock: Clock, random: Random, mounts: Mounts = read_mounts, keys: Path | None = None
) -> Store:
    """Create a book with its key, and open it. A book that is there but empty is begun again.

    `place` is a folder (made when missing) or a server's address; on a server `keys` is this workstation's key folder.
    Raises StoreUnavailable, and then leaves nothing half-made."""
    with opening_said_plainly(place):
        opening.refuse_another(place)
        make(place, random, mounts, opening.key_folder(place, keys))
    return open_book(place, clock=clock, random=random, mounts=mounts, keys=keys)


def open_book(
    place: str | Path, *, clock: Clock, random: Random, mounts: Mounts = read_mounts, keys: Path | None = None
) -> Store:
    """Open the book at that place; an older one is copied first and brought up to date. Raises StoreUnavailable."""
    with opening_said_plainly(place):
        engine = opening.ready(place, mounts)
    try:
        store = Store(place, engine, clock, random, opening.key_folder(place, keys))
        store.remove_what_was_erased()
        return store
    except BaseException:
        engine.dispose()
        raise
