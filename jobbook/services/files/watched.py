"""A folder of this workstation that a camera or a telephone fills: what in it is not in the book yet."""

from datetime import date, datetime
from pathlib import Path

from jobbook.core.errors import Unreadable
from jobbook.db.disk.files_on_disk import digest_on_disk
from jobbook.services.opened import OpenBook

MOST = 300  # so many of the newest are looked at
SETTLED_SECONDS = 2.0  # what was written to within this time is taken for half-written


def waiting_in(book: OpenBook, job: int, folder: Path) -> tuple[tuple[Path, ...], int]:
    """The files that came into the folder since the day the job was opened and that the book has never had, oldest
    first, and how many more are still being written. What lies there stays there. Raises Unreadable where the folder
    cannot be read."""
    with book.store.read() as reading:
        since = datetime.fromisoformat(reading.jobs.get(job).opened_at).date()
    new = [path for path in _newest(folder) if _day(path) >= since]
    whole = [path for path in new if abs(book.clock().timestamp() - path.stat().st_mtime) >= SETTLED_SECONDS]
    digests = {path: digest_on_disk(path) for path in whole}
    with book.store.read() as reading:
        there = tuple(path for path, digest in digests.items() if not reading.files.is_named(digest))
    return there, len(new) - len(whole)


def _newest(folder: Path) -> list[Path]:
    try:
        there = [(path.stat().st_mtime, path) for path in folder.iterdir() if _counts(path)]
    except OSError as error:
        raise Unreadable(
            f"The folder {folder} cannot be read ({error.strerror}): nothing was taken from it. Choose another."
        ) from error
    return [path for _, path in sorted(there)[-MOST:]]


def _counts(path: Path) -> bool:
    return path.is_file() and not path.name.startswith(".") and path.stat().st_size > 0


def _day(path: Path) -> date:
    return datetime.fromtimestamp(path.stat().st_mtime).astimezone().date()
