"""Sign acts, and take back what is not signed."""

from collections.abc import Sequence

from jobbook.core.errors import Refused
from jobbook.core.journal import Draft
from jobbook.core.people import Person
from jobbook.core.work.model import Act
from jobbook.db.store import WritingBook
from jobbook.services.choices import stands_alone
from jobbook.services.opened import OpenBook
from jobbook.services.people import need
from jobbook.services.replay import kept_acts, work_entries
from jobbook.services.work.written import Written, written


def sign(book: OpenBook, signer: Person, job: int, act_ids: Sequence[str]) -> Written:
    """Sign acts of this person that are kept but not signed. Those of others stay; what stands alone is signed alone."""
    need(signer, "work")
    with book.store.write(signer.id) as tx:
        waiting = {k.entry.act: k for k in kept_acts(work_entries(tx, job)) if not k.signed}
        wanted = [waiting[act] for act in act_ids if act in waiting and waiting[act].act.by == signer.id]
        if not wanted:
            raise Refused(f"Nothing was signed: none of these acts is {signer.name}'s, and nobody signs for another.")
        if len(wanted) > 1 and any(stands_alone(k.act) for k in wanted):
            raise Refused("Nothing was signed: air, support and torques are signed one by one.")
        facts = {"job": job, "acts": [k.entry.act for k in wanted], "joint": "", "meaning": "did"}
        entry = tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning="did"))
    return written(entry, f"{len(wanted)} acts signed" if len(wanted) > 1 else "Signed")


def undo(book: OpenBook, who: Person, job: int, act_id: str) -> Written:
    """Take back an act that is not signed: plainly, without a reason, by the person who did it or entered it."""
    with book.store.write(who.id) as tx:
        kept = {k.entry.act: k for k in kept_acts(work_entries(tx, job))}
        one = kept.get(act_id)
        if one is None:
            raise Refused("That act is not there any more; nothing was changed.")
        if one.signed:
            raise Refused("A signed act is not undone: keep a correction beside it, with its reason.")
        if who.id not in (one.entry.facts["done_by"], one.entry.facts["entered_by"]):
            raise Refused("Nothing was changed: only the person who did it undoes it before it is signed.")
        entry = tx.keep(Draft("undone/1", f"job/{job}", {"job": job, "act": act_id}, job=job))
        for piece in {name.rsplit(" ", 1)[-1] for name in one.act.pieces} | _part_of(tx, job, one.act):
            facts = {"job": job, "piece": piece, "state": "issued", "reason": "undone"}
            tx.keep(Draft("piece-state/1", f"job/{job}", facts, job=job))
    return written(entry, "Undone")


def _part_of(tx: WritingBook, job: int, act: Act) -> set[str]:
    if act.do != "put_on" or act.piece == "same":
        return set()
    fitted = [p.id for p in tx.pieces.of_job(job) if p.serves == act.on and p.state == "fitted"]
    return set(fitted[-1:])
