"""Release: a vehicle goes back to its customer when nothing is loose, or a named person lets it go with a reason."""

from collections.abc import Sequence
from datetime import timedelta

from jobbook.core.desk.outcomes import RETORQUE
from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.leaving import held_by, wheels_were_out
from jobbook.core.work.model import Act, LooseEnd
from jobbook.core.work.state import State
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.job.replay import kept_acts, state_of, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.jobsheet import all_loose_ends
from jobbook.services.vehicle.odometers import keep_odometer, question_of, read_or_unknown
from jobbook.services.work import countersigning
from jobbook.services.work.passing import look_at_passing


def release(
    book: OpenBook,
    signer: Person,
    job: int,
    odometer: str,
    unit: str,
    restriction: str = "",
    let_go_reason: str = "",
    odometer_note: str = "",
) -> None:
    """Release the vehicle. Refused while loose ends are left, unless they are let go with a reason, which prints.

    The odometer out is a reading of its own; `odometer_note` answers the question that a doubtful one raises. Where
    wheel joints were out a visit to tighten them again is noted."""
    value = read_or_unknown(odometer)
    restriction, reason = restriction.strip(), let_go_reason.strip()
    with writing(book, signer, "release") as tx:
        there = tx.jobs.get(job)
        if there.stage == "released":
            raise Refused(f"Job {job} was released already, {there.released_at[:10]}; nothing was changed.")
        look_at_passing(tx, job)
        if question := question_of(tx, there.vehicle_id, value, unit, odometer_note):
            raise Refused(f"The vehicle was not released: {question}")
        kept = kept_acts(work_entries(tx, job))
        state = state_of(kept)
        ends = all_loose_ends(state, kept)
        if holds := held_by(state, ends, restriction, reason):
            raise Refused(f"The vehicle was not released: {holds}")
        _let_go(tx, job, ends, restriction, reason)
        keep_odometer(tx, there.vehicle_id, job, value, unit, "out", odometer_note.strip())
        gone = [{"rule": end.rule, "on": end.on, "what": end.sentence, "reason": reason} for end in ends]
        facts = {"job": job, "restriction": restriction, "let_go": gone}
        tx.keep(Draft("released/1", f"job/{job}", facts, job=job, meaning="released"))
        _remind_of_wheels(tx, book, job, state)


def _let_go(tx: WritingBook, job: int, ends: Sequence[LooseEnd], restriction: str, reason: str) -> None:
    """Each loose end is let go by an act of its own, all under one signature. Acts that nobody signed stay so."""
    acts = [
        Act("let_go", on=end.on, rule=end.rule, reason=reason, text=restriction)
        for end in ends
        if end.rule not in ("not-signed", countersigning.RULE)
    ]
    drafts = [
        Draft("act/1", f"job/{job}", {"job": job, "act": act_to_plain(act)}, job=job, meaning="released")
        for act in acts
    ]
    kept = [tx.keep(draft).act for draft in drafts]
    if kept:
        facts = {"job": job, "acts": kept, "joint": "", "meaning": "released"}
        tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning="released"))


def _remind_of_wheels(tx: WritingBook, book: OpenBook, job: int, state: State) -> None:
    """Note the visit, once: a job that was opened again after its release has its reminder already."""
    waiting = [one for one in tx.reminders.of_job(job) if one.what == RETORQUE and not one.outcome]
    if waiting or not wheels_were_out(state):
        return
    shop = tx.shop()
    due = (book.today() + timedelta(days=shop.retorque_days)).isoformat()
    facts = {"job": job, "what": RETORQUE, "due_on": due, "due_at": f"{shop.retorque_km} {shop.distance_unit}"}
    tx.keep(Draft("reminder/1", f"job/{job}", facts, job=job))
