"""What is asked when a job is passed on. No Qt in here."""

from collections.abc import Mapping

from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui.jobs.signing import Signers

TO, NOTE = "to", "note"
ANYBODY = "anybody"


def passing_asks(signers: Signers) -> tuple[Ask, ...]:
    """To whom the job goes and what they must know; what is loose goes along by itself."""
    others = tuple(person for person in signers.people if person.value != signers.on_duty)
    return (
        Ask(TO, "To", "choice", (*others, Option(ANYBODY, "whoever takes it on")), value=ANYBODY),
        Ask(NOTE, "What they must know: parts laid out, what was seen, what comes next", "long text"),
        *signers.asks("Passed on by", "PIN or badge"),
    )


def person_named(given: Mapping[str, str]) -> str:
    """The id of the person that the job goes to; empty where that is left open."""
    return "" if given[TO] == ANYBODY else given[TO]
