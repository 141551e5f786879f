"""Whoever is learning does the work and signs for it; what is tightened another person countersigns."""

from collections.abc import Sequence

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.work.model import LooseEnd
from jobbook.core.work.state import State, called
from jobbook.services.house.people import as_now, writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.job.replay import Kept, kept_acts, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

RULE = "not-countersigned"


def waiting(kept: Sequence[Kept]) -> tuple[Kept, ...]:
    """The tightenings that were signed by somebody who was learning then, and that nobody countersigned yet."""
    return tuple(k for k in kept if k.act.do == "tighten" and k.learning and not k.countersigned_by)


def open_ends(state: State, kept: Sequence[Kept]) -> tuple[LooseEnd, ...]:
    """One loose end for each joint whose tightening waits for a countersignature."""
    since = {k.act.on: k.act.at for k in reversed(waiting(kept))}
    words = "{} was tightened by somebody who is learning: countersign it."
    return tuple(
        LooseEnd(RULE, joint, words.format(called(state, joint)), "still to do", "half", at)
        for joint, at in sorted(since.items(), key=lambda one: one[1])
    )


def countersign(book: OpenBook, signer: Person, job: int, joint: str) -> Written:
    """Countersign the tightening of a joint: by another person, who may work and is not learning."""
    with writing(book, signer, "work", "check") as tx:
        in_hand(tx, job)
        mine = [k for k in waiting(kept_acts(work_entries(tx, job))) if k.act.on == joint]
        if not mine:
            raise Refused("Nothing was signed: no tightening of this joint waits for a countersignature.")
        if as_now(tx, signer).learning or signer.id in {k.signed_by for k in mine}:
            raise Refused("Nothing was signed: another person countersigns, who is not learning.")
        facts = {"job": job, "acts": [k.entry.act for k in mine], "joint": joint, "meaning": "countersigned"}
        entry = tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning="checked"))
    return written(entry, "Countersigned")
