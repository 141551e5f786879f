"""Restoring a backup, and what a person is told of it: what is lost, which numbers are left out, what to do next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from jobbook.core.errors import Refused
from jobbook.core.record.backups import Manifest
from jobbook.core.record.epochs import VERSION_MARGIN
from jobbook.core.record.heads import fingerprint
from jobbook.core.written import day
from jobbook.services.clock import Chance, Clock, system_chance, system_clock
from jobbook.services.house.backups import Running, told_by
from jobbook.services.opened import OpenBook, open_book

if TYPE_CHECKING:
    from jobbook.db.disk.left_behind import Known
    from jobbook.db.disk.restoring import Restored

MOST_LOST = 1_000_000  # more entries than a shop of this trade keeps in its lifetime: a slip of the keys


@dataclass(frozen=True)
class Witnesses:
    """What is named of the part that was lost: the highest entry printed on a paper, papers, and what is left of the
    old folder."""

    last_entry: int = 0
    papers: Sequence[Path] = ()
    left: Path | None = None


def restore(
    file: Path,
    folder: Path,
    witnesses: Witnesses = Witnesses(),
    *,
    by: str = "",
    clock: Clock = system_clock,
    chance: Chance = system_chance,
    running: Running | None = None,
) -> "Restored":
    """Restore a backup into a new folder; `by` is the short word of the person who does it, where one is named.

    Raises Altered, Unreadable, Refused or StoreUnavailable, and then leaves nothing of the folder."""
    from jobbook.db.disk.restoring import restore as restore_file

    def known(manifest: Manifest) -> "Known":
        return _known(manifest, witnesses)

    return restore_file(file, folder, known, clock=clock, random=chance, person=by, **told_by(running))


def _known(manifest: Manifest, witnesses: Witnesses) -> "Known":
    from jobbook.db.disk.left_behind import Known, left_of

    entries = [witnesses.last_entry, *(_entry_of(paper, manifest, named=True) for paper in witnesses.papers)]
    erased: frozenset[str] = frozenset()
    files: frozenset[str] = frozenset()
    if witnesses.left is not None:
        found = left_of(witnesses.left, manifest.book)
        left = sorted((witnesses.left / "papers").glob("*.pdf"))
        entries += [_entry_of(paper, manifest, named=False) for paper in left]
        entries += [found.last_entry] if found is not None else []
        erased, files = (found.erased, found.files) if found is not None else (erased, files)
    last = max(entries)
    if last > manifest.head.size + MOST_LOST:
        raise Refused(
            f"Nothing was restored: entry {last} is far beyond what the backup holds. Look at the paper again."
        )
    return Known(last, erased, files)


def _entry_of(paper: Path, manifest: Manifest, named: bool) -> int:
    """The entry by which a paper of this book left: the one after its head. Papers that only lie there may be
    anything; one that was named must be this book's."""
    from jobbook.paperwork.seal import check_seal

    seal = check_seal(paper.read_bytes()).seal if paper.is_file() else None
    fits = seal is not None and (seal.facts.book, seal.facts.key) == (manifest.book, manifest.key)
    sealed = fits and check_seal(paper.read_bytes()).state == "consistent"
    if seal is not None and sealed and seal.facts.kind == "paper":
        return seal.facts.entry + 1
    if named:
        raise Refused(f"Nothing was restored: {paper} is no unaltered paper that left this book. Name another.")
    return 0


def sentences(restored: "Restored", witnesses: Witnesses = Witnesses()) -> Iterator[str]:
    """What is to be told of a restoring, the most important first."""
    manifest, report = restored.manifest, restored.report
    size = manifest.head.size
    yield (
        f"The book {manifest.book} stands in {restored.folder} as it was on {_moment(manifest.made_at)}, after entry "
        f"{size}. The audit of the copy found {report.entries} entries and {report.papers} papers, all sound. "
        f"Key {fingerprint(bytes.fromhex(manifest.key))}: compare with a paper."
    )
    yield _gap(restored)
    yield from _numbers(restored)
    restoration = restored.restoration
    yield f"Epoch {restoration.epoch} of the book begins with entry {restoration.entry}."
    yield _erased(restored, witnesses)
    if not manifest.with_key:
        yield (
            "The book's key was not in the backup: the book can be worked with, but no paper can leave it. Put your "
            f"copy of the key back as {restored.folder / 'keys' / 'book.pem'}."
        )
    if not manifest.signature:
        yield (
            "The backup is not signed, because the book had lost its key when it was made: that nobody exchanged it "
            "rests on where it was kept."
        )


def _moment(iso: str) -> str:
    try:
        moment = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{day(moment)} at {moment:%H:%M}"


def _gap(restored: "Restored") -> str:
    size, last = restored.restoration.size, restored.restoration.last_entry
    if not last:
        return (
            f"Whatever was entered after entry {size} is missing, and how much that is nobody told: look at the foot "
            "of the newest paper that left. What customers and the bay still know of it is to be entered anew."
        )
    many = f"Entries {size + 1} to {last} are" if last > size + 1 else f"Entry {last} is"
    return (
        f"{many} missing, and there may have been later ones: {last - size} entries lost at least. Papers in the hands "
        "of customers may name them; what is still known of them is to be entered anew."
    )


def _numbers(restored: "Restored") -> Iterator[str]:
    parts = ", ".join(f"{one.what} numbers {one.first} to {one.last}" for one in restored.skipped)
    following = ", ".join(f"{one.what} {one.next}" for one in restored.skipped)
    yield (
        f"{parts[:1].upper()}{parts[1:]} may have been given in the lost part and are left out: next come {following}. "
        f"A paper of a job from before goes on {VERSION_MARGIN} versions higher."
    )


def _erased(restored: "Restored", witnesses: Witnesses) -> str:
    if restored.erased:
        return f"{restored.erased} values or files that had been erased after the backup were erased again."
    if witnesses.left is None:
        return (
            "What was erased after the backup for somebody is back, since nothing of the old folder was named: "
            "look at the requests that you were sent, and erase it again."
        )
    return (
        "Nothing that could be read in the old folder had been erased after the backup; where its file cannot be "
        "read, look at the requests that you were sent."
    )


def restore_and_open(
    file: Path,
    place: Path,
    witnesses: Witnesses = Witnesses(),
    *,
    clock: Clock = system_clock,
    chance: Chance = system_chance,
    running: Running | None = None,
) -> tuple[OpenBook, tuple[str, ...]]:
    """Restore where no book lies yet, and open it; with it what is to be told. Raises as `restore` does."""
    place.absolute().parent.mkdir(parents=True, exist_ok=True)
    restored = restore(file, place, witnesses, clock=clock, chance=chance, running=running)
    return open_book(place, clock=clock, chance=chance), tuple(sentences(restored, witnesses))


def read_entry(typed: str) -> int:
    """The number of an entry as it is printed at the foot of a paper; nothing typed is 0."""
    digits = "".join(typed.split())
    if digits and not (digits.isascii() and digits.isdigit() and len(digits) < 12):
        raise Refused(f"“{typed.strip()}” is no number of an entry; nothing was restored. It stands at a paper's foot.")
    return int(digits or 0)
