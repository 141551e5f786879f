"""The audit: everything in a book that can be checked from within, checked, entry by entry.

What it cannot see by itself is a book that was written anew from its first entry with a new key: that is what the heads
on papers are for (`jobbook verify`)."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sqlalchemy.exc import DBAPIError

from jobbook.core.errors import StoreUnavailable
from jobbook.core.record.files import Erasing
from jobbook.core.record.heads import Head, fingerprint, from_hex
from jobbook.core.record.journal import commitment
from jobbook.db import schema
from jobbook.db.audit_journal import Pass, look_at_entry
from jobbook.db.disk.engine import APPLICATION_ID
from jobbook.db.disk.papers_on_disk import FOLDER, digest_of
from jobbook.db.files import all_erased
from jobbook.db.journal import all_entries
from jobbook.db.rows import Rows
from jobbook.db.standings.rebuild import copy_sealed, differences, stand
from jobbook.db.standings.scratch import fresh_shape, scratch, shape_of
from jobbook.db.store import Store

MOST_FINDINGS = 200

Progress = Callable[[int, int], None]
Stop = Callable[[], bool]


@dataclass(frozen=True)
class Report:
    """What an audit saw. `complete` is false when it was stopped, or when the book could not be read to its end."""

    entries: int
    head: Head
    fingerprint: str
    papers: int
    erased: int
    findings: tuple[str, ...]
    complete: bool
    epoch: int = 1
    files_erased: tuple[Erasing, ...] = ()
    notes: tuple[str, ...] = ()  # no faults, but to be known: times of a clock that ran ahead, files that were erased

    @property
    def sound(self) -> bool:
        return self.complete and not self.findings


class _Stopped(Exception):
    """The person stopped the audit."""


def audit(store: Store, progress: Progress | None = None, stop: Stop | None = None, with_key: bool = True) -> Report:
    """Check the whole book as of one moment. `progress(done, total)` counts entries; `stop()` ends it early.

    `with_key`: false for a copy that was made without the book's key."""
    findings: list[str] = []
    notes: tuple[str, ...] = ()
    so_far = Pass(store.book_id, store.key_hex, store.folder if store.file is not None else None)
    erased, complete = 0, False
    try:
        with store.read() as book:
            rows = book.rows
            findings += _database(rows)
            findings += _journal(rows, so_far, progress or _quiet, stop or _never)
            findings += [*_head(rows, so_far), *_sealed(rows, so_far), *_papers_on_disk(so_far)]
            findings += _key(store) if with_key else []
            notes = (*(one.sentence for one in book.ahead()), *(one.words for one in so_far.files_erased.values()))
            erased = int(rows.value("SELECT COUNT(*) FROM sealed WHERE value IS NULL"))
        complete = True
    except _Stopped:
        pass
    except (StoreUnavailable, DBAPIError, LookupError, AttributeError, ValueError, TypeError) as error:
        findings.append(f"The book cannot be read to its end: {error}")
    tree, key = so_far.tree, from_hex(so_far.key, 32) or b""
    head, kept = Head(tree.size, tree.root), tuple(findings[:MOST_FINDINGS])
    told = (so_far.papers, erased, kept, complete, so_far.epoch, tuple(so_far.files_erased.values()))
    return Report(tree.size, head, fingerprint(key), *told, notes=notes)


def _quiet(_done: int, _total: int) -> None:
    """Tell nobody."""


def _never() -> bool:
    return False


def _database(rows: Rows) -> Iterator[str]:
    if tuple(schema.version(rows.connection)) != schema.VERSION:
        yield "The book says that it has another form than this program gave it."
    if not rows.on_sqlite:
        return
    told = [str(row[0]) for row in rows.connection.exec_driver_sql("PRAGMA integrity_check(10)").all()]
    yield from (f"The database file is damaged: {sentence}." for sentence in told if sentence != "ok")
    for row in rows.connection.exec_driver_sql("PRAGMA foreign_key_check").all()[:10]:
        yield f"A row of {row[0]} names something in {row[2]} that is not there."
    if rows.connection.exec_driver_sql("PRAGMA application_id").scalar() != APPLICATION_ID:
        yield "The database file does not say that it is a book."
    have, due = set(shape_of(rows.connection)), set(fresh_shape())
    for kind, name, _table, _sql in sorted(have ^ due, key=str):
        yield f"The {kind} {name} is not as in a book that is made now."


def _journal(rows: Rows, so_far: Pass, progress: Progress, stop: Stop) -> Iterator[str]:
    """One pass: each entry is looked at, and let stand in a scratch database that is compared at the end."""
    total = int(rows.value("SELECT COUNT(*) FROM journal"))
    sizes = "SELECT body -> 'payload' ->> 'size' AS size FROM journal WHERE kind = 'paper/1'"
    so_far.roots = {int(row["size"]): b"" for row in rows.all(sizes) if str(row["size"]).isdigit()}
    so_far.files_erased = all_erased(rows)
    if 0 in so_far.roots:
        so_far.roots[0] = so_far.tree.root
    with scratch() as beside:
        copy_sealed(rows, beside)
        for step in all_entries(rows):
            for entry in step:
                yield from look_at_entry(rows, so_far, entry)
                cannot = stand(beside, entry)
                if cannot:
                    yield cannot
            progress(so_far.tree.size, total)
            if stop():
                raise _Stopped
        yield from differences(rows, beside)


def _head(rows: Rows, so_far: Pass) -> Iterator[str]:
    row = rows.first("SELECT size, root, peaks FROM head")
    tree = so_far.tree
    if row is None or (row["size"], bytes(row["root"]), bytes(row["peaks"])) != (
        tree.size, tree.root, b"".join(tree.peaks)
    ):  # fmt: skip
        yield "The head of the book does not follow from its entries: entries were taken away, added or altered."
    if rows.value("SELECT COUNT(*) FROM tree") != so_far.blocks:
        yield "The tree has more or fewer blocks than its entries make."


def _sealed(rows: Rows, so_far: Pass) -> Iterator[str]:
    for row in rows.connection.exec_driver_sql("SELECT commitment, salt, value FROM sealed"):
        sealed, salt, value = row
        if value is None and salt is None:
            if sealed not in so_far.erased:
                yield f"A sealed value was erased, and no entry says why ({sealed[:12]})."
        elif commitment(str(salt), str(value)) != sealed:
            yield f"A sealed value is not as it was kept ({sealed[:12]})."


def _papers_on_disk(so_far: Pass) -> Iterator[str]:
    """Papers that no entry names may lie there after a power cut; but each has the name of its content."""
    if so_far.folder is None or not (so_far.folder / FOLDER).is_dir():
        return
    for file in sorted((so_far.folder / FOLDER).glob("*.pdf")):
        if digest_of(file.read_bytes()) != file.stem:
            yield f"The paper {file.name} is not what its name says."


def _key(store: Store) -> Iterator[str]:
    if store.file is None:
        return  # on a server only the workstations that issue papers hold the key
    try:
        store.read_key_again()
    except StoreUnavailable as error:
        yield str(error)
