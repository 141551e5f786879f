"""Diagnosis: the tests in their order, then heights, stands, codes, findings, cause and correction of each concern."""

from collections.abc import Callable, Mapping

from jobbook.core.drawing import mark_of_answer
from jobbook.core.jobs import ANSWERS, Test
from jobbook.services.measured.diagnosing import Diagnosis, diagnosis
from jobbook.services.office import desk
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, JobSheet, options_of
from jobbook.ui.jobs.tabs import air, causes, codes, found, guided, heights, stand
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet

ANSWER_ASKS = (
    Ask("answer", "Answer", "choice", options_of(ANSWERS)),
    Ask("result", "Result, with figures and units", "long text", required=False),
    Ask("reason", "Reason, where it was not done", required=False),
)


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    there = diagnosis(book, sheet.number)
    return TabSheet(
        (
            guided.block(there, book.now()),
            heights.block(there),
            stand.block(there, book.now()),
            _further(there),
            codes.block(book, there.job, there.codes),
            found.block(there),
            causes.block(there),
        )
    )


def _further(there: Diagnosis) -> Block:
    """Tests that the order does not have: pressure, compressor, and whatever somebody thought of."""
    by_name = there.names
    lines = tuple(
        Line(t.name, _said(t, by_name.get(t.by, t.by)), mark_of_answer(t.answer), t.at)
        for t in there.tests
        if not guided.in_the_order(t)
    )
    if there.job.released_at:
        return Block("Further tests", lines, nothing="No further test.")
    another = Deed("test", "Another test…", (Ask("name", "Which test"), *ANSWER_ASKS))
    return Block("Further tests", lines, nothing=air.SAID, deeds=(*air.deeds(), another))


def _said(test: Test, by: str) -> str:
    return " · ".join(filter(None, (test.answer, test.result, test.reason, by)))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    return KEEP[deed.key](book, by, job, deed, given)


def _keep_test(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    name = deed.of or given["name"]
    desk.add_test(book, by.who, job, name, given["answer"], given["result"], given["reason"])
    return f"{name}: {given['answer']}"


KEEP: Mapping[str, Callable[[OpenBook, Signing, int, Deed, Answers], str]] = {
    "test": _keep_test,
    "guided": guided.keep,
    "finding": found.keep,
    "cause": causes.keep,
    "heights": heights.keep,
    "stand": stand.keep,
    "pressure": air.keep,
    "compressor": air.keep,
    **codes.KEEP,
}
