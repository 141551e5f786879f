"""How fast the program is: `python -m tests.bench [--quick]`, each figure as a ratio to its bare counterpart."""

import argparse
import os
import platform
import sqlite3
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from jobbook.services.clock import system_chance
from jobbook.services.demonstration import build
from jobbook.services.opened import OpenBook
from tests.bench.arriving import arriving
from tests.bench.due import due
from tests.bench.finding import finding
from tests.bench.importing import importing
from tests.bench.listing import listing
from tests.bench.looking_back import looking_back
from tests.bench.many_jobs import long_book
from tests.bench.million import million_book
from tests.bench.printing import printing
from tests.bench.reckoning import reckoning
from tests.bench.replaying import replaying
from tests.bench.signing import signing
from tests.bench.starting import starting
from tests.bench.timing import FULL, HEADING, QUICK, Measured, Sizes, line
from tests.bench.visiting import visiting
from tests.bench.witnessing import witnessing


def measure(folder: Path, sizes: Sizes) -> Iterator[Measured]:
    """Everything, one after the other: on the demonstration book, and on a long one that is made for it."""
    book = folder / "demonstration"
    build(book)
    yield from starting(book, folder, sizes)
    yield from signing(book, folder, sizes)
    yield from printing(book, sizes)
    yield from arriving(book, folder, sizes)
    yield from replaying(book, folder, sizes)
    yield from reckoning(sizes)
    with long_book(folder / "long", sizes.jobs, sizes.entries) as store:
        opened = OpenBook(store, lambda: datetime.now(UTC), system_chance)
        yield from listing(opened, sizes)
        yield from due(opened, sizes)
        yield from witnessing(opened, sizes)
    with million_book(folder / "million", sizes.many) as store:
        yield from finding(OpenBook(store, lambda: datetime.now(UTC), system_chance), sizes)
    yield from importing(folder, sizes)
    yield from visiting(folder, sizes)
    yield from looking_back(folder, sizes)


def main() -> None:
    asked = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    asked.add_argument("--quick", action="store_true", help="small and few: shows that it runs, no figures to speak of")
    sizes = QUICK if asked.parse_args().quick else FULL
    print(f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}, {os.cpu_count()} cores")
    print(f"medians of {sizes.times} (starts: {sizes.starts}), by turns with the bare counterpart\n\n{HEADING}")
    with tempfile.TemporaryDirectory() as folder:
        for measured in measure(Path(folder), sizes):
            print(line(measured), flush=True)


if __name__ == "__main__":
    main()
