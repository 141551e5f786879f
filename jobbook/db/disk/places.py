"""Where a book lies: a folder, or the address of a PostgreSQL server; and what can be seen before it is opened."""

import os
from collections.abc import Callable
from pathlib import Path

from jobbook.core.errors import StoreUnavailable

FILE = "book.sqlite"
MAGIC = b"SQLite format 3\x00"  # the first 16 bytes of every database of SQLite 3
MOUNTS = Path("/proc/mounts")
NETWORK = (
    "nfs",
    "nfs4",
    "cifs",
    "smb3",
    "smbfs",
    "ncpfs",
    "afs",
    "ceph",
    "glusterfs",
    "fuse.sshfs",
    "fuse.davfs",
    "davfs",
)

Mounts = Callable[[], str]


def is_address(place: str | Path) -> bool:
    """Whether the place is a server's address rather than a folder."""
    return str(place).startswith("postgresql")


def read_mounts() -> str:
    """The mounted disks as Linux lists them, or nothing where the system has no such list."""
    return MOUNTS.read_text(errors="replace") if MOUNTS.exists() else ""


def refuse_network_disk(folder: Path, mounts: Mounts) -> None:
    """Refuse a folder on a network disk: machines cannot share a write-ahead log there (sqlite.org/wal.html)."""
    where = str(folder.resolve())
    best, kind = "", ""
    for line in mounts().splitlines():
        parts = line.split(" ")
        if len(parts) < 3:
            continue
        point = parts[1].replace("\\040", " ")
        inside = where == point or where.startswith(point.rstrip("/") + "/")
        if inside and len(point) >= len(best):
            best, kind = point, parts[2]
    if kind in NETWORK:
        raise StoreUnavailable(
            f"The folder {folder} lies on a network disk, where a book of one machine would be damaged: nothing was "
            "changed. Keep it on this machine's own disk, or use the shared form of the book (postgresql+psycopg://...)."
        )


def look_at(folder: Path) -> Path:
    """The book's file in that folder. Raises StoreUnavailable when there is none, or none that can be used."""
    file = folder / FILE
    if not file.is_file():
        raise StoreUnavailable(
            f"There is no book in {folder}: nothing was changed. Choose another folder, or begin a new book."
        )
    with file.open("rb") as opened:
        if opened.read(len(MAGIC)) != MAGIC:
            raise StoreUnavailable(
                f"The file {file} is no book, or it is damaged at its beginning: nothing was changed. "
                "Choose another folder, or restore a backup into a new one."
            )
    if not (os.access(file, os.W_OK) and os.access(folder, os.W_OK)):
        raise StoreUnavailable(
            f"The book in {folder} is read-only: nothing was changed. Make the folder writable for you, or copy it "
            "to a disk that is, then open it again."
        )
    return file
