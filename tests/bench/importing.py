"""A list taken in while another program signs off: how long its sign-offs wait, beside how long they take alone."""

import subprocess
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from queue import Queue
from statistics import median
from threading import Thread
from time import perf_counter

from jobbook.services.clock import system_chance
from jobbook.services.lists.importing import keep
from jobbook.services.lists.planning import headings_of, plan
from jobbook.services.opened import OpenBook
from tests.bench.timing import Measured, Sizes
from tests.db.building import new_book, one_job

BETWEEN = 0.04  # seconds between two sign-offs: many people in a hurry
PATIENCE = 60  # seconds until a sign-off must have come, or the other program is no longer there
ALONE = 100  # sign-offs while nothing else goes on


def importing(folder: Path, sizes: Sizes) -> tuple[Measured, ...]:
    """The longest wait, the median and the rows a second."""
    file = _list(folder, sizes.rows)
    with new_book(folder / "importing") as store:
        one_job(store)
        book = OpenBook(store, lambda: datetime.now(UTC), system_chance)
        with _signing(folder / "importing") as took:
            alone = [took.get(timeout=PATIENCE) for _ in range(min(ALONE, sizes.rows // 2))]
            start = perf_counter()
            planned = plan(book, "vehicles", *headings_of(book, "vehicles", file))
            prepared = perf_counter() - start
            while not took.empty():
                took.get()
            keep(book, None, planned)
            seconds = perf_counter() - start
            meanwhile = [
                took.get(timeout=PATIENCE) for _ in range(took.qsize() + 1)
            ]  # one, at least, that was signed in that time
    many = f"{sizes.rows:,}".replace(",", " ") + " rows"
    beside = "a sign-off's median while nothing else goes on"
    return (
        Measured(f"longest wait of a sign-off while {many} come in", max(meanwhile), median(alone), beside),
        Measured(f"median of a sign-off while {many} come in", median(meanwhile), median(alone), beside),
        Measured(f"{many} taken in, {sizes.rows / seconds:.0f} a second", seconds * 1000, prepared * 1000,
                 "reading them and deciding alone"),
    )  # fmt: skip


def _list(folder: Path, rows: int) -> Path:
    file = folder / "vehicles.csv"
    lines = (f"XX0KSTLLE{n:08};ML-{n:06};Kestelle;camper;Owner {n // 2:06};0700 {n // 2:06}\n" for n in range(rows))
    file.write_text("VIN;Plate;Make;Model;Owner;Telephone\n" + "".join(lines), encoding="utf-8")
    return file


@contextmanager
def _signing(place: Path) -> Iterator[Queue[float]]:
    """Another program that signs off; what each took, in milliseconds, comes into the queue."""
    command = [sys.executable, "-m", "tests.db.signing_meanwhile", str(place), "nop", str(BETWEEN)]
    took: Queue[float] = Queue()
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as program:
        assert program.stdin is not None
        listening = Thread(target=_listen, args=(program.stdout, took))
        listening.start()
        try:
            yield took
        finally:
            program.stdin.close()
            listening.join()
            if program.wait() != 0:
                raise RuntimeError("the program that signs off ended with an error; its figures are not to be used")


def _listen(told: Iterable[str], took: Queue[float]) -> None:
    for line in told:
        if line.strip() != "ready":
            took.put(float(line.split()[1]))
