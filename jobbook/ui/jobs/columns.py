"""The columns of the list of jobs."""

from collections.abc import Callable

from jobbook.core.jobs import EXPECTED, JobRow
from jobbook.ui.moments import day_and_hour
from jobbook.ui.tables import Column

ERASED = "erased"
STAGE_MARKS = {EXPECTED: "dash", "arrived": "ring", "in work": "half", "released": "disc"}


def concern_in_quotes(row: JobRow) -> str:
    """The customer's words; a concern that was erased says so and is not taken for an empty one."""
    return ERASED if row.concern is None else f"“{row.concern}”" if row.concern else ""


def number_words(row: JobRow) -> str:
    """The job's number; a vehicle that is only expected has none yet."""
    return "call" if row.stage == EXPECTED else str(row.number)


def columns(tr: Callable[[str], str]) -> tuple[Column, ...]:
    """The columns, with their titles in the language of the window."""
    return (
        Column(tr("Job"), number_words, width=6, strong=True),
        Column(tr("Vehicle"), lambda row: row.vehicle, width=18),
        Column(tr("Plate"), lambda row: row.plate, width=12),
        Column(tr("Concern"), concern_in_quotes),
        Column(tr("Customer"), lambda row: ERASED if row.customer is None else row.customer, width=19, role="soft"),
        Column(tr("Stage"), lambda row: row.stage, width=13, mark=lambda row: STAGE_MARKS.get(row.stage, "query")),
        Column(tr("Promised"), lambda row: day_and_hour(row.promised), width=18, role="soft"),
    )
