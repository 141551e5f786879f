"""What a paper says of the visit after wheels were off: each wheel, or that it did not come to it."""

from collections.abc import Iterator

from jobbook.core.desk.outcomes import OF_A_VISIT
from jobbook.core.desk.retorque import Tightened, VisitThen
from jobbook.paperwork.evidence import Deed
from jobbook.services.papers.gathered import JobFacts, moment

AFTER = "After the release of job {0}, wheel joints once more, {1}"


def visit_deeds(facts: JobFacts) -> tuple[Deed, ...]:
    """A line for each wheel that was seen to, and for each visit that ended otherwise. One that is still due says
    nothing yet."""
    return tuple(deed for one in facts.visits if one.outcome for deed in _deeds(facts, one))


def _deeds(facts: JobFacts, visit: VisitThen) -> Iterator[Deed]:
    for wheel in visit.wheels:
        yield Deed(moment(wheel.at), facts.name(wheel.by), AFTER.format(visit.job, _wheel(wheel)))
    if not visit.wheels:
        note = f": {visit.note}" if visit.note else ""
        words = f"{OF_A_VISIT.get(visit.outcome, visit.outcome)}{note}"
        yield Deed(moment(visit.at), facts.name(visit.by), AFTER.format(visit.job, words))


def _wheel(wheel: Tightened) -> str:
    tool = f", with {wheel.tool}" if wheel.tool else ""
    asked = f", asked for {wheel.wanted}" if wheel.wanted else ""
    return f"{wheel.words}{tool}{asked}" + (f" ({wheel.unfit})" if wheel.unfit else "")
