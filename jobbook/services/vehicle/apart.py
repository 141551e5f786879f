"""Two numbers that were brought together by mistake are taken apart again, with a reason; both show the trace.

Each has again what was written under its number. What was written since the two were one stays where it was written:
nobody knows which of the two was meant."""

from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.db import merges
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicles import vehicle_draft

FILLED = ("vin", "make", "model", "year", "variant", "vin_from", "elsewhere")
STAYS = (
    "Each gets back what was written under its number. What was written since they were brought together stays where "
    "it is: look through it, and move a job that is the other's."
)


@dataclass(frozen=True)
class Together:
    """A trace: two numbers that were brought together, and taken apart again where `apart` is set."""

    what: str
    gone: int
    kept: int
    at: str
    who: str
    reason: str
    apart: bool


def together(reading: Book, what: str, number: int) -> tuple[Together, ...]:
    """What was brought together with this number, and what was taken apart again, in the order in which it was kept."""
    return tuple(_trace(reading, one) for one in merges.traces(reading, what, number))


def _trace(reading: Book, entry: Entry) -> Together:
    facts = entry.payload
    told = (str(facts["what"]), int(facts["gone"]), int(facts["kept"]))
    who = reading.people.get(entry.done_by).name
    return Together(*told, entry.done_at, who, str(entry.facts["reason"]), entry.kind == merges.APART)


def take_apart(book: OpenBook, who: Person, what: str, gone: int, reason: str) -> None:
    """Take back that two vehicles or customers are one. `gone`: the number that was brought under the other.

    Refused without a reason, and where the other one was brought under a third meanwhile."""
    if not reason.strip():
        raise Refused("Nothing was changed: say how it was found that they are two.")
    with writing(book, who, "desk") as tx:
        merge = merges.merge_of(tx, what, gone)
        tx.keep(Draft(merges.APART, f"{what}/{gone}", merges.what_it_brought(tx, merge), reason=reason.strip()))
        if what == "vehicle":
            _give_back_what_filled(tx, merge)


def _give_back_what_filled(tx: WritingBook, merge: Entry) -> None:
    """What only the other one had known goes from the one that stays, unless it was said otherwise since."""
    kept = int(merge.payload["kept"])
    filled = tx.journal.entries(kind="vehicle/1", after=merge.number, limit=1)
    if not filled or filled[0].number != merge.number + 1 or filled[0].payload["vehicle"] != kept:
        return
    before, after = merges.spoken(tx, "vehicle", kept, merge.number).payload, filled[0].payload
    there = tx.vehicles.get(kept)
    brought = [one for one in FILLED if not before.get(one) and after.get(one) and getattr(there, one) == after[one]]
    if brought:
        tx.keep(vehicle_draft(replace(there, **dict.fromkeys(brought, ""))))  # type: ignore[arg-type]
