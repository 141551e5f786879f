"""The arrival paper: what was handed over and in what state, the concern, what may be done and to what limit."""

from dataclasses import replace
from datetime import datetime

from jobbook.core.desk.handed_in import HandedIn
from jobbook.core.jobs import ARRIVALS
from jobbook.core.work.model import CORNERS
from jobbook.core.written import unless_erased
from jobbook.db.store import Book
from jobbook.paperwork.arrival import Arrival
from jobbook.paperwork.heights import Heights
from jobbook.paperwork.issue import Party
from jobbook.services.agreed.permission_records import Agreed
from jobbook.services.house.profiles import profile_of
from jobbook.services.office.handed_in import handed_in
from jobbook.services.papers import agreeing
from jobbook.services.papers.gathered import JobFacts, moment, odometer, promised
from jobbook.services.papers.joint_stories import Sources
from jobbook.services.papers.measured import heights
from jobbook.services.papers.shared import identity, issue_of


def arrival(reading: Book, facts: JobFacts, now: datetime, by: str, version: int, replaces: str) -> Arrival:
    """Every word of the arrival paper."""
    there, handed = facts.agreed, handed_in(reading, facts.job.number)
    customer = facts.customer
    name, address, phone = (
        (unless_erased(text) for text in (customer.name, customer.address, customer.phone))
        if customer is not None
        else ("", "", "")
    )
    return Arrival(
        issue=issue_of(facts, now, by, version, replaces),
        title=f"Job {facts.job.number}: {facts.vehicle.title} taken in",
        customer=Party(name, address),
        phone=phone,
        identity=identity(facts),
        visit=_visit(facts),
        handed=_handed(handed),
        state=_state(facts, handed),
        concerns=tuple(unless_erased(concern.words) for concern in facts.job.concerns),
        heights=_as_it_stood(facts),
        allowed=agreeing.allowed(there),
        terms=_terms(facts, there),
        declined=agreeing.declined(there),
        notices=tuple(notice.text for notice in profile_of(facts.shop).notices_on("arrival")),
        drawn=agreeing.drawn(there),
    )


def _visit(facts: JobFacts) -> tuple[tuple[str, str], ...]:
    job = facts.job
    return (
        ("Taken in", f"{moment(job.opened_at)}, by {facts.name(job.opened_by)}"),
        ("Brought by", unless_erased(job.brought_by)),
        ("Pays", unless_erased(job.payer_name) or job.payer),
        ("Promised", promised(job)),
    )


def _handed(handed: HandedIn) -> tuple[tuple[str, str], ...]:
    return (
        ("Keys", handed.keys),
        ("In the vehicle", unless_erased(handed.belongings)),
        ("Loan car", handed.loan_car),
        ("Else", unless_erased(handed.said)),
    )


def _state(facts: JobFacts, handed: HandedIn) -> tuple[tuple[str, str], ...]:
    job = facts.job
    flat = [corner for corner in CORNERS if _first_air(facts).get(f"air {corner}") == "vented"]
    air = f"no air at {', '.join(flat)}" if flat else "no corner without air was seen"
    return (
        ("Arrived", ARRIVALS.get(job.arrival, job.arrival)),
        ("Odometer", odometer(facts, "in")),
        ("Condition", unless_erased(job.condition)),
        ("Fuel", job.fuel),
        ("Load", job.load),
        ("Air", air),
        ("Warning lamps", handed.lamps),
    )


def _first_air(facts: JobFacts) -> dict[str, str]:
    came = next((kept.act for kept in facts.kept if kept.act.do == "arrive"), None)
    return dict(came.conditions) if came is not None else {}


def _as_it_stood(facts: JobFacts) -> Heights:
    """The first heights that were read: what was read later stands on later papers."""
    reads = [n for n, kept in enumerate(facts.kept) if kept.act.do == "measure" and kept.act.what == "heights"]
    measured = heights(replace(facts, kept=facts.kept[: reads[0] + 1] if reads else ()), Sources(facts.names))
    corners = tuple(replace(one, as_left=None, after_words="", guard=None, verdict="") for one in measured.corners)
    return replace(measured, corners=corners)


def _terms(facts: JobFacts, there: Agreed) -> tuple[tuple[str, str], ...]:
    return (("Put together again", agreeing.reassembly(there)), ("Old parts", agreeing.parts_back(facts, there)))
