"""What a book knows, read once for a whole list, and followed while others write."""

from collections.abc import Callable, Iterator
from typing import Any

from jobbook.core.lists.columns import CUSTOMERS, PARTS, VEHICLES
from jobbook.core.lists.known import Known, Record
from jobbook.db.store import Book

AT_ONCE = 1000
KINDS = ("customer/1", "vehicle/1", "part/1", "merged/1", "merge-undone/1", "erased/1")
NEEDED = {CUSTOMERS: (CUSTOMERS,), VEHICLES: (CUSTOMERS, VEHICLES), PARTS: (PARTS,)}


def load(reading: Book, kind: str) -> tuple[Known, int]:
    """All that a list of this kind is compared with, and how many entries that takes in."""
    known = Known()
    for needed in NEEDED[kind]:
        for record in every(reading, needed):
            known.learn(record)
    return known, reading.journal.head().size


def every(reading: Book, kind: str) -> Iterator[Record]:
    """Every customer, vehicle or part, the newest first, a page at a time."""
    pages: dict[str, Callable[..., list[Any]]] = {
        CUSTOMERS: reading.customers.page,
        VEHICLES: reading.vehicles.page,
        PARTS: reading.parts.page,
    }
    after = None
    while page := pages[kind](after=after, limit=AT_ONCE):
        yield from page
        after = page[-1].id


def follow(reading: Book, known: Known, kind: str, since: int) -> bool:
    """Learn what was kept after that entry. False where so much changed that all must be read again."""
    entries = reading.journal.entries(kind=KINDS, after=since)
    if any(entry.kind in ("merged/1", "merge-undone/1", "erased/1") for entry in entries):
        return False
    for entry in entries:
        told = entry.payload
        if "vehicle" in told and VEHICLES in NEEDED[kind]:
            known.learn(reading.vehicles.get(told["vehicle"]))
        elif entry.kind == "customer/1" and CUSTOMERS in NEEDED[kind]:
            known.learn(reading.customers.get(told["customer"]))
        elif entry.kind == "part/1" and PARTS in NEEDED[kind]:
            known.learn(reading.parts.get(told["part"]))
    return True
