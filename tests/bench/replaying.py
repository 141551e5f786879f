"""A job of many acts replayed, beside a bare loop that copies a dict of as many facts for each act."""

from collections.abc import Iterator
from itertools import cycle, islice
from pathlib import Path
from shutil import copytree

from jobbook.core.record.journal import Draft, Entry
from jobbook.db.store import Book, WritingBook
from jobbook.services.job.replay import job_state, kept_acts, state_of, work_entries
from jobbook.services.opened import OpenBook, open_book
from jobbook.services.work.figures import bay_of
from tests.bench.timing import Measured, Sizes, by_turns

JOB = 1
KEEPER = "it"


def replaying(book: Path, folder: Path, sizes: Sizes) -> tuple[Measured, ...]:
    opened = open_book(Path(copytree(book, folder / "replayed")))
    lengthen(opened, sizes.acts)
    with opened.store.read() as reading:
        told = tuple(measured(opened, reading, sizes))
    opened.close()
    return told


def measured(opened: OpenBook, reading: Book, sizes: Sizes) -> Iterator[Measured]:
    kept = kept_acts(work_entries(reading, JOB))
    state = state_of(kept)
    facts = dict.fromkeys((*state.things, *state.conditions, *state.since), "as it stands")
    beside = f"{len(kept)} copies of a dict of {len(facts)}"

    def bare() -> None:
        now = facts
        for one in kept:
            now = {**now, one.act.do: one.act.on}

    acts = f"{len(kept):,} acts".replace(",", " ")
    pairs = {
        f"replay of a job of {acts}, acts in hand": lambda: state_of(kept),
        f"replay of a job of {acts}, from the book": lambda: job_state(reading, JOB),
        f"the bay of a job of {acts}, acts in hand": lambda: bay_of(reading, JOB, kept, opened),
    }
    for what, ours in pairs.items():
        yield Measured(what, *by_turns(ours, bare, sizes.times), beside)


def lengthen(opened: OpenBook, count: int) -> None:
    """Do the job's own acts again and again, each signed, until it has so many. A vehicle arrives but once."""
    with opened.store.write(KEEPER) as tx:
        done = [one for one in tx.journal.entries(job=JOB, kind="act/1") if one.payload["act"]["do"] != "arrive"]
        there = len(kept_acts(work_entries(tx, JOB)))
        for number, entry in enumerate(islice(cycle(done), max(count - there, 0))):
            again(tx, entry, f"again {number}")


def again(tx: WritingBook, entry: Entry, act: str) -> None:
    tx.keep(Draft("act/1", entry.subject, entry.payload, job=JOB, done_by=entry.done_by, act=act))
    facts = {"job": JOB, "acts": [act], "joint": "", "meaning": "did"}
    tx.keep(Draft("sign-off/1", entry.subject, facts, job=JOB, done_by=entry.done_by, meaning="did"))
