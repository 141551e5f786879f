"""The file of a backup: written in one go under another name, read back to its last byte, and only then named.

What it holds is said in `core/record/backups.py`.
"""

import hashlib
import os
import shutil
import zipfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from jobbook.core.errors import Unreadable
from jobbook.core.record.backups import (
    COMMENT,
    DIGEST_SIGNS,
    FORM,
    MANIFEST,
    Manifest,
    Member,
    altered,
    read_manifest,
    write_manifest,
)
from jobbook.db.disk.papers_on_disk import sync_folder

CHUNK = 1 << 20
Tell = Callable[[int], None]  # how many more bytes are done; it raises where the work is to stop


class _Sealing:
    """What the archive is written into: it passes everything on but the last signs, in whose place the digest goes."""

    def __init__(self, file: BinaryIO) -> None:
        self._file, self._held, self.digest = file, b"", hashlib.sha256()

    def write(self, data: bytes) -> int:
        held = self._held + bytes(data)
        out, self._held = held[:-DIGEST_SIGNS], held[-DIGEST_SIGNS:]
        self.digest.update(out)
        self._file.write(out)
        return len(data)

    def flush(self) -> None:
        """Nothing waits here but the last signs."""

    def seal(self) -> str:
        self._file.write(self.digest.hexdigest().encode())
        return self.digest.hexdigest()


@contextmanager
def whole_or_not_there(target: Path) -> Iterator[Path]:
    """A name beside the target to write under; it becomes the target when the block ends, and is removed otherwise."""
    beside = target.with_name(f"{target.name}.part")
    try:
        yield beside
        beside.rename(target)
        sync_folder(target.parent)
    except BaseException:
        _remove(beside)
        raise


def _remove(file: Path) -> None:
    try:
        file.unlink(missing_ok=True)
    except OSError:
        return  # the disk is gone or read-only; what lies there has no backup's name


def write_archive(
    file: Path, sources: Iterable[tuple[str, Path]], finish: Callable[[list[Member]], Manifest], tell: Tell
) -> tuple[Manifest, str]:
    """Write the members and their manifest, synced. Returns the manifest and the digest that the file ends in.

    A source that is gone when its turn comes is left out: a paper whose write was taken back. Raises OSError."""
    with open(file, "wb", opener=_for_its_owner) as out:
        sealing = _Sealing(out)
        with zipfile.ZipFile(sealing, "w", zipfile.ZIP_STORED) as archive:  # type: ignore[call-overload]
            archive.comment = COMMENT + b"0" * DIGEST_SIGNS
            members = [member for name, source in sources if (member := _put(archive, name, source, tell))]
            manifest = finish(members)
            with archive.open(_info(MANIFEST), "w") as written:
                written.write(write_manifest(manifest))
        digest = sealing.seal()
        out.flush()
        os.fsync(out.fileno())
    return manifest, digest


def _for_its_owner(name: str, flags: int) -> int:
    """Opens a file that only its owner may read: customers' names stand in it, and sometimes the key."""
    return os.open(name, flags, 0o600)


def _info(name: str) -> zipfile.ZipInfo:
    return zipfile.ZipInfo(name)  # with the archive's first day as its time: when it was made stands in the manifest


def _put(archive: zipfile.ZipFile, name: str, source: Path, tell: Tell) -> Member | None:
    try:
        opened = source.open("rb")
    except FileNotFoundError:
        return None
    digest, size = hashlib.sha256(), 0
    with opened, archive.open(_info(name), "w", force_zip64=True) as member:
        while chunk := opened.read(CHUNK):
            digest.update(chunk)
            member.write(chunk)
            size += len(chunk)
            tell(len(chunk))
    return Member(name, size, digest.hexdigest())


def read_back(file: Path, tell: Tell) -> str:
    """The digest of a backup's bytes, which is also the one that it ends in.

    Raises Unreadable for what is cut off or no backup, Altered where a byte is not as it was written."""
    size = file.stat().st_size
    digest = hashlib.sha256()
    with file.open("rb") as opened:
        _from_the_disk_itself(opened)
        left = size - DIGEST_SIGNS
        ending = b""
        while left > 0:
            chunk = opened.read(min(CHUNK, left))
            if not chunk:
                break
            digest.update(chunk)
            ending = (ending + chunk)[-len(COMMENT) :]
            left -= len(chunk)
            tell(len(chunk))
        told = opened.read()
    if ending != COMMENT or told != digest.hexdigest().encode():
        raise _altered_or_unreadable(file, ending == COMMENT)
    return digest.hexdigest()


def _from_the_disk_itself(opened: BinaryIO) -> None:
    """Let the system forget what it holds of the file in memory, so that reading it back asks the stick."""
    if hasattr(os, "posix_fadvise"):
        os.posix_fadvise(opened.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)


def _altered_or_unreadable(file: Path, ends_like_one: bool) -> Exception:
    if ends_like_one or zipfile.is_zipfile(file):
        return altered(str(file), "its bytes do not have the digest that it ends in")
    return Unreadable(
        f"{file} is no backup of a job book, or its end is missing: nothing was restored. Take the file as it was "
        "written, or another backup."
    )


@contextmanager
def opened_archive(file: Path) -> Iterator[tuple[zipfile.ZipFile, Manifest]]:
    """A backup whose bytes were read back, and its manifest. Raises Altered."""
    try:
        with zipfile.ZipFile(file) as archive:
            names = sorted(archive.namelist())
            manifest = read_manifest(archive.read(MANIFEST), str(file))
            if names != sorted([MANIFEST, *(member.name for member in manifest.members)]):
                raise altered(str(file), "it does not hold what its manifest names")
            if manifest.signature and not manifest.is_signed:
                raise altered(str(file), "the signature of its manifest does not fit")
            yield archive, manifest
    except (zipfile.BadZipFile, KeyError, NotImplementedError) as error:
        raise altered(str(file), f"it cannot be taken apart as {FORM}") from error


def unpack(archive: zipfile.ZipFile, manifest: Manifest, folder: Path, tell: Tell) -> None:
    """Lay every member into the folder, each looked at by its digest and synced. Raises Altered."""
    for member in manifest.members:
        target = folder / member.name
        target.parent.mkdir(parents=True, exist_ok=True)
        digest = hashlib.sha256()
        with archive.open(member.name) as packed, open(target, "xb", opener=_for_its_owner) as out:
            while chunk := packed.read(CHUNK):
                digest.update(chunk)
                out.write(chunk)
                tell(len(chunk))
            out.flush()
            os.fsync(out.fileno())
        if digest.hexdigest() != member.digest or target.stat().st_size != member.size:
            raise altered(str(archive.filename), f"its member {member.name} is not the one that was backed up")


def remove_folder(folder: Path) -> None:
    """Take away a folder that was begun and not finished."""
    shutil.rmtree(folder, ignore_errors=True)
