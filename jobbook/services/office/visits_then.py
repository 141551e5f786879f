"""The visits after wheels were off, of one job and of a vehicle's whole life: for its page and for papers."""

from collections.abc import Sequence
from dataclasses import replace

from jobbook.core.desk.outcomes import RETORQUE
from jobbook.core.desk.retorque import VISIT_KINDS, VisitThen, visits_from
from jobbook.core.record.journal import Entry
from jobbook.db.store import Book


def visits_of_job(reading: Book, job: int) -> tuple[VisitThen, ...]:
    return _with_notes(reading, reading.journal.entries(job=job, kind=VISIT_KINDS))


def visits_of_vehicle(reading: Book, vehicle: int) -> tuple[VisitThen, ...]:
    """Those of every job of a vehicle, the newest first."""
    return tuple(reversed(_with_notes(reading, reading.history.entries(vehicle, *VISIT_KINDS))))


def _with_notes(reading: Book, entries: Sequence[Entry]) -> tuple[VisitThen, ...]:
    found = visits_from(entries, RETORQUE)
    said = reading.all_sealed(one.note or "" for one in found)
    return tuple(replace(one, note=said.get(one.note or "")) for one in found)
