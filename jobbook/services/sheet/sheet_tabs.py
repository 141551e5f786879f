"""The tabs of the job page in the order of a job's life, each with the mark of how far it is."""

from collections.abc import Sequence

from jobbook.core.jobs import Job
from jobbook.core.work.model import LooseEnd
from jobbook.core.work.state import State
from jobbook.db.store import Book
from jobbook.services.job.stores import needs_of
from jobbook.services.sheet.sheets import StepRow, Tab


def tabs(reading: Book, job: Job, state: State, rows: Sequence[StepRow], ends: Sequence[LooseEnd]) -> tuple[Tab, ...]:
    found = [bool(concern.cause) for concern in job.concerns]
    tested = bool(reading.tests(job.number) or reading.fault_codes(job.number))
    needs = needs_of(state, tuple(reading.pieces.of_job(job.number)))
    done = [row.mark != "ring" for row in rows]
    papers = reading.papers.of_job(job.number)
    released = job.stage == "released"
    return (
        Tab("arrival", "Arrival", "disc"),
        Tab("diagnosis", "Diagnosis", _mark(all(found) and bool(found), any(found) or tested)),
        Tab(
            "permission",
            "Permission",
            _mark(state.permitted and state.authority != "asked", bool(reading.permissions(job.number))),
        ),
        Tab("parts", "Parts", _mark(bool(needs) and not any(n.short for n in needs), any(n.issued for n in needs))),
        Tab("work", "Work", _mark(bool(done) and all(done), any(done))),
        Tab("checks", "Final checks", _mark(released, bool(rows) and not ends)),
        Tab("papers", "Papers", _mark(bool(papers) and released, bool(papers))),
    )


def _mark(whole: bool, begun: bool) -> str:
    return "disc" if whole else "half" if begun else "ring"
