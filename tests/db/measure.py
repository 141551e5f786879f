"""Figures for docs/scale.md: `python -m tests.db.measure [JOBS] [ENTRIES]`, each beside its bare counterpart.

The large books are filled past the journal's own door, by plain SQL, since filling them one write at a time would take
an hour; what is measured then goes through the doors that the program uses.
"""

import os
import sqlite3
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

from jobbook.core.record.journal import Draft, body_of, leaf_hash, verify_inclusion
from jobbook.db.audit import audit
from jobbook.db.store import Store
from jobbook.db.triggers import SQLITE
from tests.db.building import PERSON, new_book, one_job, sign_off

TIMES = 15


def timed(what: Callable[[], object], times: int = TIMES) -> float:
    """The median of several runs, in milliseconds; the first, which warms up, is left out."""
    what()
    runs = []
    for _ in range(times):
        start = perf_counter()
        what()
        runs.append((perf_counter() - start) * 1000)
    return median(runs)


def in_turn(ours: Callable[[], object], bare: Callable[[], object], times: int) -> tuple[float, float]:
    """Both medians, run in turn, so that a disk that is busy for a while is busy for both."""
    runs: tuple[list[float], list[float]] = ([], [])
    for _ in range(times):
        for what, into in zip((ours, bare), runs, strict=True):
            start = perf_counter()
            what()
            into.append((perf_counter() - start) * 1000)
    return median(runs[0]), median(runs[1])


def say(what: str, ours: float, bare: float | None = None) -> None:
    beside = f"   bare {bare:9.3f} ms   ratio {ours / bare:5.1f}" if bare else ""
    print(f"{what:48} {ours:9.3f} ms{beside}", flush=True)


def sign_offs(store: Store, folder: Path) -> None:
    """A sign-off kept, beside a bare transaction of the same three rows with the same promises to the disk."""
    bare = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    for pragma in ("journal_mode = WAL", "synchronous = FULL"):
        bare.execute(f"PRAGMA {pragma}")
    bare.execute("CREATE TABLE journal (number INTEGER PRIMARY KEY, kind, job, done_at, replaces UNIQUE, body, leaf)")
    bare.execute("CREATE TABLE head (size, root, peaks)")
    bare.execute("INSERT INTO head VALUES (0, x'', x'')")
    with store.read() as reading:
        entry = reading.journal.get(reading.journal.head().size)

    def plain() -> None:
        bare.execute("BEGIN IMMEDIATE")
        values = (entry.kind, 1, entry.done_at, entry.body, entry.leaf)
        bare.execute("INSERT INTO journal (kind, job, done_at, body, leaf) VALUES (?, ?, ?, ?, ?)", values)
        bare.execute("UPDATE head SET size = size + 1, root = ?, peaks = ?", (entry.leaf, entry.leaf * 10))
        bare.execute("COMMIT")

    def ours() -> None:
        with store.write(PERSON) as tx:
            sign_off(tx)

    say("a sign-off kept", *in_turn(ours, plain, 400))
    bare.close()


def fill_jobs(store: Store, count: int) -> None:
    with store.write(PERSON) as tx:
        run = tx.rows.connection.exec_driver_sql
        moment = "strftime('%Y-%m-%dT%H:%M:%S+00:00', 1600000000 + n * 600, 'unixepoch')"
        numbers = f"WITH RECURSIVE k(n) AS (SELECT 2 UNION ALL SELECT n + 1 FROM k WHERE n < {count})"
        run(f"INSERT INTO vehicle {numbers} SELECT n, 'XX0VRNHLT' || printf('%08d', n), 'AB ' || n, 'Varnholt', "
            "'estate', 1, 4 FROM k")  # fmt: skip
        stage = "CASE n % 9 WHEN 0 THEN 'in work' ELSE 'released' END"
        run(f"INSERT INTO job {numbers} SELECT n, {stage}, {moment}, n, 1, '', 5, NULL FROM k")
        words = "(SELECT words FROM concern WHERE job = 1)"
        run(f"INSERT INTO concern {numbers} SELECT n, 1, {words}, '', '', '', 6 FROM k")
        run(f"INSERT INTO found {numbers} SELECT 'vehicle', printf('%08d', n), n, '' FROM k")
        run(f"INSERT INTO found {numbers} SELECT 'vehicle', 'varnholt', n, '' FROM k")
        run(f"INSERT INTO found {numbers} SELECT 'job', CAST(n AS TEXT), n, '' FROM k")


def jobs(store: Store, count: int) -> None:
    """Pages of a long list, beside the rows alone by bare SQL."""
    fill_jobs(store, count)
    bare = sqlite3.connect(store.file)
    plain = "SELECT number, stage, opened_at, vehicle FROM job ORDER BY opened_at DESC, number DESC LIMIT 100"
    with store.read() as reading:
        assert len(reading.jobs.page(text=f"{count - 7:08}")) == 1
        assert len(reading.jobs.page(text="varnholt")) == 100
        middle = reading.jobs.page()[-1].opened_at[:4] + "-01-01", 0
        rows = timed(lambda: bare.execute(plain).fetchall())
        say(f"first page of 100 out of {count:,} jobs", timed(reading.jobs.page), rows)
        say("a page in the middle", timed(lambda: reading.jobs.page(after=middle)), rows)
        say("a page at one stage", timed(lambda: reading.jobs.page(stage="in work")), rows)
        say("found by the end of a VIN", timed(lambda: reading.jobs.page(text=f"{count - 7:08}")), rows)
        say("found by a make that all have", timed(lambda: reading.jobs.page(text="varnholt")), rows)
        say("a page of vehicles", timed(reading.vehicles.page), rows)
    bare.close()


def entries(store: Store, count: int) -> None:
    """Head, append and proof of a long journal."""
    facts = {"book": store.book_id, "entered_at": "2026-11-25T09:00:00+00:00", "entered_by": PERSON, "salt": "00" * 16}
    payload = {"job": 1, "acts": ["a1"], "joint": "lower_bolt@FL", "meaning": "did"}
    with store.write(PERSON) as tx:
        growing, tree, blocks, rows = tx.journal, tx.journal.tree, [], []
        start = perf_counter()
        for number in range(tree.size + 1, count + 1):
            draft = Draft("sign-off/1", "job/1", payload, job=1, meaning="did")
            body = body_of(draft, act=f"act {number}", **facts)
            tree, done = tree.grown(leaf_hash(body.encode()))
            blocks += done
            rows.append((number, "sign-off/1", 1, facts["entered_at"], body, leaf_hash(body.encode())))
        print(f"{'(bodies and leaves made)':48} {perf_counter() - start:9.1f} s", flush=True)
        raw = tx.rows.connection.connection.dbapi_connection
        raw.execute("DROP TRIGGER journal_in_order")
        raw.executemany("INSERT INTO journal (number, kind, job, done_at, body, leaf) VALUES (?, ?, ?, ?, ?, ?)", rows)
        raw.executemany("INSERT INTO tree VALUES (?, ?, ?)", [(b.level, b.number, b.hash) for b in blocks])
        raw.execute(SQLITE["journal_in_order"])
        growing.tree = tree
        tx.numbers.append(count)
    leaf = rows[count // 3][5]
    del rows
    say(f"append to the tree at {count:,} entries", timed(lambda: tree.grown(leaf)))
    with store.read() as reading:
        say("the head read", timed(reading.journal.head))
        head = reading.journal.head()

        def proof() -> tuple[bytes, ...]:
            return reading.journal.proof(count // 3, head.size, reading.journal.subtree())

        say("an inclusion proof read", timed(proof))
        entry, path = reading.journal.get(count // 3), proof()
        at = entry.number - 1, head.size
        say("an inclusion proof verified", timed(lambda: verify_inclusion(entry.leaf, *at, path, head.root)))
        say("the entry of an act", timed(lambda: reading.journal.by_act(f"act {count // 2}")))
    say("a sign-off kept", timed(lambda: _kept(store), 100))
    start = perf_counter()
    report = audit(store)
    print(f"{'the whole audit':48} {perf_counter() - start:9.1f} s, {len(report.findings)} findings", flush=True)


def _kept(store: Store) -> None:
    with store.write(PERSON) as tx:
        sign_off(tx)


def main(jobs_count: int = 100_000, entries_count: int = 1_000_000) -> None:
    print(f"Python {sys.version.split()[0]}, SQLite {sqlite3.sqlite_version}, {os.cpu_count()} cores")
    for measure, count in ((jobs, jobs_count), (entries, entries_count)):
        with tempfile.TemporaryDirectory() as folder, new_book(Path(folder) / "book") as store:
            one_job(store)
            if measure is jobs:
                sign_offs(store, Path(folder))
            measure(store, count)


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
