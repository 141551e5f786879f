"""Fault codes of a job: kept as shown, compared before and after, cleared with a name and a time."""

from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

CODE = "fault-code/1"


def clear_code(book: OpenBook, who: Person, job: int, entry: int, by: str, at: str) -> Written:
    """Keep that a code was cleared, by whom and when: a correction of its entry, so that the reading stays readable."""
    if not by.strip() or not at.strip():
        raise Refused("Nothing was kept: say who cleared the code, and when.")
    with writing(book, who, "work", "desk") as tx:
        there = [one for one in tx.fault_codes(job) if one.entry == entry and one.code]
        if not there:
            raise NotFound(f"Job {job} has no such code any more; nothing was changed. Look at its codes again.")
        before = tx.journal.get(entry)
        facts = dict(before.payload) | {"cleared": f"by {by.strip()}, {at.strip()}"}
        said = {"done_at": before.done_at, "done_by": str(before.facts["done_by"])}
        kept = tx.keep(Draft(CODE, f"job/{job}", facts, job=job, replaces=entry, reason="cleared", **said))
    return written(kept, f"{there[0].module}: {there[0].code} cleared")
