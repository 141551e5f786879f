"""Part life of one kind over a whole book, beside its rows by plain sqlite3."""

import random
import sqlite3
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from jobbook.db.part_lives import PART
from jobbook.services.clock import system_chance
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.part_life import kinds, life
from tests.bench.timing import Measured, Sizes, by_turns
from tests.db.building import PERSON, new_book, shop

START = datetime(2016, 1, 4, 8, 0, tzinfo=UTC)
JOB = "INSERT INTO job (number, stage, opened_at, vehicle, promised, entry) VALUES (?, 'arrived', ?, ?, '', 1)"
ODOMETER = "INSERT INTO odometer VALUES (?, ?, ?, ?, ?, 'km', 'in', '', '', '', '')"
FITTED = """INSERT INTO fitted (piece, job, function, place, title, number, supplier, serial, batch, condition,
    fitted_at, off_at, off_job, reason, off_by, said_off, entry)
    VALUES (?, ?, 'strut', 'FL', 'Air strut', 'A-1', ?, '', '', 'new', ?, ?, ?, ?, '', 0, 1)"""
SUPPLIERS = ("Quillhaven", "Brackwater", "Marshgate")


def looking_back(folder: Path, sizes: Sizes) -> Iterator[Measured]:
    """The list of kinds, then one of them with its curve; each part was fitted in a visit, and seen in a later one."""
    store = new_book(folder / "parts")
    with store.write(PERSON) as tx:
        shop(tx)
    fill(store.file, sizes.parts)
    book = OpenBook(store, lambda: datetime.now(UTC), system_chance)
    many = f"of {sizes.parts:,} parts".replace(",", " ")
    first = kinds(book, "supplier")[0]
    counted, rows = plain(store.file)
    yield Measured(
        f"kinds {many}", *by_turns(lambda: kinds(book, "supplier"), counted, sizes.times), "counted by sqlite3"
    )
    one = f"part life of {first.fitted:,} {many}".replace(",", " ")
    yield Measured(
        one, *by_turns(lambda: life(book, first, None, "km"), rows, sizes.times), "its rows by plain sqlite3"
    )
    store.close()


def fill(file: Path | None, parts: int) -> None:
    """Rows of where things stand, without the entries behind them: nothing that is measured here looks at entries."""
    chance = random.Random(5)
    connection = sqlite3.connect(str(file))
    with connection:
        connection.executemany("INSERT INTO vehicle VALUES (?, '', '', '', '', NULL, 1)", ((n,) for n in range(parts)))
        for number in range(parts):
            keep_part(connection, number, chance)
    connection.close()


def keep_part(connection: sqlite3.Connection, number: int, chance: random.Random) -> None:
    """A vehicle whose strut was fitted in one visit, and failed or was seen in a later one."""
    fitted, later = number % 900, number % 900 + chance.randint(30, 2000)
    failed = chance.random() < 0.3
    for visit, day in ((number * 2 + 1, fitted), (number * 2 + 2, later)):
        at, km = (START + timedelta(days=day)).isoformat(), 50_000 + (day - fitted) * 30
        connection.execute(JOB, (visit, at, number))
        connection.execute(ODOMETER, (visit, number, visit, at, km))
    off = ((START + timedelta(days=later)).isoformat(), number * 2 + 2, "failed") if failed else ("", None, "")
    at = (START + timedelta(days=fitted)).isoformat()
    connection.execute(FITTED, (str(number), number * 2 + 1, SUPPLIERS[number % len(SUPPLIERS)], at, *off))


def plain(file: Path | None) -> tuple[Callable[[], object], Callable[[], object]]:
    """The count of each supplier's parts, and the rows of the first one with its vehicles' odometers."""
    connection = sqlite3.connect(str(file))
    where = f"f.function = 'strut' AND f.supplier = '{SUPPLIERS[0]}'"
    count = "SELECT supplier, COUNT(*) FROM fitted WHERE fitted_at <> '' GROUP BY function, supplier"
    odometers = f"""SELECT o.* FROM odometer o WHERE o.vehicle IN
        (SELECT j.vehicle FROM fitted f JOIN job j ON j.number = f.job WHERE {where})
        ORDER BY o.vehicle, o.entry DESC"""
    rows = (f"{PART} AND {where}", odometers)
    return (
        lambda: connection.execute(count).fetchall(),
        lambda: [connection.execute(sql).fetchall() for sql in rows],
    )
