"""A folder of this workstation that a camera or a telephone fills: what in it is not in the book yet."""

from datetime import date, datetime
from pathlib import Path

from jobbook.core.errors import Unreadable
from jobbook.db.disk.files_on_disk import digest_on_disk
from jobbook.services.opened import OpenBook

MOST = 300  # so many of the newest are looked at


def waiting_in(book: OpenBook, job: int, folder: Path) -> tuple[Path, ...]:
    """The files that came into the folder since the day the job was opened and that the book has never had, oldest
    first. What lies there stays there. Raises Unreadable where the folder cannot be read."""
    with book.store.read() as reading:
        since = datetime.fromisoformat(reading.jobs.get(job).opened_at).date()
    new = [path for path in _newest(folder) if _day(path) >= since]
    digests = {path: digest_on_disk(path) for path in new}
    with book.store.read() as reading:
        return tuple(path for path, digest in digests.items() if not reading.files.is_named(digest))


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
