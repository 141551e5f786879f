"""The list of jobs: what is asked of the book, and where Enter leads."""

from collections.abc import Callable
from typing import Any

from jobbook.core.jobs import EXPECTED, JobRow
from jobbook.core.record.pages import Page
from jobbook.services.jobs import jobs
from jobbook.services.office.expected import expected
from jobbook.services.opened import OpenBook
from jobbook.ui.places import TAKE_IN, Place, a_call, a_job


class JobsPresenter:
    """Holds what the list is narrowed to."""

    def __init__(self, book: OpenBook, go: Callable[[Place], None]) -> None:
        self._book, self._go = book, go
        self._text = self._stage = ""

    def narrow(self, text: str, stage: str) -> None:
        self._text, self._stage = text.strip(), stage

    def fetch(self, after: Any, limit: int) -> Page[JobRow]:
        if self._stage == EXPECTED:
            return expected(self._book, self._text)
        return jobs(self._book, after, self._text, self._stage, limit)

    def open(self, row: JobRow) -> None:
        self._go(a_call(row.number) if row.stage == EXPECTED else a_job(row.number))

    def somebody_calls(self) -> None:
        self._go(a_call())

    def take_in(self) -> None:
        self._go(TAKE_IN)
