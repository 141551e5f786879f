"""Diagnosis: the tests in their order, then heights, stands, codes, findings, cause and correction of each concern."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from jobbook.core.drawing import mark_of_answer
from jobbook.core.jobs import ANSWERS, FaultCode, Test
from jobbook.services import desk
from jobbook.services.diagnosing import Diagnosis, diagnosis
from jobbook.services.opened import OpenBook
from jobbook.services.sheets import Ask, JobSheet, Option
from jobbook.ui.jobs.tabs import air, causes, found, guided, heights, stand
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet

STATUS = (Option("active", "active"), Option("stored", "stored"), Option("intermittent", "intermittent"))
WHEN = (Option("before", "before the work"), Option("after", "after the work"))
ANSWER_ASKS = (
    Ask("answer", "Answer", "choice", tuple(Option(answer, answer) for answer in ANSWERS)),
    Ask("result", "Result, with figures and units", "long text", required=False),
    Ask("reason", "Reason, where it was not done", required=False),
)


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    there = diagnosis(book, sheet.number)
    return TabSheet(
        (
            guided.block(there),
            heights.block(there),
            stand.block(there, book.now()),
            _further(there),
            _codes(there.codes),
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


def cleared(code: FaultCode) -> str:
    said = {"": "", "no": "not cleared", "yes": "cleared"}
    return said.get(code.cleared, f"cleared {code.cleared}")


def _codes(codes: tuple[FaultCode, ...]) -> Block:
    lines = tuple(
        Line(
            f"{code.module}: {code.code or 'read, none stored'}" + (f" {code.text}" if code.text else ""),
            " · ".join(filter(None, (code.status, f"{code.when} the work", cleared(code)))),
            "disc",
            code.at,
        )
        for code in codes
    )
    when = Ask("when", "Read", "choice", WHEN)
    module = Ask("module", "Module, as shown")
    add = Deed(
        "code",
        "Add a code…",
        (
            module,
            when,
            Ask("code", "Code, as shown"),
            Ask("status", "Status", "choice", STATUS),
            Ask("text", "Text, as shown", required=False),
            Ask("odometer", "Odometer of the code", required=False),
            Ask("cleared", "Cleared, by whom and when", required=False),
        ),
    )
    none = Deed("code", "Module read, none stored…", (module, when), of="none")
    nothing = "No module has been read. Save the codes before anything is cleared."
    return Block("Fault codes", lines, nothing=nothing, deeds=(add, none))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    return KEEP[deed.key](book, by, job, deed, given)


def _keep_test(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    name = deed.of or given["name"]
    desk.add_test(book, by.who, job, name, given["answer"], given["result"], given["reason"])
    return f"{name}: {given['answer']}"


def _keep_code(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    read = FaultCode(given["module"], "", "", "", given["when"], book.now())
    if deed.of != "none":
        told = {name: answer.strip() for name, answer in given.items()}
        read = replace(read, code=told["code"], text=told["text"], status=told["status"])
        read = replace(read, odometer=told["odometer"], cleared=told["cleared"])
    desk.add_fault_code(book, by.who, job, read)
    return f"{read.module}: {read.code or 'none stored'}"


KEEP: Mapping[str, Callable[[OpenBook, Signing, int, Deed, Answers], str]] = {
    "test": _keep_test,
    "code": _keep_code,
    "guided": guided.keep,
    "finding": found.keep,
    "cause": causes.keep,
    "heights": heights.keep,
    "stand": stand.keep,
    "pressure": air.keep,
    "compressor": air.keep,
}
