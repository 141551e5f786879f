"""What was found changed on a vehicle by others, and taken back: it bears on heights, figures and claims."""

from dataclasses import asdict, replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.ownership import MODIFICATIONS, Modification, look_at_since
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicles import still_itself


def add_modification(book: OpenBook, who: Person, vehicle: int, found: Modification) -> None:
    """Keep what was found changed on a vehicle. Refused where it is not said what, or what it does to the heights."""
    if found.what not in MODIFICATIONS:
        raise Refused(f"The modification was not kept: say what it is: {', '.join(MODIFICATIONS)}.")
    if not found.effect.strip():
        raise Refused("The modification was not kept: say what it does to the heights, or “not known”.")
    day = look_at_since(found.found_on, book.today(), (), "the day on which it was found")
    with writing(book, who, "work", "desk") as tx:
        _keep_modification(tx, still_itself(tx, vehicle).id, replace(found, found_on=day))


def modification_gone(book: OpenBook, who: Person, vehicle: int, entry: int, gone_on: str = "") -> None:
    """Keep that a modification was taken back: the vehicle is as its maker made it, in this."""
    with writing(book, who, "work", "desk") as tx:
        number = still_itself(tx, vehicle).id
        there = next((one for one in tx.vehicles.modifications(number) if one.entry == entry), None)
        if there is None or there.gone_on:
            raise Refused("Nothing was changed: this modification is not on the vehicle any more. Look at the list.")
        day = look_at_since(gone_on, book.today(), (), "the day on which it was taken back")
        _keep_modification(tx, number, replace(there, gone_on=day), replaces=entry)


def _keep_modification(tx: WritingBook, vehicle: int, found: Modification, replaces: int | None = None) -> None:
    kept = ("what", "where", "effect", "found_on", "changed_by", "gone_on")
    facts: dict[str, object] = {"vehicle": vehicle, "job": found.job}
    facts |= {key: str(told).strip() for key, told in asdict(found).items() if key in kept}
    reason = "taken back" if replaces is not None else ""
    draft = Draft("modification/1", f"vehicle/{vehicle}", facts, job=found.job or None)
    tx.keep(replace(draft, replaces=replaces, reason=reason))
