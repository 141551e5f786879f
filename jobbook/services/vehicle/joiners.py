"""Joiners in air lines, counted over the life of a vehicle: ours, and those found from others."""

from collections.abc import Iterable
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.core.vehicle.history import WHOSE, Joiner
from jobbook.core.work.model import CORNERS
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

JOINER = "line-joiner/1"
IN, GONE = "in", "gone"


def joiners_from(entries: Iterable[Entry]) -> tuple[Joiner, ...]:
    """The joiners that entries tell of, in order; one that went with its line says in which job."""
    found: dict[int, Joiner] = {}
    for entry in entries:
        facts = entry.payload
        if facts["state"] == GONE:
            there = found.get(int(facts["of"]))
            if there is not None:
                found[there.entry] = replace(there, gone_in=entry.job or 0)
            continue
        told = {name: facts.get(name, "") for name in ("line", "corner", "whose", "note")}
        found[entry.number] = Joiner(entry.number, entry.job or 0, entry.done_at, **told)
    return tuple(found.values())


def joiners(book: OpenBook, job: int) -> tuple[Joiner, ...]:
    """Every joiner of the vehicle of a job, from all its visits."""
    with book.store.read() as reading:
        return joiners_from(reading.history.of_the_vehicle(job, JOINER))


def add_joiner(book: OpenBook, who: Person, job: int, line: str, whose: str, corner: str = "", note: str = "") -> None:
    """Keep that a joiner is in a line: put in by us, or found. Whose it is decides whom a later leak belongs to."""
    if not line.strip() or whose not in WHOSE or corner not in ("", *CORNERS):
        raise Refused("The joiner was not kept: say in which line it is, and whether it is ours or was found.")
    facts = {"line": line.strip(), "corner": corner, "whose": whose, "state": IN, "of": "", "note": note.strip()}
    _keep(book, who, job, facts)


def joiner_gone(book: OpenBook, who: Person, job: int, joiner: int, note: str = "") -> None:
    """Keep that a joiner went with its line, which was renewed in this job."""
    there = next((one for one in joiners(book, job) if one.entry == joiner), None)
    if there is None or there.gone_in:
        raise Refused("Nothing was kept: this joiner is not in the lines of this vehicle. Look at the list again.")
    facts = {"line": there.line, "corner": there.corner, "whose": there.whose}
    _keep(book, who, job, facts | {"state": GONE, "of": str(joiner), "note": note.strip()})


def _keep(book: OpenBook, who: Person, job: int, facts: dict[str, str]) -> None:
    with writing(book, who, "work", "desk") as tx:
        tx.jobs.get(job)
        tx.keep(Draft(JOINER, f"job/{job}", facts | {"job": job}, job=job))
