"""Backing a book up while it is open: a copy of one moment in one file, looked at before it gets its name."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path

from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.core.record.backups import BOOK, FOLDERS, KEY, Manifest, Member
from jobbook.core.record.heads import Head
from jobbook.db.disk.backup_file import read_back, whole_or_not_there, write_archive
from jobbook.db.disk.keys import FILE as KEY_FILE
from jobbook.db.disk.opening import copy_whole
from jobbook.db.store import Store

UNFINISHED = (".new", ".part")
THOUSAND = 1000

Progress = Callable[[int, int], None]
Stop = Callable[[], bool]


@dataclass(frozen=True)
class Written:
    """A backup that was written and read back. `digest` is that of its bytes."""

    file: Path
    size: int
    digest: str
    manifest: Manifest


class Pace:
    """How far slow work is, told in thousandths, since a window cannot count to many bytes; it ends the work where that
    is wished."""

    def __init__(self, total: int, progress: Progress | None, stop: Stop | None, sentence: str) -> None:
        self.total, self.done = max(total, 1), 0
        self._progress, self._stop, self._sentence = progress, stop, sentence

    def tell(self, more: int) -> None:
        self.done = min(self.done + more, self.total)
        if self._progress is not None:
            self._progress(THOUSAND * self.done // self.total, THOUSAND)
        if self.stopped():
            raise Refused(self._sentence)

    def stopped(self) -> bool:
        return self._stop is not None and self._stop()


def write_backup(
    store: Store,
    target: Path,
    made_at: str,
    *,
    with_key: bool = False,
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> Written:
    """Write the book as of one moment into one file, while others go on writing the book.

    Everything that was kept before it began is in it. The file has its name only after every byte was read back; it is
    never written over another. Raises StoreUnavailable or Refused, and then leaves nothing."""
    _look_at(store, target, with_key)
    pace = Pace(2 * _bytes_of(store), progress, stop, f"The backup was stopped: nothing of {target} was left.")
    with _said_plainly(target, pace), whole_or_not_there(target) as beside:
        copy = target.with_name(f"{target.name}.part.sqlite")
        try:
            _copy(store, copy, pace)
            sources = chain([(BOOK, copy)], _beside_the_book(store, with_key))
            manifest, digest = write_archive(beside, sources, _signing(store, copy, made_at), pace.tell)
            _nothing_went_meanwhile(store, copy)
        finally:
            _remove_database(copy)
        size = beside.stat().st_size
        if read_back(beside, pace.tell) != digest:
            raise StoreUnavailable(
                f"What was written to {target} did not read back as it was written: nothing of it was left, the book "
                "is untouched. Take another disk or stick."
            )
    return Written(target, size, digest, manifest)


def _look_at(store: Store, target: Path, with_key: bool) -> None:
    if store.file is None:
        raise StoreUnavailable(
            "The server keeps the backups of this book: nothing was copied. Ask its keeper for a dump of the "
            "database; the key of this workstation lies in its key folder."
        )
    if target.exists():
        raise StoreUnavailable(f"{target} is there already: nothing was backed up. Name another file.")
    if not target.parent.is_dir():
        raise StoreUnavailable(f"There is no folder {target.parent}: nothing was backed up. Name one that is there.")
    if target.resolve().is_relative_to(store.folder.resolve()):
        raise Refused(
            "Nothing was backed up: a backup in the book's own folder is lost together with it. Take another disk or "
            "a stick."
        )
    if with_key:
        store.read_key_again()


def _bytes_of(store: Store) -> int:
    assert store.file is not None
    files = (source for _name, source in _beside_the_book(store, with_key=False))
    return store.file.stat().st_size + sum(file.stat().st_size for file in files if file.exists())


def _copy(store: Store, copy: Path, pace: Pace) -> None:
    """The copy lies beside the backup and not beside the book: a full disk must not stop the work in the bay."""
    assert store.file is not None
    _remove_database(copy)
    copy_whole(store.file, copy, pace.stopped)


def _nothing_went_meanwhile(store: Store, copy: Path) -> None:
    """A file that is erased while the photos are copied is missing beside a copy of the book that still names it."""
    assert store.file is not None
    if erasings(store.file) != erasings(copy):
        raise Refused("Something was erased while the backup was made: nothing of it was left. Back up once more.")


def erasings(file: Path) -> int:
    """How many times something was erased, as a book's file says."""
    with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as connection:
        return int(connection.execute("SELECT COUNT(*) FROM journal WHERE kind = 'erased/1'").fetchone()[0])


def _remove_database(copy: Path) -> None:
    for name in (copy.name, f"{copy.name}-journal"):
        try:
            copy.with_name(name).unlink(missing_ok=True)
        except OSError:
            continue  # the disk is gone; what lies there has no backup's name


def _beside_the_book(store: Store, with_key: bool) -> Iterator[tuple[str, Path]]:
    """Papers and photos as they lie there after the copy was made, so that whatever it names is among them."""
    if with_key:
        yield KEY, store.folder / "keys" / KEY_FILE
    for folder in FOLDERS:
        for file in sorted((store.folder / folder).rglob("*")):
            if file.is_file() and file.suffix not in UNFINISHED:
                yield file.relative_to(store.folder).as_posix(), file


def _signing(store: Store, copy: Path, made_at: str) -> Callable[[list[Member]], Manifest]:
    def finish(members: list[Member]) -> Manifest:
        manifest = Manifest(store.book_id, store.key_hex, head_of(copy), made_at, tuple(members))
        try:
            return replace(manifest, signature=store.key.sign(manifest.message).hex())
        except StoreUnavailable:
            return manifest  # a book that lost its key needs its backups all the more

    return finish


def head_of(file: Path) -> Head:
    """The head that stands in a book's file which nobody else has open."""
    with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as connection:
        size, root = connection.execute("SELECT size, root FROM head").fetchone()
    return Head(int(size), bytes(root))


@contextmanager
def _said_plainly(target: Path, pace: Pace) -> Iterator[None]:
    try:
        yield
    except sqlite3.Error as error:
        if pace.stopped():
            raise Refused(f"The backup was stopped: nothing of {target} was left.") from error
        raise _not_written(target, str(error)) from error
    except OSError as error:
        raise _not_written(target, error.strerror or "the disk reports a fault") from error


def _not_written(target: Path, why: str) -> StoreUnavailable:
    return StoreUnavailable(
        f"The backup {target} was not written ({why}): nothing was left under that name, and the book is untouched. "
        "Make room, or take another disk or stick."
    )
