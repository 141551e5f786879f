"""Afterwards: correct what was kept, allow beforehand, let go, end a finding, add what no method names."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.days import day_of
from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.core.work.acts_text import act_to_plain
from jobbook.core.work.model import Act, LooseEnd, Thing
from jobbook.core.work.rules import perform
from jobbook.db.store import WritingBook
from jobbook.services.agreed.finding_acts import finding_of
from jobbook.services.house.people import as_now, writing
from jobbook.services.job.in_hand import in_hand, reopen
from jobbook.services.job.replay import Kept, kept_acts, state_of, work_entries
from jobbook.services.measured.outside import outside_limits
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.asks import answered
from jobbook.services.sheet.bay import Bay
from jobbook.services.work.figures import bay_of
from jobbook.services.work.keeping import keep_outside
from jobbook.services.work.passing import look_at_passing
from jobbook.services.work.written import Written, written

ENDINGS = {"repaired": False, "declined": True, "referred": True, "cleared": True}  # whether it needs a reason


def correct(book: OpenBook, who: Person, entry: int, answers: Mapping[str, str], reason: str) -> Written:
    """Keep a correction of a kept act: what was answered now stands in place of what was; both stay readable.

    One corrects one's own; another's with the permission to allow. After release the job is opened again by it."""
    if not reason.strip():
        raise Refused("The correction was not kept: it needs its reason.")
    with writing(book, who) as tx:
        old = tx.journal.get(entry)
        job = old.job or 0
        kept = kept_acts(work_entries(tx, job))
        one = _act_of(kept, old)
        as_now(tx, who, "work" if old.facts["done_by"] == who.id else "allow")
        bay = replace(bay_of(tx, job, kept, book), today=day_of(old.done_at))
        act = _answered_anew(one.act, answers, bay)
        facts = {"job": job, "act": act_to_plain(replace(act, by="", at="", id=""))}
        draft = Draft(
            "act/1", f"job/{job}", facts, job=job, meaning="did",
            done_at=old.done_at, done_by=str(old.facts["done_by"]), replaces=entry, reason=reason.strip(),
        )  # fmt: skip
        kept_entry = tx.keep(draft)
        if outside := outside_limits(act, bay.state):
            keep_outside(tx, job, who, outside, replace(act, reason=reason.strip()), kept_entry.act)
        reopen(tx, job, reason.strip())
    return written(kept_entry, f"Correction of entry {entry} kept")


def _act_of(kept: tuple[Kept, ...], old: Entry) -> Kept:
    one = next((k for k in kept if k.entry.number == old.number and old.kind == "act/1"), None)
    if one is None:
        raise Refused(
            f"Nothing was changed: entry {old.number} is no act of the work that counts now. Look at the job again."
        )
    return one


def _answered_anew(was: Act, answers: Mapping[str, str], bay: Bay) -> Act:
    """The act with the new answers; what was not answered anew stays, reading by reading."""
    bare = replace(was, reason="" if {"reached", "setting"} & set(answers) else was.reason)
    act = answered(bare, answers, bay)
    return replace(act, readings=tuple(dict(act.readings).items()))


def allow(book: OpenBook, signer: Person, job: int, rule: str, reason: str) -> Written:
    """Allow beforehand, once, what a rule about the vehicle refuses. The reason prints."""
    act = Act("allow", rule=rule, reason=reason.strip())
    return _own_act(book, signer, job, act, "allowed", ("allow",), "allowance/1")


def let_go(book: OpenBook, signer: Person, job: int, end: LooseEnd, reason: str, restriction: str = "") -> Written:
    """Let one loose end go with a reason. It stays printed on the papers."""
    act = Act("let_go", on=end.on, rule=end.rule, reason=reason.strip(), text=restriction.strip())
    return _own_act(book, signer, job, act, "released", ("release",))


def end_finding(book: OpenBook, signer: Person, job: int, finding: str, how: str, reason: str = "") -> Written:
    """End what was found wrong: repaired, declined or referred; or clear a spring that stood on empty."""
    if how not in ENDINGS:
        raise Refused(f"Nothing was kept: a finding ends {', '.join(ENDINGS)}; choose one of these.")
    if ENDINGS[how] and not reason.strip():
        raise Refused(f"Nothing was kept: “{how}” needs its reason, and by whom.")
    if finding_of(finding):
        raise Refused("Nothing was kept: what became of this finding is kept where it waits for the customer's word.")
    return _own_act(book, signer, job, Act(how, on=finding, reason=reason.strip()), "did", ("work",))


def add_thing(book: OpenBook, who: Person, job: int, thing: Thing) -> Written:
    """Add a thing that no begun method names: it becomes a loose end like any other."""
    return _own_act(book, who, job, Act("declare", things=(thing,), corner=thing.corner), "did", ("work",))


def _own_act(
    book: OpenBook, signer: Person, job: int, act: Act, meaning: str, permissions: tuple[str, ...], kind: str = "act/1"
) -> Written:
    with writing(book, signer, *permissions) as tx:
        in_hand(tx, job)
        look_at_passing(tx, job)
        state = state_of(kept_acts(work_entries(tx, job)))
        for thing in act.things:
            if thing.name in state.things and not getattr(state.things[thing.name], "by_variant", False):
                raise Refused(f"Nothing was added: {thing.title} is in this job already under that name.")
        perform(state, replace(act, by=signer.id))
        entry = _keep_signed(tx, job, act, meaning, kind)
    return written(entry, "Kept")


def _keep_signed(tx: WritingBook, job: int, act: Act, meaning: str, kind: str) -> Entry:
    entry = tx.keep(Draft(kind, f"job/{job}", {"job": job, "act": act_to_plain(act)}, job=job, meaning=meaning))
    facts = {"job": job, "acts": [entry.act], "joint": "", "meaning": meaning}
    tx.keep(Draft("sign-off/1", f"job/{job}", facts, job=job, meaning=meaning))
    return entry
