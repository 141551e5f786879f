"""Head, append and proof of a long journal, beside the least that would do by plain sqlite3 and hashlib."""

import sqlite3
from hashlib import sha256

from jobbook.core.record.journal import Draft, verify_inclusion
from jobbook.core.record.tree import BLOCK
from jobbook.db.disk.engine import LASTING
from jobbook.services.opened import OpenBook
from tests.bench.timing import Deed, Measured, Sizes, by_turns
from tests.db.building import PERSON

LEAVES = "SELECT leaf FROM journal WHERE number > ? AND number <= ? ORDER BY number"
BLOCKS = "SELECT hash FROM tree WHERE level = ? AND number >= ? AND number < ? ORDER BY number"


def witnessing(book: OpenBook, sizes: Sizes) -> tuple[Measured, ...]:
    at = f"at {sizes.entries:,} entries".replace(",", " ")
    plain = sqlite3.connect(book.store.file, isolation_level=None)
    for pragma in LASTING:
        plain.execute(pragma)
    pairs = {
        f"head {at}": (*heads(book, plain), "the head's row by plain sqlite3"),
        f"proof {at}": (*proofs(book, plain), "the rows and hashes that it needs, plainly"),
        f"append {at}": (*appends(book, plain), "a row and the head in one sqlite3 transaction"),
    }
    told = [Measured(what, *by_turns(ours, bare, sizes.times), beside) for what, (ours, bare, beside) in pairs.items()]
    plain.close()
    return tuple(told)


def heads(book: OpenBook, plain: sqlite3.Connection) -> tuple[Deed, Deed]:
    def ours() -> None:
        with book.store.read() as reading:
            reading.journal.head()

    return ours, lambda: plain.execute("SELECT size, root FROM head").fetchone()


def appends(book: OpenBook, plain: sqlite3.Connection) -> tuple[Deed, Deed]:
    """One entry kept; and a row of the same size in a table of its own, with the head beside it."""
    plain.execute("CREATE TABLE bench_journal (number INTEGER PRIMARY KEY, body TEXT, leaf BLOB)")
    plain.execute("CREATE TABLE bench_head (root BLOB)")
    plain.execute("INSERT INTO bench_head VALUES (x'')")
    with book.store.write(PERSON) as tx:
        entry = tx.keep(Draft("note/1", "book", {"text": "one more"}))

    def ours() -> None:
        with book.store.write(PERSON) as tx:
            tx.keep(Draft("note/1", "book", {"text": "one more"}))

    def bare() -> None:
        plain.execute("BEGIN IMMEDIATE")
        plain.execute("INSERT INTO bench_journal (body, leaf) VALUES (?, ?)", (entry.body, entry.leaf))
        plain.execute("UPDATE bench_head SET root = ?", (entry.leaf * 10,))
        plain.execute("COMMIT")

    return ours, bare


def proofs(book: OpenBook, plain: sqlite3.Connection) -> tuple[Deed, Deed]:
    """A proof read from the kept tree, which is first shown to hold."""
    with book.store.read() as reading:
        head = reading.journal.head()
        number = head.size // 3
        entry, path = reading.journal.get(number), reading.journal.proof(number, head.size, reading.journal.subtree())
    if not verify_inclusion(entry.leaf, number - 1, head.size, path, head.root):
        raise RuntimeError("the proof does not hold, so how fast it comes is of no matter")

    def ours() -> None:
        with book.store.read() as reading:
            reading.journal.proof(number, reading.journal.head().size, reading.journal.subtree())

    return ours, lambda: blocks_plainly(plain, number, head.size)


def blocks_plainly(plain: sqlite3.Connection, number: int, size: int) -> None:
    """Read the block of leaves round an entry and the blocks above it, and hash each of them together."""
    first = (number - 1) // BLOCK * BLOCK
    hashed(plain.execute(LEAVES, (first, first + BLOCK)).fetchall())
    level, start, whole = 1, first // BLOCK // BLOCK * BLOCK, size // BLOCK
    while whole:
        hashed(plain.execute(BLOCKS, (level, start, start + BLOCK)).fetchall())
        level, start, whole = level + 1, start // BLOCK // BLOCK * BLOCK, whole // BLOCK


def hashed(rows: list[tuple[bytes]]) -> None:
    hashes = [row[0] for row in rows]
    while len(hashes) > 1:
        hashes = [sha256(b"\x01" + hashes[i] + hashes[i + 1]).digest() for i in range(0, len(hashes) - 1, 2)]
