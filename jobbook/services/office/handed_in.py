"""What was handed over with the vehicle: kept once, corrected by a whole entry that names the one before it."""

from dataclasses import asdict

from jobbook.core.desk.handed_in import HandedIn
from jobbook.core.errors import Conflict, Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

KIND = "handed-in/1"
SEALED = ("belongings", "said")


def handed_in(reading: Book, job: int) -> HandedIn:
    """What was handed over, as it was kept last; empty where nothing was."""
    last = next(iter(reversed(reading.journal.entries(job=job, kind=KIND))), None)
    if last is None:
        return HandedIn()
    keys, loan_car, lamps = (str(last.payload.get(key, "")) for key in ("keys", "loan_car", "lamps"))
    belongings, said = (reading.sealed(last.payload.get(key, "")) for key in SEALED)
    return HandedIn(keys, belongings, loan_car, lamps, said, last.number)


def of_job(book: OpenBook, job: int) -> HandedIn:
    with book.store.read() as reading:
        return handed_in(reading, job)


def keep_handed_in(book: OpenBook, who: Person, job: int, told: HandedIn) -> None:
    """Keep what was handed over. `told.entry` is that of what it corrects, 0 where nothing was kept before."""
    if not any((value or "").strip() for value in (told.keys, told.belongings, told.loan_car, told.lamps, told.said)):
        raise Refused("Nothing was kept: say what was handed over with the vehicle; “none” is an answer.")
    with writing(book, who, "desk", "work") as tx:
        before = handed_in(tx, job)
        if before.entry != told.entry:
            raise Conflict("Nothing was kept: somebody else wrote down meanwhile what was handed over. Look at that.")
        facts = {key: value.strip() for key, value in asdict(told).items() if key not in ("entry", *SEALED)}
        facts |= {key: tx.seal((getattr(told, key) or "").strip()) for key in SEALED} | {"job": job}
        tx.keep(Draft(KIND, f"job/{job}", facts, job=job, replaces=before.entry or None))
