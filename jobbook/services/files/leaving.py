"""Copies of files that leave the shop: without the place where a picture was taken, and with covers drawn in."""

import re
from collections.abc import Sequence
from pathlib import Path

from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.core.record.files import KeptFile
from jobbook.services.files.erasing import look_whether_erased
from jobbook.services.files.telling import content
from jobbook.services.opened import OpenBook
from jobbook.services.pictures import copy_to_leave


def copies_out(book: OpenBook, job: int, entries: Sequence[int], folder: Path) -> tuple[Path, ...]:
    """Write copies into a folder, never over another file. Pictures are painted anew; other files go as they are.

    Raises StoreUnavailable where the folder takes no more; what was written before that is taken away again."""
    with book.store.read() as reading:
        wanted = [file for file in reading.files.of_job(job) if file.entry in entries]
    for file in wanted:
        look_whether_erased(file)
    if not wanted:
        raise Refused("Nothing was copied: choose the files that are to leave.")
    done: list[Path] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for number, file in enumerate(wanted, 1):
            done.append(_write_new(folder / _name(job, number, file), _leaving(book, file)))
    except OSError as error:
        for path in done:
            path.unlink(missing_ok=True)
        raise StoreUnavailable(
            f"The copies were not written into {folder} ({error.strerror or 'its disk reports a fault'}): none of them "
            "was left there, and the book is untouched. Take another folder."
        ) from error
    return tuple(done)


def _leaving(book: OpenBook, file: KeptFile) -> bytes:
    data = content(book, file.digest)
    return copy_to_leave(data, file.called, file.marks) if file.is_picture else data


def _name(job: int, number: int, file: KeptFile) -> str:
    if file.is_picture:
        return f"job-{job}-picture-{number:02}.jpg"
    return f"job-{job}-{number:02}-{safe_name(file)}"


def safe_name(file: KeptFile) -> str:
    """A name that every system takes for a copy of this file."""
    return re.sub(r"[^\w.-]+", "-", file.called).strip("-.") or "file"


def _write_new(path: Path, data: bytes) -> Path:
    """Write a file under a name that nothing has yet."""
    stem, suffix, number = path.stem, path.suffix, 1
    while path.exists():
        number += 1
        path = path.with_name(f"{stem}-{number}{suffix}")
    try:
        path.write_bytes(data)
    except OSError:
        path.unlink(missing_ok=True)
        raise
    return path
