"""What was found on the vehicle of a job, each with its weight and whether it needs the customer's permission."""

from collections.abc import Sequence

from jobbook.core.errors import NotFound, Refused
from jobbook.core.measured.diagnosis import SEVERITIES, Finding
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry, as_it_stands
from jobbook.core.work.model import CORNERS
from jobbook.db.store import Book, WritingBook
from jobbook.services.agreed.finding_acts import FINDING
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

UNDONE = "undone/1"


def findings(book: OpenBook, job: int) -> tuple[Finding, ...]:
    """The findings of a job that count, in the order in which they were kept; a correction stands in its place."""
    with book.store.read() as reading:
        return tuple(findings_of(reading, job))


def findings_of(reading: Book, job: int) -> list[Finding]:
    """The same within a reading; `entry` is that of the first entry, and stays the same after corrections."""
    return findings_among(reading.journal.entries(job=job, kind=(FINDING, UNDONE)))


def findings_among(entries: Sequence[Entry]) -> list[Finding]:
    """The findings among entries of a job that were read already, with what was undone."""
    first: dict[int, int] = {}
    for entry in entries:
        first[entry.number] = first.get(entry.replaces, entry.replaces) if entry.replaces else entry.number
    return [_finding(entry, first[entry.number]) for entry in as_it_stands(entries) if entry.kind == FINDING]


def _finding(entry: Entry, number: int) -> Finding:
    facts = entry.payload
    return Finding(
        words=facts["words"],
        severity=facts["severity"],
        concern=facts["concern"],
        needs_permission=facts["needs"] == "permission",
        corner=facts["corner"],
        by=entry.done_by,
        at=entry.done_at,
        entry=number,
    )


def keep_finding(book: OpenBook, who: Person, job: int, finding: Finding) -> Written:
    """Keep what was found. Refused without its words or its weight, or for a concern that the job does not have."""
    with writing(book, who, "work", "desk") as tx:
        in_hand(tx, job)
        _look_at(tx, job, finding)
        entry = tx.keep(_draft(job, finding))
    return written(entry, f"Found: {finding.words.strip()}")


def correct_finding(book: OpenBook, who: Person, job: int, number: int, finding: Finding, reason: str) -> Written:
    """Keep a correction of the finding of that number, with its reason; the first wording stays readable."""
    if not reason.strip():
        raise Refused("The finding was not corrected: it needs the reason.")
    with writing(book, who, "work", "desk") as tx:
        in_hand(tx, job)
        last = _last_entry(tx, job, number)
        _look_at(tx, job, finding)
        entry = tx.keep(_draft(job, finding, last, reason.strip()))
    return written(entry, f"Finding corrected: {finding.words.strip()}")


def _draft(job: int, finding: Finding, replaces: int | None = None, reason: str = "") -> Draft:
    facts = {
        "job": job,
        "words": finding.words.strip(),
        "severity": finding.severity,
        "concern": finding.concern,
        "corner": finding.corner,
        "needs": "permission" if finding.needs_permission else "",
    }
    return Draft(FINDING, f"job/{job}", facts, job=job, replaces=replaces, reason=reason)


def _look_at(tx: WritingBook, job: int, finding: Finding) -> None:
    if not finding.words.strip():
        raise Refused("The finding was not kept: write what was found, and where.")
    if finding.severity not in SEVERITIES:
        raise Refused("The finding was not kept: say how much it matters.")
    if finding.corner not in ("", *CORNERS):
        raise Refused(f"The finding was not kept: “{finding.corner}” is no corner; it is FL, FR, RL, RR or left empty.")
    if finding.concern and finding.concern not in [one.number for one in tx.jobs.get(job).concerns]:
        raise Refused(f"The finding was not kept: job {job} has no concern {finding.concern}.")


def _last_entry(tx: WritingBook, job: int, number: int) -> int:
    """The entry that speaks for the finding now."""
    last = number if any(one.entry == number for one in findings_of(tx, job)) else 0
    if not last:
        raise NotFound(f"Job {job} has no finding {number}; nothing was changed.")
    for entry in tx.journal.entries(job=job, kind=FINDING):
        last = entry.number if entry.replaces == last else last
    return last
