"""The book as it is read, and as it is written: what `store.read()` and `store.write(...)` hand out."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from pathlib import Path

from jobbook.core.jobs import FaultCode, Permission, Test
from jobbook.core.people import Shop
from jobbook.core.record.clocks import Ahead
from jobbook.core.record.epochs import Restoration
from jobbook.core.record.journal import Entry, Proved, head_message, write_pack
from jobbook.db import clocks, epochs, facts, people
from jobbook.db.calls import Calls
from jobbook.db.customers import Customers
from jobbook.db.disk.keys import Key
from jobbook.db.facts import Papers
from jobbook.db.files import Files
from jobbook.db.history import VehicleHistory
from jobbook.db.jobs import Jobs
from jobbook.db.journal import Journal
from jobbook.db.known_parts import KnownParts
from jobbook.db.part_lives import PartLives
from jobbook.db.people import Credentials, People
from jobbook.db.rows import Rows
from jobbook.db.shelves import Methods, Pieces, Reminders, Tools
from jobbook.db.specifications import Specifications
from jobbook.db.vehicles import Vehicles

SEALED_AT_ONCE = 400  # fewer than either database takes in one statement


@dataclass(frozen=True)
class Givens:
    """What a book is given: its id, its key, its folder (None on a server), the clock and the source of chance."""

    book: str
    key: Callable[[], Key]
    folder: Path | None
    clock: Callable[[], datetime]
    random: Callable[[int], bytes]


class Book:
    """A reading: everything in it is from one moment. It lives no longer than its `with` block."""

    def __init__(self, rows: Rows, givens: Givens) -> None:
        self._rows, self._givens = rows, givens

    @property
    def rows(self) -> Rows:
        """The statements behind this reading; for modules of `db` alone."""
        return self._rows

    @property
    def book_id(self) -> str:
        return self._givens.book

    @cached_property
    def journal(self) -> Journal:
        return Journal(self._rows)

    @cached_property
    def jobs(self) -> Jobs:
        return Jobs(self._rows)

    @cached_property
    def vehicles(self) -> Vehicles:
        return Vehicles(self._rows)

    @cached_property
    def calls(self) -> Calls:
        return Calls(self._rows)

    @cached_property
    def customers(self) -> Customers:
        return Customers(self._rows)

    @cached_property
    def people(self) -> People:
        return People(self._rows)

    @cached_property
    def credentials(self) -> Credentials:
        return Credentials(self._rows)

    @cached_property
    def tools(self) -> Tools:
        return Tools(self._rows)

    @cached_property
    def specifications(self) -> Specifications:
        return Specifications(self._rows, self._givens.clock)

    @cached_property
    def pieces(self) -> Pieces:
        return Pieces(self._rows)

    @cached_property
    def parts(self) -> KnownParts:
        return KnownParts(self._rows)

    @cached_property
    def papers(self) -> Papers:
        return Papers(self._rows, self._givens.folder)

    @cached_property
    def files(self) -> Files:
        return Files(self._rows, self._givens.folder)

    @cached_property
    def history(self) -> VehicleHistory:
        return VehicleHistory(self._rows)

    @cached_property
    def part_lives(self) -> PartLives:
        return PartLives(self._rows)

    @cached_property
    def reminders(self) -> Reminders:
        return Reminders(self._rows)

    @cached_property
    def methods(self) -> Methods:
        return Methods(self._rows)

    def shop(self) -> Shop:
        return people.read_shop(self._rows, self.book_id)

    def restorations(self) -> tuple[Restoration, ...]:
        """Every restoring of this book, in order: each began an epoch."""
        return epochs.restorations(self._rows)

    def ahead(self) -> tuple[Ahead, ...]:
        """Which entries bear times of a clock that ran ahead."""
        return clocks.ahead(self._rows)

    def last_backup(self) -> Entry | None:
        """The entry of the last backup, or of the restoring that came after it."""
        return epochs.last_backup(self._rows)

    def forgotten_after(self, number: int) -> int:
        """How many times something was erased for somebody after that entry."""
        return epochs.forgotten_after(self._rows, number)

    def permissions(self, job: int) -> list[Permission]:
        return facts.permissions(self._rows, job)

    def tests(self, job: int) -> list[Test]:
        return facts.tests(self._rows, job)

    def fault_codes(self, job: int) -> list[FaultCode]:
        return facts.fault_codes(self._rows, job)

    def sealed(self, commitment: str) -> str | None:
        """The value behind a commitment; "" for "", None where it was erased."""
        if not commitment:
            return ""
        sql = "SELECT value FROM sealed WHERE commitment = :commitment"
        value: str | None = self._rows.value(sql, commitment=commitment)
        return value

    def all_sealed(self, commitments: Iterable[str]) -> dict[str, str | None]:
        """The values behind these commitments, as `sealed` gives each, in one query for every few hundred."""
        wanted = sorted({one for one in commitments if one})
        found: dict[str, str | None] = {"": ""}
        for start in range(0, len(wanted), SEALED_AT_ONCE):
            named = {f"c{n}": one for n, one in enumerate(wanted[start : start + SEALED_AT_ONCE])}
            sql = f"SELECT commitment, value FROM sealed WHERE commitment IN ({', '.join(f':{key}' for key in named)})"
            found |= {row["commitment"]: row["value"] for row in self._rows.all(sql, **named)}
        return found

    def pack(self, job: int) -> bytes:
        """The job's entries, each with its proof to the head of this moment, and that head signed by the book's key."""
        head, subtree, key = self.journal.head(), self.journal.subtree(), self._givens.key()
        entries = [
            Proved(entry.number, entry.body, self.journal.proof(entry.number, head.size, subtree))
            for entry in self.journal.entries(job=job)
        ]
        signature = key.sign(head_message(self.book_id, head))
        return write_pack(self.book_id, head, signature, key.public, entries)
