"""The parts that the shop knows by their numbers: what they are, who supplies them, and the term."""

from dataclasses import asdict, replace

from jobbook.core.errors import Refused
from jobbook.core.lists.cells import kind_of_part, months, text
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.record.pages import Page
from jobbook.core.vehicle.parts import KnownPart
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

READ = {"number": text, "title": text, "supplier": text, "kind": kind_of_part, "note": text}


def known_parts(book: OpenBook, after: int | None = None, text: str = "", limit: int = 100) -> Page[KnownPart]:
    """A page of parts, the newest first; `text` finds by number, title and supplier as typed so far."""
    with book.store.read() as reading:
        rows = tuple(reading.parts.page(after=after, limit=limit, text=text))
    return Page(rows, rows[-1].id if len(rows) == limit else None)


def known_part(book: OpenBook, number: int) -> KnownPart:
    with book.store.read() as reading:
        return reading.parts.get(number)


def keep_part(book: OpenBook, who: Person, told: KnownPart) -> KnownPart:
    """Keep what is known of a part, a new one where the id is 0. Refused where another part has the number."""
    tidy = _read(told)
    with writing(book, who, "desk", "tools") as tx:
        other = tx.parts.numbered(tidy.number)
        if other is not None and other.id != tidy.id:
            raise Refused(
                f"The part was not kept: {other.number} is in the list already, as {other.title}. Change that one."
            )
        kept = tidy if tidy.id else replace(tidy, id=tx.next_entry)
        facts = asdict(kept)
        facts["part"] = facts.pop("id")
        tx.keep(Draft("part/1", f"part/{kept.id}", facts))
    return kept


def _read(told: KnownPart) -> KnownPart:
    """The part as the book keeps it; each fact is read as it is in lists."""
    try:
        facts = {name: read(getattr(told, name)) for name, read in READ.items()}
        facts["warranty_months"] = months(told.warranty_months) if told.warranty_months.strip() else ""
    except ValueError as error:
        raise Refused(f"The part was not kept: {error}.") from error
    if not facts["number"] or not facts["title"]:
        raise Refused("The part was not kept: it needs its number and what it is.")
    return KnownPart(told.id, **facts)
