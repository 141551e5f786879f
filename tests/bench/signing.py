"""A torque sign-off kept, on a job in the middle of its work, beside the same rows by plain sqlite3."""

import sqlite3
from datetime import datetime
from pathlib import Path
from shutil import copytree

from jobbook.core.people import Person
from jobbook.db.disk.engine import LASTING
from jobbook.db.disk.places import FILE
from jobbook.services import work
from jobbook.services.house.people import all_people
from jobbook.services.jobs import jobs
from jobbook.services.opened import OpenBook, last_kept, open_book
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.sheet.sheets import Choice
from tests.bench.timing import Measured, Sizes, medians, milliseconds

Answers = dict[str, str]
NEW_ROWS = "SELECT * FROM {table} WHERE rowid > ? ORDER BY rowid"


def signing(book: Path, folder: Path, sizes: Sizes) -> tuple[Measured, ...]:
    """Every turn has a fresh copy of the book, so that each signs the same stage for the first time."""
    prepared = Path(copytree(book, folder / "prepared"))
    doer, job, choice, answers = by_hand(prepared)
    turns = []
    for number in range(sizes.times + 1):
        ours = Path(copytree(prepared, folder / f"ours-{number}"))
        bare = Path(copytree(prepared, folder / f"bare-{number}"))
        took = kept(ours, doer, job, choice, answers)
        turns.append((took, written_plainly(bare / FILE, new_rows(bare / FILE, ours / FILE))))
    what = f"a torque sign-off kept (replay of {acts_of(prepared, job)} entries and all)"
    return (Measured(what, *medians(turns[1:]), "the same rows in one sqlite3 transaction, same pragmas"),)


def clocked(place: Path) -> OpenBook:
    """The book, opened at the moment of its last entry: the tools were in calibration then."""
    with_today = open_book(place)
    moment = datetime.fromisoformat(last_kept(with_today)[0])
    with_today.close()
    return open_book(place, clock=lambda: moment)


def by_hand(place: Path) -> tuple[Person, int, Choice, Answers]:
    """Start a joint by hand on the job in work, and give what tightens and signs it: who, job, choice, answers."""
    book = clocked(place)
    job = next(row.number for row in jobs(book).rows if row.stage == "in work")
    doer = next(person for person in all_people(book) if person.may("work"))
    started = first(book, job, "start")
    work.keep(book, doer, job, started, filled(started))
    tightening = first(book, job, "tighten", started.act.on)
    book.close()
    return doer, job, tightening, filled(tightening)


def first(book: OpenBook, job: int, do: str, on: str = "") -> Choice:
    """The first main choice of the job that does this and that the rules allow."""
    for row in job_sheet(book, job).steps:
        card = job_sheet(book, job, (row.begun, row.number)).card if row.mark == "ring" else None
        for choice in card.choices if card else ():
            if choice.main and choice.act.do == do and (not on or choice.act.on == on):
                return choice
    raise LookupError(f"job {job} of the demonstration has no step to {do}")


def filled(choice: Choice) -> Answers:
    return {ask.name: ask.value or ask.options[0].value for ask in choice.asks}


def kept(place: Path, doer: Person, job: int, choice: Choice, answers: Answers) -> float:
    book = clocked(place)
    job_sheet(book, job)  # what the screen showed before somebody signed
    took = milliseconds(lambda: work.keep(book, doer, job, choice, answers, signer=doer))
    book.close()
    return took


def acts_of(place: Path, job: int) -> int:
    book = open_book(place)
    with book.store.read() as reading:
        count = len(reading.journal.entries(job=job))
    book.close()
    return count


def new_rows(before: Path, after: Path) -> dict[str, list[tuple[object, ...]]]:
    """What the sign-off wrote: the journal's new rows, the tree's, and the head."""
    with sqlite3.connect(before) as earlier, sqlite3.connect(after) as later:
        rows = {}
        for table in ("journal", "tree"):
            last = earlier.execute(f"SELECT COALESCE(MAX(rowid), 0) FROM {table}").fetchone()
            rows[table] = later.execute(NEW_ROWS.format(table=table), last).fetchall()
        rows["head"] = later.execute("SELECT size, root, peaks FROM head").fetchall()
    earlier.close()
    later.close()
    if not rows["journal"]:
        raise LookupError("the sign-off wrote nothing")
    return rows


def written_plainly(file: Path, rows: dict[str, list[tuple[object, ...]]]) -> float:
    connection = sqlite3.connect(file, isolation_level=None)
    for pragma in LASTING:
        connection.execute(pragma)
    connection.execute("SELECT COUNT(*) FROM journal").fetchone()

    def write() -> None:
        connection.execute("BEGIN IMMEDIATE")
        for table in ("journal", "tree"):
            for row in rows[table]:
                connection.execute(f"INSERT INTO {table} VALUES ({', '.join('?' * len(row))})", row)
        connection.execute("UPDATE head SET size = ?, root = ?, peaks = ?", rows["head"][0])
        connection.execute("COMMIT")

    took = milliseconds(write)
    connection.close()
    return took
