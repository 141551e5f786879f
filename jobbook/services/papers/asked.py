"""What papers say of findings and their answers, of the price against what was allowed, of reaching the customer."""

from collections.abc import Iterator, Sequence

from jobbook.core.desk.answers_to_findings import COVERED, PUT_RIGHT, TAKEN_BACK, TOLD, FindingAnswered
from jobbook.core.desk.estimate import CUSTOMER, Totals, standing, totals
from jobbook.core.desk.money import money_or_none
from jobbook.core.desk.permission import Contact, Declined, Overrun, told_at
from jobbook.core.desk.price import customers, not_covered, used
from jobbook.core.jobs import Permission
from jobbook.core.measured.diagnosis import UNSAFE, Finding, with_corner
from jobbook.core.work.leaving import must_not_leave
from jobbook.core.written import unless_erased
from jobbook.paperwork.agreed import Attempt, FoundRow
from jobbook.services.agreed.price_words import over_words
from jobbook.services.papers.gathered import JobFacts, moment

Pairs = tuple[tuple[str, str], ...]
PRICE = "price-above-permission"
OTHERWISE = {  # the mark, and what is said before the reason
    TOLD: ("ring", "told to {who}; left, to be watched"),
    COVERED: ("disc", "done under another permission"),
    PUT_RIGHT: ("disc", "put right, {at}"),
    TAKEN_BACK: ("bar", "no finding after all, {at}"),
}
NOBODY = "nobody was asked: nothing was done about it"


def found(facts: JobFacts) -> tuple[FoundRow, ...]:
    """Every finding with what became of it. What was declined stands with its consequence among the answers."""
    return tuple(_found(facts, one) for one in facts.findings)


def _found(facts: JobFacts, one: Finding) -> FoundRow:
    mark, became = _became(facts.agreed.answer_to(one.entry), one)
    return FoundRow(
        mark, with_corner(one.words, one.corner), one.severity, became, f"{facts.name(one.by)}, {moment(one.at)}"
    )


def _became(answer: Permission | Declined | FindingAnswered | None, one: Finding) -> tuple[str, str]:
    """The mark and the words of what became of a finding."""
    if answer is None:
        return "ring", NOBODY if one.needs_permission else "told with this paper"
    who = ", ".join(filter(None, (unless_erased(answer.who), answer.how, moment(answer.at))))
    if isinstance(answer, FindingAnswered):
        mark, said = OTHERWISE[answer.answer]
        return mark, f"{said.format(who=who, at=moment(answer.at))}: {answer.why.rstrip('.')}"
    return ("bar", f"declined: {who}") if isinstance(answer, Declined) else ("disc", f"allowed: {who}")


def warnings(facts: JobFacts) -> tuple[str, ...]:
    """What the vehicle is not safe to drive with, as it stands now."""
    return tuple(found.text.removesuffix(f", {UNSAFE}") for found in must_not_leave(facts.state))


def price(facts: JobFacts) -> Pairs:
    """What was allowed, what the lines come to, since when it was known to be more, and what was over it and why."""
    return tuple((label, words) for label, words in (*_customers(facts), *_payers(facts), *_beyond(facts)) if words)


def payers_price(facts: JobFacts) -> Pairs:
    """The same as far as it concerns a payer who is not the customer: what the customer pays is not told, nor what
    they said."""
    if facts.agreed.priced.authority is None:
        return ()
    tried = "; ".join(f"{moment(one.at)} {one.how}, {one.outcome}" for one in facts.agreed.contacts)
    told = (*_payers(facts), *_beyond(facts), ("Customer tried", tried))
    return tuple((label, words) for label, words in told if words)


def attempts(facts: JobFacts) -> tuple[Attempt, ...]:
    """Each attempt to reach the customer, the number left out: they know it."""
    return tuple(_attempt(facts, one) for one in facts.agreed.contacts)


def _attempt(facts: JobFacts, one: Contact) -> Attempt:
    return Attempt(moment(one.at), one.how, one.outcome, unless_erased(one.said), facts.name(one.by))


def _customers(facts: JobFacts) -> Iterator[tuple[str, str]]:
    there, currency = facts.agreed, facts.shop.currency
    limit, comes_to = there.priced.limit, customers(there.priced, currency)
    if limit is not None:
        yield "Allowed", f"{limit.total.shown}, tax included; {over_words(limit)}" if limit.total else "without a limit"
    if any(line.payer == CUSTOMER for line in standing(there.lines)):
        yield "It comes to", _sum(comes_to)
        if facts.release is None:
            yield "Done so far", f"{used(there.priced, currency).gross.shown}, tax included"


def _payers(facts: JobFacts) -> Iterator[tuple[str, str]]:
    given, lines = facts.agreed.priced.authority, standing(facts.agreed.lines)
    if given is not None:
        yield "The payer allowed", given.total.shown if given.total else "without a limit"
    for payer in sorted({line.payer for line in lines} - {CUSTOMER}):
        its = totals((line for line in lines if line.payer == payer), facts.shop.currency)
        yield f"{payer[:1].upper()}{payer[1:]} pays", _sum(its)


def _beyond(facts: JobFacts) -> Iterator[tuple[str, str]]:
    for one in facts.agreed.overruns:
        yield "Higher price", _overrun(one, facts.agreed.contacts)
    for fact in not_covered(facts.agreed.priced):
        yield "Not covered", ". ".join((fact, *_let_go(facts)))


def _overrun(one: Overrun, contacts: Sequence[Contact]) -> str:
    """Since when a higher price was known, and when the customer was told: two moments, or that nobody was reached."""
    amount, told = money_or_none(one.total, one.currency), told_at(one, contacts)
    tries = sum(1 for contact in contacts if contact.about == one.entry)
    often = "nobody tried yet" if not tries else "tried once" if tries == 1 else f"tried {tries} times"
    reached = f"the customer was told {moment(told.at)}" if told else f"the customer was not reached, {often}"
    shown = amount.shown if amount is not None else f"{one.total} {one.currency}".strip()
    return f"about {shown}, known since {moment(one.known_at)}: {one.why.rstrip('.')}; {reached}"


def _let_go(facts: JobFacts) -> Iterator[str]:
    """That the vehicle left all the same, by whose word and why."""
    acts = (kept.act for kept in facts.kept if kept.act.do == "let_go" and kept.act.rule == PRICE)
    yield from (f"Let go by {facts.name(act.by)}, {moment(act.at)}: {act.reason}" for act in acts)


def _sum(whole: Totals) -> str:
    unknown = f", {whole.unpriced} of the lines without a price yet" if whole.unpriced else ""
    return f"{whole.gross.shown}, tax included{unknown}"
