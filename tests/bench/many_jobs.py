"""A long book: jobs kept through the book's one door, many in a transaction, and then entries of one text each.

The jobs are whole: vehicle, customer, job, concern and release are kept as the program keeps them, only that a thousand
share one write. The entries after them are put in by plain SQL, a leaf and its blocks of the tree each, since what is
measured on them (head, append, proof) looks at leaves alone.
"""

from collections.abc import Iterator
from pathlib import Path

from jobbook.core.record.journal import Tree, leaf_hash
from jobbook.db.store import Store, WritingBook
from tests.db.building import PERSON, customer, fact, job, new_book, shop, vehicle

VISITS = 5  # of one vehicle
IN_WORK = 9  # one job in so many is not released yet
TOGETHER = 1_000
FIRST = ("Ottilie", "Wilma", "Anselm", "Berit", "Corvin", "Dagny", "Eske", "Fenja", "Gerlof", "Hedda")
LAST = ("Brandvold", "Harcourt", "Teasel", "Quillon", "Marsh", "Ostrander", "Pelham")
SAID = ("Hangs at the front left after a night", "Compressor runs too long", "Leans to the right when loaded")


def long_book(place: Path, jobs: int, entries: int) -> Store:
    """A new book with so many jobs and so many entries, open."""
    store = new_book(place)
    with store.write(PERSON) as tx:
        shop(tx)
    for start in range(0, jobs, TOGETHER):
        with store.write(PERSON) as tx:
            some_jobs(tx, range(start, min(start + TOGETHER, jobs)))
    with store.write(PERSON) as tx:
        lengthen(tx, entries)
    return store


def some_jobs(tx: WritingBook, numbers: range) -> None:
    """Jobs of vehicles that come five times each."""
    owner = car = 0
    for number in numbers:
        if number % VISITS == 0:
            name = f"{FIRST[number % len(FIRST)]} {LAST[number % len(LAST)]}"
            owner = customer(tx, name, f"0700 {number:06}")
            car = vehicle(tx, owner, f"XX0VRNHLT{number:08}", f"KX-{number:06}")
        opened = job(tx, car, owner, SAID[number % len(SAID)])
        if number % IN_WORK:
            fact(tx, "released/1", opened, {"restriction": "", "let_go": []}, meaning="released")


def lengthen(tx: WritingBook, count: int) -> None:
    """Go on with entries of no content until there are so many."""
    tree, blocks = tx.journal.tree, []

    def rows() -> Iterator[tuple[int, str, bytes]]:
        nonlocal tree
        for number in range(tree.size + 1, count + 1):
            body = f'{{"act":"filling {number}"}}'
            leaf = leaf_hash(body.encode())
            tree, done = tree.grown(leaf)
            blocks.extend(done)
            yield number, body, leaf

    raw = tx.rows.connection.connection.dbapi_connection
    sql = "INSERT INTO journal (number, kind, done_at, body, leaf) VALUES (?, 'filling/1', '', ?, ?)"
    raw.executemany(sql, rows())
    raw.executemany("INSERT INTO tree VALUES (?, ?, ?)", [(b.level, b.number, b.hash) for b in blocks])
    grown_to(tx, tree)


def grown_to(tx: WritingBook, tree: Tree) -> None:
    """Let the write end with this tree as its head."""
    tx.journal.tree = tree
    tx.numbers.append(tree.size)
