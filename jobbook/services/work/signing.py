"""Sign acts, and take back what is not signed."""

from collections.abc import Sequence

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.work.model import Act
from jobbook.db.store import WritingBook
from jobbook.services.house.people import as_learner, writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.job.replay import Kept, kept_acts, piece_ids, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.choices import stands_alone
from jobbook.services.work.written import Written, written

UNDOABLE = ("act/1", "begun/1")


def sign(book: OpenBook, signer: Person, job: int, act_ids: Sequence[str]) -> Written:
    """Sign acts of this person that are kept but not signed. Others' acts stay; what stands alone is signed alone."""
    with writing(book, signer, "work") as tx:
        waiting = {k.entry.act: k for k in kept_acts(work_entries(tx, job)) if not k.signed}
        wanted = [waiting[act] for act in act_ids if act in waiting and waiting[act].act.by == signer.id]
        if not wanted:
            raise Refused(f"Nothing was signed: none of these acts is {signer.name}'s, and nobody signs for another.")
        if len(wanted) > 1 and any(stands_alone(k.act) for k in wanted):
            raise Refused("Nothing was signed: air, support and torques are signed one by one.")
        joint = wanted[0].act.on if wanted[0].act.do in ("tighten", "second_check") else ""
        facts = {"job": job, "acts": [k.entry.act for k in wanted], "joint": joint, "meaning": "did"}
        facts |= as_learner(tx, signer)
        entry = tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning="did"))
    return written(entry, f"{len(wanted)} acts signed" if len(wanted) > 1 else "Signed")


def undo(book: OpenBook, who: Person, job: int, act_id: str) -> Written:
    """Take back an act that is not signed: plainly, without a reason, by the person who did it or entered it. Its
    pieces come back, and what was kept beside it (a fault code, a finding) goes with it."""
    with writing(book, who) as tx:
        in_hand(tx, job)
        kept = kept_acts(work_entries(tx, job))
        one = _may_undo(kept, who, act_id)
        entry = tx.keep(Draft("undone/1", f"job/{job}", {"job": job, "act": act_id}, job=job))
        for act in _beside(tx, job, act_id):
            tx.keep(Draft("undone/1", f"job/{job}", {"job": job, "act": act}, job=job))
        for piece in piece_ids(one.act) | _part_of(tx, job, one.act):
            facts = {"job": job, "piece": piece, "state": "issued", "reason": "undone"}
            tx.keep(Draft("piece-state/1", f"job/{job}", facts, job=job))
    return written(entry, "Undone")


def _may_undo(kept: Sequence[Kept], who: Person, act_id: str) -> Kept:
    one = next((k for k in kept if k.entry.act == act_id and k.entry.kind in UNDOABLE), None)
    if one is None or one.act.do == "figure":
        raise Refused("Nothing was changed: that act is not there any more.")
    if one.signed:
        raise Refused("Nothing was changed: a signed act is not undone. Keep a correction beside it, with its reason.")
    if who.id not in (one.entry.facts["done_by"], one.entry.facts["entered_by"]):
        raise Refused("Nothing was changed: only the person who did it undoes it before it is signed.")
    if one.act.do == "begin" and any(_answers(k.act, one.act) for k in kept):
        raise Refused("Nothing was changed: steps of this method are kept already. Undo those first.")
    return one


def _answers(act: Act, begun: Act) -> bool:
    return bool(act.step) and (act.method_key, act.corner) == (begun.method_key, begun.corner)


def _beside(tx: WritingBook, job: int, act_id: str) -> list[str]:
    entries = tx.journal.entries(job=job, kind=("act/1", "fault-code/1"))
    return [entry.act for entry in entries if entry.payload.get("beside") == act_id]


def _part_of(tx: WritingBook, job: int, act: Act) -> set[str]:
    if act.do != "put_on" or act.piece == "same":
        return set()
    fitted = [p.id for p in tx.pieces.of_job(job) if p.serves == act.on and p.state == "fitted"]
    return set(fitted[-1:])
