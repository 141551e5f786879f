"""Papers by content: the name is the SHA-256 of the bytes. Written under another name, synced, renamed, then named."""

import hashlib
import os
from pathlib import Path

from jobbook.core.errors import NotFound
from jobbook.db.rows import Rows

FOLDER = "papers"


def digest_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def file_of(folder: Path, digest: str) -> Path:
    """Where the paper with this digest lies."""
    return folder / FOLDER / f"{digest}.pdf"


def write_paper(folder: Path, data: bytes) -> Path | None:
    """Write a paper so that it is whole or not there. Returns its file, or None when it was there already."""
    target = file_of(folder, digest_of(data))
    if target.exists() and target.read_bytes() == data:
        return None
    write_whole(target, data)
    return target


def write_whole(target: Path, data: bytes) -> None:
    """Write under another name, sync, rename. Whatever goes wrong, nothing half-written is left."""
    target.parent.mkdir(parents=True, exist_ok=True)
    beside = target.with_suffix(".new")
    try:
        with beside.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        beside.replace(target)
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    sync_folder(target.parent)


def sync_folder(folder: Path) -> None:
    """Make names in a folder last through a power cut, where the system lets folders be synced."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def read_paper(folder: Path | None, rows: Rows, digest: str) -> bytes:
    """The bytes of a kept paper. Raises NotFound; whether they are unaltered is for the audit to say."""
    if folder is not None:
        file = file_of(folder, digest)
        data = file.read_bytes() if file.is_file() else None
    else:
        data = rows.value("SELECT content FROM paper_content WHERE digest = :digest", digest=digest)
    if data is None:
        raise NotFound(f"The paper {digest[:12]} is not in the book's folder any more; restore it from a backup.")
    return bytes(data)
