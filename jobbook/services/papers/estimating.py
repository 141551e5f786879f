"""The estimate: its lines and sums, its terms, what was declined, and what the customer allowed."""

from datetime import datetime

from jobbook.core.desk.estimate import CONDITIONS, CUSTOMER, STATES, Line, standing, totals
from jobbook.core.desk.money import money_or_none
from jobbook.core.desk.profiles import least_warranty
from jobbook.core.written import unless_erased
from jobbook.paperwork.cautions import cautions
from jobbook.paperwork.estimate import Estimate, EstimateLine
from jobbook.paperwork.issue import Party
from jobbook.services.agreed.estimate import default_terms
from jobbook.services.agreed.permission_records import Agreed
from jobbook.services.house.profiles import profile_of
from jobbook.services.papers import agreeing
from jobbook.services.papers.gathered import JobFacts, day, moment, odometer, promised
from jobbook.services.papers.shared import identity, issue_of, title


def estimate(facts: JobFacts, now: datetime, by: str, version: int, replaces: str) -> Estimate:
    """Every word and figure of the estimate."""
    there = facts.agreed
    terms = there.terms if there.terms.entry else default_terms(facts.shop)
    lines, currency = standing(there.lines), facts.shop.currency
    customer = facts.customer
    name, address = (unless_erased(text) for text in ((customer.name, customer.address) if customer else ("", "")))
    unpriced = totals(lines, currency).unpriced
    return Estimate(
        issue=issue_of(facts, now, by, version, replaces),
        word=terms.word,
        title=f"{terms.word.capitalize()}: {_subject(facts)}",
        customer=Party(name, address),
        identity=identity(facts),
        visit=_visit(facts),
        lines=tuple(_line(one) for one in lines),
        sums=_sums(lines, currency),
        shares=_shares(lines, currency),
        missing=f"{unpriced} of the lines {'has' if unpriced == 1 else 'have'} no price yet: the sum is not whole."
        if unpriced
        else "",
        left_out=tuple(_line(one) for one in there.lines if one not in lines),
        terms=_terms(facts, there, terms.valid_until, unless_erased(terms.exclusions)),
        declined=agreeing.declined(there),
        allowed=agreeing.allowed(there),
        cautions=cautions(("empty spring", "lifting", "maker first")),
        notices=tuple(notice.text for notice in profile_of(facts.shop).notices_on("estimate")),
        drawn=agreeing.drawn(there),
    )


def _subject(facts: JobFacts) -> str:
    """What the job is about, or the vehicle where that would be a bare number."""
    told = title(facts)
    return facts.vehicle.title if told == f"Job {facts.job.number}" else told


def _visit(facts: JobFacts) -> tuple[tuple[str, str], ...]:
    return (
        ("Taken in", moment(facts.job.opened_at)),
        ("Odometer", odometer(facts, "in")),
        ("Pays", unless_erased(facts.job.payer_name) or facts.job.payer),
        ("Promised", promised(facts.job)),
    )


def _line(line: Line) -> EstimateLine:
    net, each = line.net, money_or_none(line.price, line.currency)
    payer = "" if line.payer == CUSTOMER else f"pays: {line.payer}"
    state = "" if line.state == "to do" else line.state
    beside = " · ".join(filter(None, (line.part, CONDITIONS.get(line.condition, ""), payer, state)))
    unit = " h" if line.kind == "labour" else ""
    return EstimateLine(
        STATES[line.state],
        line.words,
        beside,
        f"{line.quantity}{unit}",
        each.figures if each is not None else "",
        f"{line.tax or '0'} %",
        net.figures if net is not None else "",
    )


def _sums(lines: list[Line], currency: str) -> tuple[tuple[str, str], ...]:
    if not lines:
        return ()
    whole = totals(lines, currency)
    taxes = [(f"Tax at {rate} %", tax.figures) for rate, tax in whole.taxes.items()]
    return (("Before tax", whole.net.figures), *taxes, ("To pay, tax included", whole.gross.shown))


def _shares(lines: list[Line], currency: str) -> tuple[tuple[str, str], ...]:
    """Who pays how much of it, where the customer does not pay everything."""
    payers = sorted({line.payer for line in lines} - {CUSTOMER})
    parts = [(f"of it {payer} pays", _gross(lines, payer, currency)) for payer in payers]
    return (*parts, ("of it the customer pays", _gross(lines, CUSTOMER, currency))) if payers else ()


def _gross(lines: list[Line], payer: str, currency: str) -> str:
    return totals((line for line in lines if line.payer == payer), currency).gross.figures


def _terms(facts: JobFacts, there: Agreed, until: str, exclusions: str) -> tuple[tuple[str, str], ...]:
    return (
        ("Holds until", day(until)),
        ("Left out", exclusions),
        ("Put together again", agreeing.reassembly(there)),
        ("Old parts", agreeing.parts_back(facts, there)),
        ("Warranty", "\n".join(filter(None, (facts.shop.warranty_text, least_warranty(profile_of(facts.shop)))))),
    )
