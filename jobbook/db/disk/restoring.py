"""Restoring a backup: laid into a new folder, audited there, and begun anew as another epoch; or nothing at all."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

from jobbook.core.errors import Refused, StoreUnavailable, Unreadable
from jobbook.core.record.backups import FOLDERS, Manifest, altered
from jobbook.core.record.epochs import Restoration, Skipped, margin, skipped
from jobbook.core.record.journal import Draft
from jobbook.db.audit import Report, audit
from jobbook.db.disk.backing_up import Pace, Progress, Stop
from jobbook.db.disk.backup_file import opened_archive, read_back, remove_folder, unpack
from jobbook.db.disk.left_behind import Known
from jobbook.db.disk.papers_on_disk import sync_folder
from jobbook.db.disk.places import Mounts, read_mounts, refuse_network_disk
from jobbook.db.epochs import NUMBERED, RESTORED, next_number, restorations
from jobbook.db.erasing import erase_content
from jobbook.db.rows import Rows
from jobbook.db.store import Clock, Random, Store, WritingBook, open_book

ERASED_BEFORE = "erased before the book was restored from a backup"


@dataclass(frozen=True)
class Restored:
    """What came of a restoring. `erased` counts the values and files that were erased again."""

    folder: Path
    manifest: Manifest
    report: Report
    restoration: Restoration
    skipped: tuple[Skipped, ...]
    erased: int


def restore(
    file: Path,
    folder: Path,
    known: Callable[[Manifest], Known],
    *,
    clock: Clock,
    random: Random,
    person: str = "",
    mounts: Mounts = read_mounts,
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> Restored:
    """Restore a backup into a new folder.

    `known` is asked what is known of the lost part of the book that the manifest names. Raises Altered or Unreadable
    for a file that is not whole, StoreUnavailable or Refused otherwise; and then leaves nothing of the folder."""
    _look_at(file, folder, mounts)
    pace = Pace(2 * file.stat().st_size, progress, stop, f"The restoring was stopped: nothing of {folder} was left.")
    with _said_plainly(file, folder):
        read_back(file, pace.tell)
        with opened_archive(file) as (archive, manifest), _new_folder(folder) as beside:
            unpack(archive, manifest, beside, pace.tell)
            for name in FOLDERS:
                (beside / name).mkdir(exist_ok=True)
            with open_book(beside, clock=clock, random=random, mounts=mounts) as store:
                report = _audited(store, manifest, file)
                written = _begin_an_epoch(store, manifest, known(manifest), person, clock())
            _leave_nothing_of_older_forms(beside)
    return Restored(folder, manifest, report, *written)


def _look_at(file: Path, folder: Path, mounts: Mounts) -> None:
    if not file.is_file():
        raise Unreadable(f"There is no backup {file}: nothing was restored. Name the file of a backup.")
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refused(f"{folder} is there already: nothing was restored. Name a new folder; no book is written over.")
    if not folder.absolute().parent.is_dir():
        raise StoreUnavailable(f"There is no folder {folder.parent}: nothing was restored. Make it first.")
    refuse_network_disk(folder.absolute().parent, mounts)


@contextmanager
def _new_folder(folder: Path) -> Iterator[Path]:
    """A folder beside the one that is wanted; it gets that name when the block ends, and is taken away otherwise."""
    beside = folder.absolute().with_name(f"{folder.name}.part")
    if beside.exists():
        raise Refused(f"{beside} is left of a restoring that broke off: nothing was restored. Take it away first.")
    beside.mkdir(mode=0o700)
    try:
        yield beside
        for inside in (beside, *(one for one in beside.rglob("*") if one.is_dir())):
            sync_folder(inside)
        if folder.exists():
            folder.rmdir()
        beside.rename(folder)
        sync_folder(folder.absolute().parent)
    except BaseException:
        remove_folder(beside)
        raise


@contextmanager
def _said_plainly(file: Path, folder: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise StoreUnavailable(
            f"The backup {file} was not restored ({error.strerror or 'the disk reports a fault'}): nothing of {folder} "
            "was left, and the backup is untouched. Look at both disks, and at the room on them."
        ) from error


def _audited(store: Store, manifest: Manifest, file: Path) -> Report:
    """The audit of the copy as it was backed up. Raises Altered where it finds anything."""
    if (store.book_id, store.key_hex) != (manifest.book, manifest.key):
        raise altered(str(file), "the book in it is not the one that its manifest names")
    report = audit(store, with_key=manifest.with_key)
    if report.findings:
        more = f" (and {len(report.findings) - 1} more)" if len(report.findings) > 1 else ""
        raise altered(str(file), f"the audit of the copy found: {report.findings[0].rstrip('.')}{more}")
    if report.head != manifest.head:
        raise altered(str(file), "the book in it has another head than its manifest says")
    return report


def _begin_an_epoch(
    store: Store, manifest: Manifest, known: Known, person: str, now: datetime
) -> tuple[Restoration, tuple[Skipped, ...], int]:
    with store.write(person) as tx:
        if person:
            tx.people.get(person)
        head, epoch = tx.journal.head(), len(restorations(tx.rows)) + 2
        last_entry = known.last_entry if known.last_entry > head.size else 0
        over = margin(head.size, last_entry, _opened_in_as_long(tx.rows, manifest.made_at, now))
        left_out = tuple(skipped(what, next_number(tx.rows, what) - 1, over) for what in NUMBERED)
        facts = {"epoch": epoch, "size": head.size, "root": head.hex, "made_at": manifest.made_at}
        told = {"last_entry": last_entry, "skipped": [asdict(one) for one in left_out]}
        entry = tx.keep(Draft(RESTORED, "book", facts | told))
        erased = _erase_again(tx, known)
    restoration = Restoration(entry.number, epoch, head.size, head.hex, manifest.made_at, last_entry)
    return restoration, left_out, erased


def _opened_in_as_long(rows: Rows, made_at: str, now: datetime) -> int:
    """How many jobs were opened in as long a time before the backup as lies between it and now."""
    try:
        made = datetime.fromisoformat(made_at)
        since = made - max(now - made, now - now)
    except (ValueError, TypeError, OverflowError):
        return 0
    sql = "SELECT COUNT(*) FROM job WHERE opened_at > :since"
    return int(rows.value(sql, since=since.isoformat()))


def _erase_again(tx: WritingBook, known: Known) -> int:
    back = sorted(one for one in known.erased if tx.sealed(one))
    if back:
        tx.keep(Draft("erased/1", "book", {"commitments": back, "reason": ERASED_BEFORE}, reason=ERASED_BEFORE))
    files = [digest for digest in sorted(known.files) if tx.files.is_named(digest) and not tx.files.erasing(digest)]
    for digest in files:
        erase_content(tx, digest, [], ERASED_BEFORE)
    return len(back) + len(files)


def _leave_nothing_of_older_forms(folder: Path) -> None:
    """The copy that is made when an older book is brought up to date would hold what was just erased again."""
    for copy in folder.glob("book-before-*.sqlite"):
        os.unlink(copy)
