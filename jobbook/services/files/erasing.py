"""Erasing the bytes of a file for somebody who asks for it, for instance whom a picture shows.

Whatever was said of the file stays: its digest, its times, where it belonged, who erased it and why. It is never taken
in again."""

from collections.abc import Mapping, Sequence

from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.record.files import KeptFile
from jobbook.core.vehicle.ownership import day_words
from jobbook.db.erasing import erase_content
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

MAY_ERASE = "people"


def erase(book: OpenBook, who: Person, job: int, entries: Sequence[int], reason: str) -> Written:
    """Erase the bytes and the names of files of a job, also of such as were taken away from it, wherever else the book
    has them. Refused without a reason; NotFound where they are erased already."""
    if not reason.strip():
        raise Refused("Nothing was erased: say why, for instance “asked for by the person whom it shows”.")
    with writing(book, who, MAY_ERASE) as tx:
        there = {file.entry: file for file in (*tx.files.of_job(job), *tx.files.away_of(job))}
        wanted = [there[entry] for entry in entries if entry in there and not there[entry].is_erased]
        if not wanted or len(wanted) != len(entries):
            raise NotFound("Nothing was erased: choose files whose bytes are still there. Look at the job again.")
        for digest in dict.fromkeys(file.digest for file in wanted):
            kept = erase_content(tx, digest, _names(tx, digest), reason.strip())
    return written(kept[-1], f"{len(wanted)} files erased for good" if len(wanted) > 1 else "1 file erased for good")


def _names(tx: WritingBook, digest: str) -> list[str]:
    """What stands for the names under which the content was kept, as far as they are still there."""
    names = (tx.journal.get(entry).payload.get("name", "") for entry, _job in tx.files.keepings(digest))
    return tx.customers.among_sealed([str(name) for name in names if name])


def refuse_what_was_erased(reading: Book, digest: str, name: str) -> None:
    """Refused where this content was erased: it does not come back by being dropped once more."""
    erasing = reading.files.erasing(digest)
    if erasing is not None:
        names = {person.id: person.name for person in reading.people.all()}
        said = erased_words(str(erasing.facts["entered_at"]), str(erasing.facts["done_by"]), names)
        raise Refused(f"“{name}” was not kept: it was {said}, and is not taken in again.")


def look_whether_erased(file: KeptFile) -> None:
    """Refused where there is nothing to look at any more."""
    if file.is_erased:
        raise Refused(f"“{file.called}” was erased on {day_words(file.erased_at)}: {file.erased_why}")


def erased_words(at: str, by: str, names: Mapping[str, str]) -> str:
    """“erased on 25 Nov 2026 by Imke Tolland”."""
    return f"erased on {day_words(at)} by {names.get(by, by)}"
