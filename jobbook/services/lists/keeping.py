"""One row of a list kept in the book, inside a write."""

from dataclasses import replace
from typing import Any

from jobbook.core.lists.columns import CUSTOMERS, PARTS, VEHICLES
from jobbook.core.lists.known import OF_CUSTOMER, OF_PART, OF_VEHICLE, SAME, Decision, Facts, Known, Record, decide
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.parts import KnownPart
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.store import WritingBook
from jobbook.services.vehicle.customers import customer_told
from jobbook.services.vehicle.vehicles import vehicle_draft

BY_NUMBER = ("number_here", "owner_here")
NAMES = {CUSTOMERS: OF_CUSTOMER, VEHICLES: OF_VEHICLE, PARTS: OF_PART}
BLANK: dict[str, Record] = {CUSTOMERS: Customer(0, ""), VEHICLES: Vehicle(0, ""), PARTS: KnownPart(0, "", "")}


class Putting:
    """Rows put into one write, one after the other. The next free number of a vehicle is looked up once."""

    def __init__(self, tx: WritingBook, known: Known, kind: str) -> None:
        self._tx, self._known, self._kind = tx, known, kind
        self._vehicle = 0

    def put(self, facts: Facts) -> str:
        """Keep what a row brings, judged by the book as it is now. Returns "new", "changed" or "same"."""
        decision = _decided(self._known, self._kind, facts)
        if decision.what == SAME:
            return SAME
        record = decision.record
        if decision.owner is not None:
            record = replace(record, customer_id=self._kept(decision.owner).id)
        self._kept(record)
        return decision.what

    def _kept(self, record: Any) -> Any:
        """The record under its number, kept and learnt."""
        if isinstance(record, Customer):
            numbered: Any = replace(record, id=customer_told(self._tx, record))
        elif isinstance(record, Vehicle):
            numbered = record if record.id else replace(record, id=self._next_vehicle())
            self._tx.keep(vehicle_draft(numbered))
        else:
            numbered = record if record.id else replace(record, id=self._tx.next_entry)
            facts = {name: getattr(numbered, name) for name in OF_PART}
            self._tx.keep(Draft("part/1", f"part/{numbered.id}", facts | {"part": numbered.id}))
        self._known.learn(numbered)
        return numbered

    def _next_vehicle(self) -> int:
        self._vehicle = self._vehicle + 1 if self._vehicle else int(self._tx.next_vehicle_id())
        return self._vehicle


def _decided(known: Known, kind: str, facts: Facts) -> Decision:
    """What the plan decided, decided again. Others may have written meanwhile: where the row could now mean several, a
    new record is one too many, and better than the wrong one."""
    try:
        return decide(known, kind, facts)
    except ValueError:
        named = {name: value for name, value in facts.items() if name not in BY_NUMBER}
    try:
        return decide(known, kind, named)
    except ValueError:
        return _new(kind, named)


def _new(kind: str, facts: Facts) -> Decision:
    told: dict[str, Any] = {name: facts[name] for name in NAMES[kind] if name in facts}
    return Decision("new", replace(BLANK[kind], **told))
