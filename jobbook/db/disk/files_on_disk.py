"""Files by content: pictures, scan reports, documents. The name is the SHA-256 of the bytes, which stay as they came.

They are written under another name, synced, renamed, and only then named by the journal. Beside them lie small
pictures, which anybody may throw away: they are made again."""

import hashlib
import os
from pathlib import Path

from jobbook.core.errors import NotFound
from jobbook.db.disk.papers_on_disk import digest_of, sync_folder, write_whole
from jobbook.db.rows import Rows

FOLDER, SMALL = "photos", "small"
STEP = 1 << 20


def file_of(folder: Path, digest: str) -> Path:
    """Where the file with this digest lies."""
    return folder / FOLDER / digest


def small_of(folder: Path, digest: str) -> Path:
    """Where its small picture lies."""
    return folder / FOLDER / SMALL / f"{digest}.jpg"


def write_file(folder: Path, data: bytes) -> bool:
    """Write a file so that it is whole or not there. False when it was there already."""
    digest = digest_of(data)
    target = file_of(folder, digest)
    if target.exists() and digest_on_disk(target) == digest:
        return False
    write_whole(target, data)
    return True


def write_small(folder: Path, digest: str, data: bytes) -> None:
    write_whole(small_of(folder, digest), data)


def remove_file(folder: Path, digest: str) -> None:
    """Take away a file that no entry names, with its small picture."""
    file_of(folder, digest).unlink(missing_ok=True)
    small_of(folder, digest).unlink(missing_ok=True)
    if (folder / FOLDER).is_dir():
        sync_folder(folder / FOLDER)


def erase_file(folder: Path, digest: str) -> None:
    """Take away a file for good, where it lies there still: its bytes are overwritten before they go, which a disk that
    writes elsewhere each time does not promise. Raises OSError."""
    for there in (small_of(folder, digest), file_of(folder, digest)):
        if there.is_file():
            _overwrite(there)
    if file_of(folder, digest).exists() or small_of(folder, digest).exists():
        remove_file(folder, digest)


def _overwrite(file: Path) -> None:
    with file.open("r+b") as opened:
        left = file.stat().st_size
        while left > 0:
            left -= opened.write(bytes(min(left, STEP)))
        opened.flush()
        os.fsync(opened.fileno())


def digest_on_disk(file: Path) -> str:
    """The digest of a file of any size, read in steps."""
    sum_ = hashlib.sha256()
    with file.open("rb") as opened:
        while step := opened.read(STEP):
            sum_.update(step)
    return sum_.hexdigest()


def read_file(folder: Path | None, rows: Rows, digest: str) -> bytes:
    """The bytes of a kept file. Raises NotFound; whether they are unaltered is for the audit to say."""
    if folder is not None:
        file = file_of(folder, digest)
        data = file.read_bytes() if file.is_file() else None
    else:
        data = rows.value("SELECT content FROM file_content WHERE digest = :digest", digest=digest)
    if data is None:
        raise NotFound(f"The file {digest[:12]} is not in the book's folder any more; restore it from a backup.")
    return bytes(data)


def digest_as_it_lies(folder: Path | None, rows: Rows, digest: str) -> str:
    """The digest that the kept file has now. Raises NotFound."""
    if folder is None or not file_of(folder, digest).is_file():
        return digest_of(read_file(folder, rows, digest))
    return digest_on_disk(file_of(folder, digest))
