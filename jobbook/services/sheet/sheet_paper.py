"""The sheet of an old job taken from paper: what nobody wrote down is shown as unknown, and not as in order."""

from dataclasses import replace

from jobbook.core.jobs import Job
from jobbook.services.sheet.sheets import JobSheet, StateWord

KNOWN = ("arrival", "papers")  # the tabs that say nothing of whether something was done


def as_paper(sheet: JobSheet, job: Job) -> JobSheet:
    """The sheet as it is, or, of a job from paper, without what it would say of a vehicle that nobody looked at."""
    if not job.from_paper:
        return sheet
    return replace(
        sheet,
        stage_words=f"from paper, {job.from_paper}",
        cry=f"Taken from paper, {job.from_paper}: what the paper does not say is unknown.",
        state=(StateWord("not known: taken from paper"),),
        tabs=tuple(tab if tab.key in KNOWN or tab.mark != "ring" else replace(tab, mark="query") for tab in sheet.tabs),
        from_paper=job.from_paper,
    )
