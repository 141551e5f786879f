"""A book of very many jobs, put in by plain SQL past the one door, since a million writes would take an hour.

Rows stand as the program would have them: a vehicle for five visits, its owner with a sealed name and telephone, a
concern of the customer's words, and for each the words by which it is found. The entries that they name are a few that
all share, so nothing is measured on this book that reads entries one by one."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

from jobbook.db.search import number_words, spellings, vehicle_words
from jobbook.db.store import Store
from tests.bench.many_jobs import FIRST, IN_WORK, LAST, SAID, VISITS
from tests.db.building import new_book, one_job

START = datetime(2001, 1, 1, tzinfo=UTC)
INDEXES = ("found_subject", "found_source")
Row = tuple[object, ...]


def vin_of(vehicle: int) -> str:
    return f"XX0VRNHLT{vehicle:08}"


def name_of(owner: int) -> str:
    """Seventy names that many share, each with a word of its own."""
    return f"{FIRST[owner % len(FIRST)]} {LAST[owner % len(LAST)]} K{owner:07}"


def million_book(place: Path, jobs: int) -> Store:
    """A new book with so many jobs, open."""
    store = new_book(place)
    one_job(store)
    with closing(sqlite3.connect(store.file)) as raw:
        made = [raw.execute(f"SELECT sql FROM sqlite_master WHERE name = '{index}'").fetchone()[0] for index in INDEXES]
        for index in INDEXES:
            raw.execute(f"DROP INDEX {index}")
        entry = raw.execute("SELECT entry FROM job").fetchone()[0]
        _fill(raw, jobs, entry)
        for sql in made:
            raw.execute(sql)
        raw.commit()
    return store


def _fill(raw: sqlite3.Connection, jobs: int, entry: int) -> None:
    cars = range(2, 2 + -(-jobs // VISITS))
    numbers = range(2, jobs + 1)
    sealed = ((f"name {n}", "", name_of(n)) for n in cars)
    raw.executemany("INSERT INTO sealed VALUES (?, ?, ?)", sealed)
    raw.executemany("INSERT INTO sealed VALUES (?, '', ?)", ((f"said {n}", words) for n, words in enumerate(SAID)))
    raw.executemany(
        "INSERT INTO customer (id, name, address, phone, email, entry) VALUES (?, ?, '', '', '', ?)",
        ((n, f"name {n}", entry) for n in cars),
    )
    raw.executemany(
        "INSERT INTO vehicle (id, vin, plate, make, model, customer, entry) VALUES (?, ?, ?, ?, ?, ?, ?)",
        ((n, vin_of(n), f"KX-{n:06}", "Varnholt", "estate", n, entry) for n in cars),
    )
    raw.executemany(
        "INSERT INTO job (number, stage, opened_at, vehicle, customer, promised, entry) VALUES (?, ?, ?, ?, ?, '', ?)",
        ((n, *_stage_and_day(n), 2 + n // VISITS, 2 + n // VISITS, entry) for n in numbers),
    )
    raw.executemany(
        "INSERT INTO concern (job, number, words, cause, confidence, correction, entry) VALUES (?, 1, ?, ?, ?, ?, ?)",
        ((n, f"said {n % len(SAID)}", "", "", "", entry) for n in numbers),
    )
    raw.executemany("INSERT INTO found (kind, token, subject, source) VALUES (?, ?, ?, ?)", _found(cars, numbers))


def _stage_and_day(number: int) -> tuple[str, str]:
    stage = "released" if number % IN_WORK else "in work"
    return stage, (START + timedelta(minutes=12 * number)).isoformat()


def _found(cars: range, numbers: range) -> Iterator[Row]:
    said = [sorted(spellings(words)) for words in SAID]
    for n in cars:
        yield from (("customer", word, n, f"name {n}") for word in spellings(name_of(n)) | number_words(f"0700 {n:06}"))
        words = vehicle_words(vin_of(n), f"KX-{n:06}", "Varnholt", "estate")
        yield from (("vehicle", word, n, "") for word in words)
    for n in numbers:
        yield "job", str(n), n, ""
        yield from (("job", word, n, f"said {n % len(SAID)}") for word in said[n % len(SAID)])
