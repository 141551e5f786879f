"""Keep what was done: the rules judge it once more inside the write, and what belongs to it is kept beside it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.journal import Draft, Entry
from jobbook.core.people import Person
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import Act
from jobbook.core.work.rules import perform, refusals
from jobbook.core.work.state import State
from jobbook.db.store import WritingBook
from jobbook.services.asks import answered, outside_limits
from jobbook.services.bay import Bay
from jobbook.services.opened import OpenBook
from jobbook.services.people import need
from jobbook.services.replay import Kept, kept_acts, state_of, work_entries
from jobbook.services.sheets import Choice
from jobbook.services.work.figures import bay_of, figure_acts, specifications_of
from jobbook.services.work.pieces import fitted_pieces, look_at_serial
from jobbook.services.work.waiting import begin_to_wait
from jobbook.services.work.written import Written, words_of, written

USES_FIGURES = ("tighten", "vent", "fill", "wait", "second_check")
WORKED = ("loosen", "take_out", "open", "take_off")


def keep(
    book: OpenBook,
    who: Person,
    job: int,
    choice: Choice,
    answers: Mapping[str, str],
    *,
    signer: Person | None = None,
    happened: str = "",
) -> Written:
    """Keep what was done. The rules judge it again inside the write.

    `happened`: the reason for keeping it although a rule refuses it, because it has been done already."""
    doer = signer or who
    need(doer, "check" if choice.second_person else "work")
    if choice.signs and signer is None:
        raise Refused("Nothing was kept: this is signed by the person who did it, with PIN or badge.")
    with book.store.write(who.id) as tx:
        kept = kept_acts(work_entries(tx, job))
        bay = bay_of(tx, job, kept, book)
        if choice.key == "wait-begun":
            return begin_to_wait(tx, book, job, choice.act, bay.state)
        act = replace(answered(choice.act, answers, bay), by=doer.id)
        look_at_serial(act, bay)
        outside = outside_limits(act, bay.state)
        if outside and not act.reason:
            raise Refused(f"{outside} If that is what the tool showed, say why it stays; nothing was kept yet.")
        if happened:
            broken = tuple(one.rule for one in refusals(bay.state, act))
            act = replace(act, kept_after=broken, reason=happened) if broken else act
        perform(bay.state, act)
        entry = _keep_acts(tx, job, doer, bay, state_of(kept), act)
        _keep_beside(tx, job, doer, act, answers, outside)
        if signer is not None:
            _sign_what_belongs(tx, job, signer, kept, act, entry)
    return written(entry, f"{words_of(bay.state, act)} kept")


def keep_as_happened(
    book: OpenBook,
    who: Person,
    job: int,
    choice: Choice,
    answers: Mapping[str, str],
    reason: str,
    *,
    signer: Person | None = None,
) -> Written:
    """Keep what a rule refuses because it has been done already: with the rule's name, and as a loose end."""
    if not reason.strip():
        raise Refused("Nothing was kept: say how it came to be done, and what was done about it.")
    return keep(book, who, job, choice, answers, signer=signer, happened=reason.strip())


def _keep_acts(tx: WritingBook, job: int, doer: Person, bay: Bay, known: State, act: Act) -> Entry:
    for figure in figure_acts(known, specifications_of(tx, job)) if act.do in USES_FIGURES else ():
        _keep_act(tx, job, doer, figure)
    entry = _keep_act(tx, job, doer, act)
    for piece in fitted_pieces(bay, act):
        facts = {"job": job, "piece": piece, "state": "fitted", "reason": ""}
        tx.keep(Draft("piece-state/1", f"job/{job}", facts, job=job, done_by=doer.id))
    return entry


def _keep_act(tx: WritingBook, job: int, doer: Person, act: Act) -> Entry:
    plain = act_to_plain(replace(act, by="", at="", id=""))
    return tx.keep(Draft("act/1", f"job/{job}", {"job": job, "act": plain}, job=job, done_by=doer.id))


def _keep_beside(tx: WritingBook, job: int, doer: Person, act: Act, answers: Mapping[str, str], outside: str) -> None:
    """What follows from an act: a fault code as a fact of its own, a finding where a value lies outside its limits."""
    if outside:
        found = Act("inspect", finding="found wrong", text=f"{outside} {act.reason}")
        _keep_act(tx, job, doer, found)
    if act.do == "measure" and act.what == "fault_codes" and act.answer == "done":
        after = any(e.payload["act"].get("do") in WORKED for e in tx.journal.entries(job=job, kind="act/1"))
        facts = {"job": job, "when": "after" if after else "before"}
        facts |= {key: answers.get(key, "").strip() for key in ("module", "code", "status", "odometer", "cleared")}
        tx.keep(Draft("fault-code/1", f"job/{job}", facts | {"text": answers.get("words", "").strip()}, job=job))


def _sign_what_belongs(tx: WritingBook, job: int, signer: Person, kept: Sequence[Kept], act: Act, entry: Entry) -> None:
    """A joint is signed once, after its last stage: the signature names every stage of it that this person did."""
    acts = [entry.act]
    if act.do == "tighten":
        earlier = [k for k in kept if k.act.on == act.on and k.act.do in ("start", "tighten") and not k.signed]
        acts = [k.entry.act for k in earlier if k.act.by == signer.id] + acts
    meaning = "checked" if act.do == "second_check" else "did"
    facts = {"job": job, "acts": acts, "joint": act.on, "meaning": meaning}
    tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, done_by=signer.id, meaning=meaning))
