"""An import kept: prepared outside the lock, then a few rows at a time, so that nobody waits for it.

First every row is laid down beside the journal. Then one entry says that the import has begun, and from there on it
will be finished: by this program, or by the next that opens the book. Before that entry the book holds none of it."""

from collections import Counter
from dataclasses import dataclass, replace

from jobbook.core.errors import Conflict, Refused
from jobbook.core.lists.known import Known
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.db import importing as waiting
from jobbook.db.store import Book
from jobbook.services.clock import Pace
from jobbook.services.house.people import as_now
from jobbook.services.lists.keeping import Putting
from jobbook.services.lists.loading import follow, load
from jobbook.services.lists.planning import BEGUN, Plan, Running, look_whether_stopped
from jobbook.services.opened import OpenBook

ENDED = "import-ended/1"
LAID_AT_ONCE = 1000
MOST_AT_ONCE, FIRST_AT_ONCE, LEAST_AT_ONCE = 50, 10, 4  # rows in one write
WRITE_SECONDS = 0.02  # as long as one write is to hold the lock
# SQLite looks again for a lock after 1, 2, 5, 10, 15, 20 and 25 ms (its default busy handler), so whoever began to wait
# during such a write looks at least once during a pause of this length.
PAUSE_SECONDS = 0.026
SYSTEM = Pace()


@dataclass(frozen=True)
class Import:
    """An import that has begun. `waits`: how many of its rows are not kept yet."""

    name: str
    kind: str
    file: str
    rows: int
    person: str
    entry: int
    waits: int = 0


@dataclass(frozen=True)
class Done:
    """What an import came to in this run."""

    file: str
    new: int = 0
    changed: int = 0
    same: int = 0


def keep(
    book: OpenBook,
    who: Person | None,
    planned: Plan,
    *,
    good_rows: bool = False,
    pace: Pace = SYSTEM,
    running: Running | None = None,
) -> Done:
    """Keep what was planned: all of it, or nothing. `who` may be nobody, on the command line.

    Refused while something is wrong with a row, unless `good_rows` leaves such rows out."""
    if planned.findings and not good_rows:
        raise Refused(
            f"Nothing was taken in: something is wrong with {_rows(planned.left_out)}. "
            "Put the list right, or leave those rows out."
        )
    same = planned.counts.get("same", 0)
    if who is not None:
        with book.store.read() as reading:
            as_now(reading, who, "desk")
    if not planned.rows:
        return Done(planned.listed.name, same=same)
    name = f"{book.now()} {book.chance(8).hex()}"
    _clear(book, name[:10], pace)
    begun = _begin(book, who, planned, name, pace, running)
    done = go_on(book, begun, pace=pace, running=running)
    return replace(done, same=done.same + same)


def _rows(count: int) -> str:
    return "one row" if count == 1 else f"{count} rows"


def _begin(book: OpenBook, who: Person | None, planned: Plan, name: str, pace: Pace, running: Running | None) -> Import:
    """Lay the rows down in short writes; with the last one the import has begun."""
    rows = [(row.number, row.facts) for row in planned.rows]
    person = who.id if who is not None else ""
    for start in range(0, len(rows), LAID_AT_ONCE):
        look_whether_stopped(running, 0, len(rows))
        with book.store.write(person) as tx:
            waiting.lay_down(tx, name, rows[start : start + LAID_AT_ONCE])
        pace.pause(PAUSE_SECONDS)
    with book.store.write(person) as tx:
        if who is not None:
            as_now(tx, who, "desk")
        if waiting.count(tx, name) != len(rows):
            raise Conflict("Another program cleared away what was prepared: nothing was taken in. Do it again.")
        return _import_of(tx.keep(_begun_draft(planned, name)), len(rows))


def _begun_draft(planned: Plan, name: str) -> Draft:
    listed = planned.listed
    facts = {
        "import": name, "list": planned.kind, "file": listed.name, "digest": listed.digest,
        "headings": list(listed.headings), "mapped": list(planned.mapped), "rows": len(planned.rows),
        "left_out": planned.left_out, **{what: planned.counts.get(what, 0) for what in ("new", "changed", "same")},
    }  # fmt: skip
    return Draft(BEGUN, "book", facts)


def _import_of(entry: Entry, waits: int) -> Import:
    told = entry.payload
    return Import(told["import"], told["list"], told["file"], told["rows"], entry.entered_by, entry.number, waits)


def unfinished(book: OpenBook) -> tuple[Import, ...]:
    """Imports that began and broke off: they are to be gone on with."""
    with book.store.read() as reading:
        ended = {entry.payload["import"] for entry in reading.journal.entries(kind=ENDED)}
        begun = [entry for entry in reading.journal.entries(kind=BEGUN) if entry.payload["import"] not in ended]
        return tuple(_import_of(entry, waiting.count(reading, entry.payload["import"])) for entry in begun)


def go_on(book: OpenBook, begun: Import, *, pace: Pace = SYSTEM, running: Running | None = None) -> Done:
    """Keep the rows that wait, until none does. It may be called by several programs at once: each row is kept once.

    Refused where the program ends meanwhile; the rows that are left wait for the next one."""
    counts, at_once = Counter[str](), FIRST_AT_ONCE
    if running is not None:
        running.hold()
    known, since = _read(book, begun.kind)
    while True:
        kept = _some(book, begun, known, since, at_once, pace)
        if kept is None:
            known, since = _read(book, begun.kind)
            continue
        counts, since = counts + kept.counts, kept.size
        if not kept.is_left:
            return Done(begun.file, counts["new"], counts["changed"], counts["same"])
        _say_how_far(begun, counts.total(), running)
        at_once = max(LEAST_AT_ONCE, min(MOST_AT_ONCE, round(at_once * WRITE_SECONDS / max(kept.took, 1e-6))))
        pace.pause(PAUSE_SECONDS)


def _say_how_far(begun: Import, kept: int, running: Running | None) -> None:
    if running is None:
        return
    running.report(min(begun.rows, begun.rows - begun.waits + kept), begun.rows)
    if running.cancelled:
        raise Refused(f"The import of {begun.file} rests, and goes on when the book is opened next.")


def _read(book: OpenBook, kind: str) -> tuple[Known, int]:
    with book.store.read() as reading:
        return load(reading, kind)


@dataclass(frozen=True)
class _Kept:
    """One write: how many entries the book has now, what the rows came to, whether any is left, and the seconds that
    the rows took while the lock was held."""

    size: int
    counts: Counter[str]
    is_left: bool
    took: float


def _some(book: OpenBook, begun: Import, known: Known, since: int, at_once: int, pace: Pace) -> _Kept | None:
    """Keep the next rows in one write. None where the book must be read again first; nothing was kept then."""
    with book.store.write(begun.person) as tx:
        start = pace.timer()
        if not follow(tx, known, begun.kind, since):
            return None
        rows = waiting.waiting(tx, begun.name, at_once)
        putting = Putting(tx, known, begun.kind)
        counts = Counter(putting.put(facts) for _, facts in rows)
        if rows:
            waiting.done_up_to(tx, begun.name, rows[-1][0])
        is_left = waiting.is_left(tx, begun.name)
        if not is_left and not _has_ended(tx, begun):
            tx.keep(Draft(ENDED, "book", {"import": begun.name}))
        return _Kept(tx.journal.head().size, counts, is_left, pace.timer() - start)


def _has_ended(book: Book, begun: Import) -> bool:
    ended = book.journal.entries(kind=ENDED, after=begun.entry)
    return any(entry.payload["import"] == begun.name for entry in ended)


def _clear(book: OpenBook, today: str, pace: Pace) -> None:
    """Throw away the rows of imports that were stopped before they began, on an earlier day."""
    with book.store.read() as reading:
        begun = {entry.payload["import"] for entry in reading.journal.entries(kind=BEGUN)}
        stale = [name for name in waiting.names(reading) if name not in begun and name[:10] < today]
    for name in stale:
        left = 1
        while left:
            with book.store.write("") as tx:
                left = waiting.drop(tx, name, LAID_AT_ONCE)
            pace.pause(PAUSE_SECONDS)
