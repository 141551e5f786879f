"""`jobbook backup` and `jobbook restore`. Exit status 1 where a backup was altered, 2 for whatever else is refused."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from jobbook.command_words import AS_JSON, plainly, say

if TYPE_CHECKING:
    from jobbook.db.disk.backing_up import Written
    from jobbook.db.disk.restoring import Restored

FILE = click.Path(path_type=Path)


@click.command()
@click.argument("book")
@click.argument("file", type=FILE)
@click.option("--with-key", is_flag=True, help="Put the book's key in too: lock such a file away.")
@click.option("--by", "person", default="", help="Who does it: a person's short word in the book.")
@AS_JSON
@plainly
def backup(book: str, file: Path, with_key: bool, person: str, as_json: bool) -> int:
    """Back BOOK up into one FILE, or into a folder, while it is open. Nothing is written over."""
    from jobbook.services.house import backups
    from jobbook.services.house.people import get_person
    from jobbook.services.opened import open_book

    opened = open_book(book)
    try:
        who = get_person(opened, person) if person else None
        written = backups.back_up(opened, who, file, with_key=with_key)
    finally:
        opened.close()
    head = written.manifest.head
    words = [
        f"{written.file}: the book up to entry {head.size}, {len(written.manifest.members)} files, {written.size} "
        "bytes, written and read back.",
        backups.KEY_WORDS if with_key else backups.NO_KEY_WORDS,
    ]
    say(as_json, _backup_facts(written), words)
    return 0


def _backup_facts(written: "Written") -> dict[str, Any]:
    manifest = written.manifest
    return {
        "file": str(written.file), "book": manifest.book, "made_at": manifest.made_at, "entries": manifest.head.size,
        "head": manifest.head.hex, "files": len(manifest.members), "bytes": written.size, "sha256": written.digest,
        "with_key": manifest.with_key, "signed": bool(manifest.signature),
    }  # fmt: skip


@click.command()
@click.argument("file", type=FILE)
@click.argument("folder", type=FILE)
@click.option("--last-entry", type=click.IntRange(min=0), default=0, help="The highest entry printed on a paper.")
@click.option("--paper", "papers", type=FILE, multiple=True, help="A paper that left after the backup; more than one.")
@click.option("--left", type=FILE, help="What is left of the old book's folder.")
@click.option("--by", "person", default="", help="Who does it: a person's short word in the book.")
@AS_JSON
@plainly
def restore(
    file: Path, folder: Path, last_entry: int, papers: tuple[Path, ...], left: Path | None, person: str, as_json: bool
) -> int:
    """Restore the backup FILE into a new FOLDER, audit it there, and begin another epoch of the book."""
    from jobbook.services.house import restoring

    witnesses = restoring.Witnesses(last_entry, papers, left)
    restored = restoring.restore(file, folder, witnesses, by=person)
    words = list(restoring.sentences(restored, witnesses))
    say(as_json, _restored_facts(restored) | {"told": words}, words)
    return 0


def _restored_facts(restored: "Restored") -> dict[str, Any]:
    manifest, restoration = restored.manifest, restored.restoration
    missing = max(restoration.last_entry - restoration.size, 0) if restoration.last_entry else None
    return {
        "folder": str(restored.folder), "book": manifest.book, "made_at": manifest.made_at,
        "entries": restoration.size, "last_entry": restoration.last_entry or None, "missing": missing,
        "epoch": restoration.epoch, "entry": restoration.entry, "erased_again": restored.erased,
        "skipped": {one.what: [one.first, one.last] for one in restored.skipped},
        "next": {one.what: one.next for one in restored.skipped},
        "with_key": manifest.with_key, "signed": bool(manifest.signature), "papers": restored.report.papers,
    }  # fmt: skip
