"""Another odometer reading of a job: at the road test, or as stated."""

from jobbook.core.errors import Refused
from jobbook.core.odometers import doubt
from jobbook.core.people import Person
from jobbook.services.intake import keep_odometer, read_odometer
from jobbook.services.opened import OpenBook
from jobbook.services.people import writing

KINDS = ("in", "test", "stated")


def add_odometer(book: OpenBook, who: Person, job: int, typed: str, unit: str, what: str, note: str = "") -> None:
    """Keep one more reading. Refused without a note where the last one makes it doubtful."""
    if what not in KINDS:
        raise Refused("The reading was not kept: say when it was read.")
    value = read_odometer(typed)
    with writing(book, who, "work", "desk") as tx:
        vehicle = tx.jobs.get(job).vehicle_id
        question = doubt(next(iter(tx.vehicles.odometers(vehicle)), None), value, unit)
        if question and not note.strip():
            raise Refused(f"The reading was not kept yet. {question}")
        keep_odometer(tx, vehicle, job, value, unit, what, note.strip())
