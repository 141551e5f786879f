"""A book of parts that were fitted, failed and seen again, kept as the program keeps them, at days of a test's own."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

from jobbook.core.record.journal import Draft
from jobbook.db.store import WritingBook
from jobbook.services.clock import system_chance
from jobbook.services.opened import OpenBook
from tests.db.building import PERSON, concern, customer, new_book, shop, vehicle

START = datetime(2020, 1, 6, 8, 0, tzinfo=UTC)


@dataclass
class PartBook:
    """An open book with one customer; `vehicles` by the test's own name."""

    book: OpenBook
    owner: int
    vehicles: dict[str, int] = field(default_factory=dict)

    def visit(self, car: str, day: int, km: int | None = None, **odometer: str) -> int:
        """A visit of a vehicle so many days after the start; its number."""
        with self.book.store.write(PERSON) as tx:
            if car not in self.vehicles:
                self.vehicles[car] = vehicle(tx, self.owner, vin=f"V{car}", plate="")
            number = self._opened(tx, self.vehicles[car], day)
            if km is not None:
                facts = {"vehicle": self.vehicles[car], "value": km, "unit": "km", "what": "in", "note": ""}
                self._keep(tx, "odometer/1", number, day, facts | odometer)
        return number

    def _opened(self, tx: WritingBook, of_vehicle: int, day: int) -> int:
        number = tx.next_job_number()
        facts = {"job": number, "vehicle": of_vehicle, "customer": self.owner}
        tx.keep(Draft("job-opened/1", f"job/{number}", facts, job=number, done_at=at(day)))
        concern(tx, number, words=tx.seal("Hangs in the morning"))
        return number

    def _keep(self, tx: WritingBook, kind: str, job: int, day: int, facts: dict) -> int:
        draft = Draft(kind, f"job/{job}", {"job": job} | facts, job=job, done_at=at(day))
        return tx.keep(draft).number

    def keep(self, kind: str, job: int, day: int, /, **facts: object) -> int:
        with self.book.store.write(PERSON) as tx:
            return self._keep(tx, kind, job, day, facts)

    def fit(
        self, job: int, day: int, corner: str = "FL", supplier: str = "Quillhaven", number: str = "A-1", **m
    ) -> str:
        """Issue and fit a strut at a corner; the piece."""
        facts = {"serves": f"strut@{corner}", "title": "Air strut", "count": 1, "number": number, "supplier": supplier}
        piece = str(self.keep("issued/1", job, day, kind="part", **facts, **m))
        self.keep("piece-state/1", job, day, piece=piece, state="fitted", reason="")
        return piece

    def off(self, job: int, day: int, piece: str, reason: str) -> None:
        self.keep("part-off/1", job, day, part=piece, reason=reason, note="")


def at(day: int) -> str:
    return (START + timedelta(days=day)).isoformat()


def part_book(place: Path) -> PartBook:
    store = new_book(place)
    with store.write(PERSON) as tx:
        shop(tx)
        owner = customer(tx)
    return PartBook(OpenBook(store, lambda: START + timedelta(days=2000), system_chance), owner)
