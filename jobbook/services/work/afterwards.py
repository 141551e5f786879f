"""Afterwards: correct what was kept, allow beforehand, let go, end a finding, add what no method names."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.journal import Draft
from jobbook.core.people import Person
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import Act, Joint, Line, LooseEnd, Part
from jobbook.core.work.rules import perform
from jobbook.services.asks import answered
from jobbook.services.opened import OpenBook
from jobbook.services.people import need
from jobbook.services.replay import kept_acts, state_of, work_entries
from jobbook.services.work.figures import bay_of
from jobbook.services.work.written import Written, written


def correct(book: OpenBook, who: Person, entry: int, answers: Mapping[str, str], reason: str) -> Written:
    """Keep a correction of a kept act: what was answered now stands in place of what was; both stay readable."""
    if not reason.strip():
        raise Refused("The correction was not kept: it needs its reason.")
    with book.store.write(who.id) as tx:
        old = tx.journal.get(entry)
        job = old.job or 0
        kept = kept_acts(work_entries(tx, job))
        one = next((k for k in kept if k.entry.number == entry), None)
        if one is None:
            raise Refused("That entry is not a valid act of this job any more; nothing was changed.")
        if one.entry.facts["done_by"] != who.id:
            need(who, "allow")
        bay = bay_of(tx, job, kept, book)
        bare = replace(one.act, readings=(), reached=one.act.reached)
        act = answered(bare, answers, bay)
        plain = act_to_plain(replace(act, by="", at="", id=""))
        draft = Draft(
            "act/1", f"job/{job}", {"job": job, "act": plain}, job=job, done_at=old.done_at,
            done_by=str(old.facts["done_by"]), replaces=entry, reason=reason.strip(), meaning="did",
        )  # fmt: skip
        kept_entry = tx.keep(draft)
        if tx.jobs.get(job).stage == "released":
            tx.keep(Draft("reopened/1", f"job/{job}", {"job": job}, job=job, reason=reason.strip()))
    return written(kept_entry, f"Correction of entry {entry} kept")


def allow(book: OpenBook, signer: Person, job: int, rule: str, reason: str) -> Written:
    """Allow beforehand, once, what a rule about the vehicle refuses. The reason prints."""
    need(signer, "allow")
    return _own_act(book, signer, job, Act("allow", rule=rule, reason=reason.strip()), "allowed", "allowance/1")


def let_go(book: OpenBook, signer: Person, job: int, end: LooseEnd, reason: str, restriction: str = "") -> Written:
    """Let one loose end go with a reason. It stays printed on the papers."""
    need(signer, "release")
    act = Act("let_go", on=end.on, rule=end.rule, reason=reason.strip(), text=restriction.strip())
    return _own_act(book, signer, job, act, "released")


def end_finding(book: OpenBook, signer: Person, job: int, finding: str, how: str, reason: str = "") -> Written:
    """End what was found wrong: repaired, declined or referred."""
    need(signer, "work")
    return _own_act(book, signer, job, Act(how, on=finding, reason=reason.strip()), "did")


def add_thing(book: OpenBook, who: Person, job: int, thing: Joint | Line | Part) -> Written:
    """Add a thing that no begun method names: it becomes a loose end like any other."""
    need(who, "work")
    return _own_act(book, who, job, Act("declare", things=(thing,), corner=thing.corner), "did")


def _own_act(book: OpenBook, signer: Person, job: int, act: Act, meaning: str, kind: str = "act/1") -> Written:
    with book.store.write(signer.id) as tx:
        state = state_of(kept_acts(work_entries(tx, job)))
        perform(state, replace(act, by=signer.id))
        draft = Draft(kind, f"job/{job}", {"job": job, "act": act_to_plain(act)}, job=job, meaning=meaning)
        entry = tx.keep(draft)
        facts = {"job": job, "acts": [entry.act], "joint": "", "meaning": meaning}
        tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning=meaning))
    return written(entry, "Kept")
