"""The handover for the customer: what was said, found and done, in words that a customer reads in a minute."""

from dataclasses import replace
from datetime import datetime

from jobbook.core.desk.outcomes import RETORQUE
from jobbook.core.jobs import ARRIVALS
from jobbook.core.work.leaving import wheels_were_out
from jobbook.core.work.state import called
from jobbook.core.written import unless_erased
from jobbook.paperwork.cautions import cautions
from jobbook.paperwork.handover import Handover, Retorque
from jobbook.paperwork.heights import Heights
from jobbook.paperwork.issue import Party
from jobbook.paperwork.parts import OldPart
from jobbook.services.papers import asked
from jobbook.services.papers.agreeing import parts_back
from jobbook.services.papers.aligned import geometry
from jobbook.services.papers.gathered import JobFacts, day, odometer
from jobbook.services.papers.joint_stories import Sources, joint_stories, plain_row
from jobbook.services.papers.measured import heights
from jobbook.services.papers.shared import (
    answers,
    concerns,
    corrections,
    fitted_parts,
    identity,
    issue_of,
    release_of,
    title,
    where_it_lies,
)

AT_THE_DESK = {"alignment": "align", "sensors": "calibrate driver_assistance", "lamps": "calibrate headlamps"}


def handover(facts: JobFacts, now: datetime, by: str, version: int, replaces: str) -> Handover:
    """Every word and figure of the handover."""
    sources = Sources(facts.names)
    measured, aligned = heights(facts, sources), geometry(facts, sources)
    noted = " · ".join(f"[{source.mark}] {source.text}" for source in sources.all())
    return Handover(
        issue=issue_of(facts, now, by, version, replaces),
        title=f"{title(facts)}: {'done' if facts.release else 'work in hand'}",
        customer=_party(facts),
        identity=identity(facts),
        odometer_in=odometer(facts, "in"),
        odometer_out=odometer(facts, "out"),
        arrived=ARRIVALS.get(facts.job.arrival, facts.job.arrival),
        concerns=concerns(facts),
        parts=fitted_parts(facts),
        old_parts=_old_parts(facts),
        heights=measured if not noted else _with_sources(measured, noted),
        geometry=aligned,
        joints=tuple(plain_row(facts, story) for story in joint_stories(facts)),
        answers=answers(facts),
        corrections=corrections(facts),
        release=release_of(facts),
        retorque=_retorque(facts),
        cautions=cautions(_which(facts)),
        warranty=facts.shop.warranty_text,
        found=asked.found(facts),
        price=asked.price(facts),
        attempts=asked.attempts(facts),
        warnings=asked.warnings(facts),
    )


def _with_sources(measured: Heights, noted: str) -> Heights:
    return replace(measured, limits=f"{measured.limits}. {noted}")


def _party(facts: JobFacts) -> Party:
    customer = facts.customer
    if customer is None:
        return Party()
    name, address = (unless_erased(text) for text in (customer.name, customer.address))
    return Party(name, address)


def _old_parts(facts: JobFacts) -> tuple[OldPart, ...]:
    agreed = parts_back(facts, facts.agreed)
    return tuple(
        OldPart(called(facts.state, name), where_it_lies(facts, name), agreed)
        for name, word in facts.state.parts.items()
        if word == "renewed"
    )


def _retorque(facts: JobFacts) -> Retorque | None:
    due = next((one for one in facts.reminders if one.what == RETORQUE and not one.outcome), None)
    if due is not None:
        return Retorque(due.due_at, day(due.due_on), "Here, without charge.")
    return Retorque() if wheels_were_out(facts.state) else None


def _which(facts: JobFacts) -> tuple[str, ...]:
    """The cautions that this job calls for."""
    state = facts.state
    declined = {name for name, answer in state.answers.items() if answer.answer not in ("done", "sublet")}
    declined |= {end for end in ("align",) if state.order.unaligned}
    declined |= {f"calibrate {what}" for what in state.order.uncalibrated}
    declined |= {AT_THE_DESK.get(one.subject, "") for one in facts.agreed.declined}
    return (
        *(("opened", "empty spring", "cold", "lifting") if state.order.worked else ()),
        *(("wheels",) if wheels_were_out(state) else ()),
        *(("not aligned",) if "align" in declined else ()),
        *(("assistance",) if "calibrate driver_assistance" in declined else ()),
        *(("lamps",) if "calibrate headlamps" in declined else ()),
        "maker first",
        "keep",
    )
