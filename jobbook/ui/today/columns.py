"""The columns of what is due."""

from collections.abc import Callable

from jobbook.ui.tables import Column
from jobbook.ui.today.lines import STATES, role, what_words, when_words

VEHICLE = 3  # the column that a narrow window leaves out


def columns(tr: Callable[[str], str], year: Callable[[], int]) -> tuple[Column, ...]:
    """The columns, with their titles in the language of the window; `year` tells which one it is."""
    return (
        Column(tr("Due"), lambda line: STATES[line.due.state], width=10, strong=True, role=role),
        Column(tr("When"), lambda line: when_words(line.due, year()), width=15, role=role),
        Column(tr("What"), what_words),
        Column(tr("Vehicle"), lambda line: line.due.where, width=24, role="soft"),
    )
