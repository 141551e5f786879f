"""Keep what was done: the rules judge it once more inside the write, and what belongs to it is kept beside it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import Act
from jobbook.core.work.rules import perform, refusals
from jobbook.db.store import WritingBook
from jobbook.services.house.people import as_learner, as_now, writing
from jobbook.services.job.in_hand import in_hand, reopen
from jobbook.services.job.late import NOT_LATE, Late, late_act, with_late
from jobbook.services.job.replay import Kept, kept_acts, work_entries
from jobbook.services.measured.outside import outside_limits
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.asks import answered, unanswered
from jobbook.services.sheet.bay import Bay
from jobbook.services.sheet.sheets import Choice
from jobbook.services.work.figures import bay_of
from jobbook.services.work.passing import look_at_passing
from jobbook.services.work.pieces import fitted_pieces, look_at_serial
from jobbook.services.work.waiting import begin_to_wait, look_at_wait
from jobbook.services.work.written import Written, words_of, written

USES_FIGURES = ("tighten", "vent", "fill", "wait", "second_check")
CODE_FACTS = ("module", "code", "status", "odometer", "cleared")


def keep(
    book: OpenBook,
    who: Person,
    job: int,
    choice: Choice,
    answers: Mapping[str, str],
    *,
    signer: Person | None = None,
    happened: str = "",
    attempt: str = "",
    written_down: Mapping[str, str] = NOT_LATE,
) -> Written:
    """Keep what was done. The rules judge it again inside the write.

    `happened`: the reason for keeping it although a rule refuses it, because it has been done already. `attempt` names
    this doing: given again after a broken connection, the act is not kept twice. `written_down`: the late facts of what
    somebody else did and wrote on paper; it waits for that person's signature."""
    if choice.signs and signer is None and not written_down:
        raise Refused("Nothing was kept: this is signed by the person who did it, with PIN or badge.")
    with writing(book, who, *(("work", "desk") if written_down else ())) as tx:
        before = tx.journal.by_act(attempt) if attempt else None
        if before is not None:
            return written(before, "Kept already")
        late = late_act(tx, choice, written_down, book.clock())
        doer = tx.people.get(late.done_by) if late.noted else as_now(tx, signer or who, _permission(choice))
        _look_at_job(tx, job, happened)
        kept = kept_acts(work_entries(tx, job))
        bay = bay_of(tx, job, kept, book)
        if choice.key == "wait-begun":
            return begin_to_wait(tx, book, job, doer, choice.act, bay.state)
        act = _as_done(choice, answers, bay, doer, happened)
        if not happened:
            look_at_wait(tx, job, act, book.clock())
        perform(bay.state, act)
        entry = _keep_acts(tx, job, doer, bay, act, attempt, late)
        beside = _keep_beside(tx, job, doer, bay, act, answers, entry)
        if signer is not None and not late.noted:
            _sign_what_belongs(tx, job, doer, kept, act, (entry, *beside))
    return written(entry, f"{words_of(bay.state, act)} kept")


def _look_at_job(tx: WritingBook, job: int, happened: str) -> None:
    """Refuse a job that is closed, or on its way to another person; what has happened opens a released one again."""
    if happened:
        reopen(tx, job, happened)
    in_hand(tx, job)
    look_at_passing(tx, job)


def _permission(choice: Choice) -> str:
    return "check" if choice.act.do == "second_check" else "work"


def keep_as_happened(
    book: OpenBook,
    who: Person,
    job: int,
    choice: Choice,
    answers: Mapping[str, str],
    reason: str,
    *,
    signer: Person | None = None,
    attempt: str = "",
) -> Written:
    """Keep what a rule refuses because it has been done already: with the rule's name, and as a loose end. A job that
    was released is opened again by it."""
    if not reason.strip():
        raise Refused("Nothing was kept: say how it came to be done, and what was done about it.")
    return keep(book, who, job, choice, answers, signer=signer, happened=reason.strip(), attempt=attempt)


def _as_done(choice: Choice, answers: Mapping[str, str], bay: Bay, doer: Person, happened: str) -> Act:
    """The act with its answers, looked at: the serial, the limits, and what it broke when it happened."""
    if missing := unanswered(choice.asks, answers):
        raise Refused(f"Nothing was kept: it still needs an answer to {' and '.join(f'“{one}”' for one in missing)}.")
    act = replace(answered(choice.act, answers, bay), by=doer.id)
    look_at_serial(act, bay)
    outside = outside_limits(act, bay.state)
    if outside and not act.reason:
        raise Refused(f"{outside} If that is what the tool showed, say why it stays; nothing was kept yet.")
    if not happened:
        return act
    broken = tuple(dict.fromkeys(one.rule for one in refusals(bay.state, act)))
    return replace(act, kept_after=broken, reason="; ".join(filter(None, (act.reason, happened))))


def _keep_acts(tx: WritingBook, job: int, doer: Person, bay: Bay, act: Act, attempt: str, late: Late) -> Entry:
    for figure in bay.taking if act.do in USES_FIGURES else ():
        tx.keep(_draft(job, doer, figure))
    entry = tx.keep(with_late(replace(_draft(job, doer, act), act=attempt), late))
    for piece in fitted_pieces(bay, act):
        facts = {"job": job, "piece": piece, "state": "fitted", "reason": ""}
        tx.keep(Draft("piece-state/1", f"job/{job}", facts, job=job, done_by=doer.id))
    return entry


def _draft(job: int, doer: Person, act: Act, beside: str = "") -> Draft:
    facts = {"job": job, "act": act_to_plain(replace(act, by="", at="", id=""))}
    return Draft("act/1", f"job/{job}", facts | ({"beside": beside} if beside else {}), job=job, done_by=doer.id)


def keep_outside(tx: WritingBook, job: int, doer: Person, outside: str, act: Act, beside: str) -> Entry:
    """Keep the finding that a value lies outside its limits; `beside` is the act that it belongs to."""
    found = Act("inspect", finding="found wrong", text=f"{outside} {act.reason}".strip())
    return tx.keep(_draft(job, doer, found, beside))


def _keep_beside(
    tx: WritingBook, job: int, doer: Person, bay: Bay, act: Act, answers: Mapping[str, str], entry: Entry
) -> tuple[Entry, ...]:
    """What follows from an act: a fault code as a fact of its own, a finding where a value lies outside its limits.
    Each names the act that it stands beside, so that both are taken back together. Returns the acts among them."""
    if act.do == "measure" and act.what == "fault_codes" and act.answer == "done":
        facts = {"job": job, "when": "after" if bay.state.order.worked else "before", "beside": entry.act}
        facts |= {key: answers.get(key, "").strip() for key in CODE_FACTS}
        facts |= {"text": answers.get("words", "").strip()}
        tx.keep(Draft("fault-code/1", f"job/{job}", facts, job=job, done_by=doer.id))
    outside = outside_limits(act, bay.state)
    return (keep_outside(tx, job, doer, outside, act, entry.act),) if outside else ()


def _sign_what_belongs(
    tx: WritingBook, job: int, signer: Person, kept: Sequence[Kept], act: Act, entries: Sequence[Entry]
) -> None:
    """A joint is signed once, after its last stage: the signature names every stage of it that this person did, and
    what was found in them."""
    mine = [k for k in kept if not k.signed and k.act.by == signer.id]
    stages = [k.entry.act for k in mine if act.do == "tighten" and k.act.on == act.on and k.act.do in STAGES]
    found = [k.entry.act for k in mine if k.entry.payload.get("beside") in stages]
    acts = [*stages, *found, *(entry.act for entry in entries)]
    meaning = "checked" if act.do == "second_check" else "did"
    facts = {"job": job, "acts": acts, "joint": act.on, "meaning": meaning} | as_learner(tx, signer)
    tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, done_by=signer.id, meaning=meaning))


STAGES = ("start", "tighten")
