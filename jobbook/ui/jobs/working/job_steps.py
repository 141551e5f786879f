"""Which step opens next. Pure: it advises only, the person may open any other."""

from collections.abc import Sequence

from jobbook.services.sheet.sheets import JobSheet, StepRow

OPEN = ("ring", "half")
StepKey = tuple[int, int]


def key_of(step: StepRow) -> StepKey:
    return step.begun, step.number


def next_open(steps: Sequence[StepRow], after: StepKey) -> StepKey | None:
    """The next step after that one which is not done and lacks nothing, else the first such of all.

    The step itself stays open while it is not done. None where every step is done or waits for another."""
    keys = [key_of(step) for step in steps]
    here = keys.index(after) if after in keys else 0
    if after in keys and _is_open(steps[here]):
        return after
    around = [*steps[here + 1 :], *steps[:here]]
    return next((key_of(step) for step in around if _is_open(step) and not step.needs), None)


def first_tab(sheet: JobSheet) -> str:
    """The tab that a job opens at: Work once a method is begun; before that the first that is not whole; its papers
    once the vehicle is released."""
    if sheet.stage == "released":
        return "papers"
    if sheet.methods:
        return "work"
    return next((tab.key for tab in sheet.tabs if tab.mark != "disc"), "work")


def _is_open(step: StepRow) -> bool:
    return step.mark in OPEN and not step.skipped
