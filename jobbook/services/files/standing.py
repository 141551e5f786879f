"""What is said of files that are kept: where they belong, whether they are shown, their marks, that they are gone."""

from collections.abc import Sequence
from dataclasses import asdict

from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.record.files import Mark, look_at_marks
from jobbook.core.record.journal import Draft, Entry
from jobbook.db.files import ASSIGNED, CHOSEN, MARKED
from jobbook.db.store import WritingBook
from jobbook.services.files.erasing import look_whether_erased
from jobbook.services.files.places import look_at_place
from jobbook.services.house.people import writing
from jobbook.services.job import moving
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

MAY = ("work", "desk")
MOST_MARKS = 50


def assign(book: OpenBook, who: Person, job: int, entries: Sequence[int], to: str) -> Written:
    """Say what files belong to: the key of a place of the job, or "" for the tray."""
    look_at_place(to)
    with writing(book, who, *MAY) as tx:
        kept = _say(tx, job, ASSIGNED, entries, {"to": to})
    return written(kept, f"{_many(entries)} {'assigned' if to else 'back in the tray'}")


def choose(book: OpenBook, who: Person, job: int, entries: Sequence[int], chosen: bool) -> Written:
    """Say whether pictures are shown in the evidence; every file is listed there either way."""
    with writing(book, who, *MAY) as tx:
        wanted = [file for file in tx.files.of_job(job) if file.entry in entries]
        for file in wanted if chosen else ():
            look_whether_erased(file)
        if any(not file.is_picture for file in wanted):
            raise Refused(
                "Nothing was changed: only pictures can be shown in the evidence; every file is listed there."
            )
        kept = _say(tx, job, CHOSEN, entries, {"chosen": chosen})
    return written(kept, f"{_many(entries)} {'shown' if chosen else 'not shown'} in the evidence")


def set_marks(book: OpenBook, who: Person, job: int, entry: int, marks: tuple[Mark, ...]) -> Written:
    """Keep the marks of a picture beside it; they take the place of those before, which stay readable."""
    if not look_at_marks(marks) or len(marks) > MOST_MARKS:
        raise Refused(f"The marks were not kept: a picture takes up to {MOST_MARKS}, all within it.")
    with writing(book, who, *MAY) as tx:
        look_whether_erased(tx.files.get(job, entry))
        if not tx.files.get(job, entry).is_picture:
            raise Refused("The marks were not kept: only pictures can be marked.")
        kept = _say(tx, job, MARKED, (entry,), {"marks": [asdict(one) for one in marks]})
    return written(kept, f"{len(marks)} mark{'' if len(marks) == 1 else 's'} kept")


def take_away(book: OpenBook, who: Person, job: int, entries: Sequence[int], reason: str) -> Written:
    """Let files count no longer, with the reason. Their bytes stay, since the journal names them."""
    if not reason.strip():
        raise Refused("Nothing was taken away: say why these files do not belong here.")
    with writing(book, who, *MAY) as tx:
        _look_up(tx, job, entries)
        for number in entries:
            facts = {"job": job, "act": tx.journal.get(number).act}
            kept = tx.keep(Draft("undone/1", f"job/{job}", facts, job=job, reason=reason.strip()))
    return written(kept, f"{_many(entries)} taken away")


def bring_back(book: OpenBook, who: Person, job: int, entries: Sequence[int], reason: str) -> Written:
    """Let files count again that were taken away: they are kept anew as they came, and lie in the tray."""
    if not reason.strip():
        raise Refused("Nothing was brought back: say why.")
    with writing(book, who, *MAY) as tx:
        away = {file.entry: file for file in tx.files.away_of(job)}
        if not entries or not away.keys() >= set(entries):
            raise NotFound("Nothing was brought back: it is there already. Look at the files again.")
        for number in entries:
            look_whether_erased(away[number])
            entry = tx.journal.get(number)
            facts, doer = {**entry.payload, "to": ""}, str(entry.facts["done_by"])
            kept = tx.keep(
                Draft(
                    entry.kind, f"job/{job}", facts, job=job, done_at=entry.done_at, done_by=doer, reason=reason.strip()
                )
            )
    return written(kept, f"{_many(entries)} back in the tray")


def move_files(book: OpenBook, who: Person, job: int, entries: Sequence[int], to: int, reason: str) -> Written:
    """Move files to the job that they belong to; both jobs show it. They arrive in its tray."""
    with book.store.read() as reading:
        acts = [reading.journal.get(number).act for number in entries]
    return moving.move(book, who, job, acts, to, reason)


def _say(tx: WritingBook, job: int, kind: str, entries: Sequence[int], more: dict[str, object]) -> Entry:
    _look_up(tx, job, entries)
    facts: dict[str, object] = {"job": job, "files": list(entries)}
    return tx.keep(Draft(kind, f"job/{job}", facts | more, job=job))


def _look_up(tx: WritingBook, job: int, entries: Sequence[int]) -> None:
    there = {file.entry for file in tx.files.of_job(job)}
    if not entries or not there.issuperset(entries):
        raise NotFound(f"Nothing was changed: choose files that job {job} has. Look at its files again.")


def _many(entries: Sequence[int]) -> str:
    return "1 file" if len(entries) == 1 else f"{len(entries)} files"
