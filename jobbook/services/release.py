"""Release: a vehicle goes back to its customer when nothing is loose, or when a named person lets it go with a reason."""

from datetime import timedelta

from jobbook.core.errors import Refused
from jobbook.core.journal import Draft
from jobbook.core.people import Person
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import Act, Joint, LooseEnd
from jobbook.core.work.state import State
from jobbook.db.store import WritingBook
from jobbook.services.intake import keep_odometer, read_odometer
from jobbook.services.jobsheet import all_loose_ends
from jobbook.services.opened import OpenBook
from jobbook.services.people import need
from jobbook.services.replay import kept_acts, state_of, work_entries
from jobbook.services.vehicles import falling

RETORQUE = "Wheel joints tightened once more"


def release(
    book: OpenBook,
    signer: Person,
    job: int,
    odometer: str,
    unit: str,
    restriction: str = "",
    let_go_reason: str = "",
) -> None:
    """Release the vehicle. Refused while loose ends are left, unless they are let go with a reason, which prints.

    The odometer out is a reading of its own. Where wheel joints were out a visit to tighten them again is noted."""
    need(signer, "release")
    value = read_odometer(odometer)
    with book.store.write(signer.id) as tx:
        there = tx.jobs.get(job)
        if there.stage == "released":
            raise Refused(f"Job {job} was released already, {there.released_at[:10]}; nothing was changed.")
        last = next(iter(tx.vehicles.odometers(there.vehicle_id)), None)
        question = falling(last, value, unit) if last is not None else ""
        if question:
            raise Refused(f"The vehicle was not released: {question}")
        kept = kept_acts(work_entries(tx, job))
        state = state_of(kept)
        ends = all_loose_ends(state, kept)
        _look_at_ends(ends, state, restriction.strip(), let_go_reason.strip())
        gone = [{"rule": e.rule, "on": e.on, "what": e.sentence, "reason": let_go_reason.strip()} for e in ends]
        _let_go(tx, job, ends, state, restriction.strip(), let_go_reason.strip())
        keep_odometer(tx, there.vehicle_id, job, value, unit, "out")
        facts = {"job": job, "restriction": restriction.strip(), "let_go": gone}
        tx.keep(Draft("released/1", f"job/{job}", facts, job=job, meaning="released"))
        _remind_of_wheels(tx, book, job, state)


def _look_at_ends(ends: tuple[LooseEnd, ...], state: State, restriction: str, reason: str) -> None:
    if ends and not reason:
        first = ends[0].sentence
        more = f" And {len(ends) - 1} more." if len(ends) > 1 else ""
        raise Refused(f"The vehicle was not released: {first}{more} Close them, or let them go with a reason.")
    grave = [found for found in state.findings.values() if found.kind == "must not leave so" and not found.ended]
    if grave and not restriction:
        raise Refused(f"“{grave[0].text}” must not leave so: repair it, or name the restriction it leaves with.")


def _let_go(tx: WritingBook, job: int, ends: tuple[LooseEnd, ...], state: State, restriction: str, reason: str) -> None:
    for end in ends:
        if end.rule != "not-signed":
            act = Act("let_go", on=end.on, rule=end.rule, reason=reason, text=restriction)
            draft = Draft("act/1", f"job/{job}", {"job": job, "act": act_to_plain(act)}, job=job, meaning="released")
            entry = tx.keep(draft)
            facts = {"job": job, "acts": [entry.act], "joint": "", "meaning": "released"}
            tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning="released"))


def wheels_were_out(state: State) -> bool:
    wheels = {name for name, thing in state.things.items() if isinstance(thing, Joint) and thing.wheel}
    return any(state.joints[name].touched for name in wheels)


def _remind_of_wheels(tx: WritingBook, book: OpenBook, job: int, state: State) -> None:
    if not wheels_were_out(state):
        return
    shop = tx.shop()
    due = book.today() + timedelta(days=shop.retorque_days)
    facts = {
        "job": job,
        "what": RETORQUE,
        "due_on": due.isoformat(),
        "due_at": f"{shop.retorque_km} {shop.distance_unit}",
    }
    tx.keep(Draft("reminder/1", f"job/{job}", facts, job=job))
