"""The odometer readings of a job: in, out, and others between."""

from collections.abc import Sequence

from jobbook.core.errors import Refused
from jobbook.core.jobs import Job
from jobbook.core.people import Person
from jobbook.core.vehicle.odometers import NO_RESET, Reset
from jobbook.core.vehicle.vehicles import Odometer
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.odometers import keep_odometer, question_of, read_or_unknown

KINDS = ("in", "test", "stated")


def add_odometer(
    book: OpenBook,
    who: Person,
    job: int,
    typed: str,
    unit: str,
    what: str,
    note: str = "",
    reset: Reset = NO_RESET,
) -> None:
    """Keep one more reading. Refused without a note where the last one makes it doubtful."""
    if what not in KINDS:
        raise Refused("The reading was not kept: say when it was read.")
    value = read_or_unknown(typed)
    with writing(book, who, "work", "desk") as tx:
        vehicle = tx.jobs.get(job).vehicle_id
        if question := question_of(tx, vehicle, value, unit, note, reset):
            raise Refused(f"The reading was not kept yet. {question}")
        keep_odometer(tx, vehicle, job, value, unit, what, note.strip(), reset)


def odometers_of(reading: Book, job: Job) -> tuple[Odometer, ...]:
    """The readings of this job that count, the newest first; those of the vehicle's other visits are not among them."""
    mine = {entry.number for entry in reading.journal.entries(job=job.number, kind="odometer/1")}
    return tuple(one for one in reading.vehicles.odometers(job.vehicle_id) if one.entry in mine)


def read_when(odometers: Sequence[Odometer], *whats: str) -> Odometer | None:
    """The newest reading of the first of these kinds that there is one of."""
    found = (one for what in whats for one in odometers if one.what == what)
    return next(found, None)
