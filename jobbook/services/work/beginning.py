"""Begin a method on a job."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from jobbook.core.errors import Conflict, NotFound
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.begin import begin
from jobbook.core.work.model import Act
from jobbook.core.work.rules import perform
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.job.methods import get_method, parsed, running_methods
from jobbook.services.job.replay import Kept, kept_acts, state_of, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.work.passing import look_at_passing
from jobbook.services.work.written import Written, written


def begin_method(book: OpenBook, who: Person, job: int, key: str, corner: str, options: Mapping[str, bool]) -> Written:
    """Begin a method at a corner. The job keeps the revision that it begins with."""
    card = get_method(key)
    method = parsed(card.text)
    act = begin(method, corner, options)
    with writing(book, who, "work") as tx:
        in_hand(tx, job)
        look_at_passing(tx, job)
        kept = kept_acts(work_entries(tx, job))
        _look_for_the_same(tx, kept, act)
        perform(state_of(kept), replace(act, by=who.id))
        if not _has_method(tx, method.digest):
            tx.keep(Draft("method/1", "method", {"digest": method.digest, "title": method.title, "text": method.text}))
        facts = {"job": job, "method": method.digest, "corner": corner, "options": dict(options), "key": method.key}
        entry = tx.keep(Draft("begun/1", f"job/{job}", facts | {"act": act_to_plain(act)}, job=job))
    return written(entry, f"{method.title} begun")


def _has_method(tx: WritingBook, digest: str) -> bool:
    try:
        return bool(tx.methods.get(digest))
    except NotFound:
        return False


def _look_for_the_same(tx: WritingBook, kept: Sequence[Kept], act: Act) -> None:
    for one in running_methods(tx, kept):
        if one.method.key == act.method_key and one.corner == act.corner:
            where = act.corner or "this vehicle"
            raise Conflict(f"Nothing was begun: {act.text} was begun at {where} already. Go on with it.")
