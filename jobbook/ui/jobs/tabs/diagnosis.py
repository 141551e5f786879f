"""Diagnosis: heights, stands, tests with their answers, fault codes, cause and correction of each concern."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from jobbook.core.drawing import mark_of_answer
from jobbook.core.jobs import ANSWERS, Concern, FaultCode, Test
from jobbook.services import desk
from jobbook.services.diagnosing import Diagnosis, diagnosis
from jobbook.services.opened import OpenBook
from jobbook.services.sheets import Ask, JobSheet, Option
from jobbook.ui.jobs.tabs import air, heights, stand
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet

USUAL = (
    "Walk round: tyres, load, ride mode, parts changed earlier",
    stand.TITLE,
    "Soap at springs, lines and valve block",
    "Corner, line, block and supply told apart",
    "Supply: run time, pressure, relay, intake and dryer",
    "Height sensors: values, arms, connectors",
    "Mechanical look: dampers, mounts, arms, dirt in the fold",
)
CONFIDENCE = (Option("proved", "proved"), Option("probable", "probable"), Option("not found", "not found"))
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
            heights.block(there),
            stand.block(there, book.now()),
            _tests(there),
            air.block(),
            _codes(there.codes),
            _causes(there.job.concerns),
        )
    )


def _tests(there: Diagnosis) -> Block:
    """The tests with their answers, and the usual ones without. A stand on record answers for itself."""
    by_name = there.names
    answered = tuple(
        Line(t.name, _said(t, by_name.get(t.by, t.by)), mark_of_answer(t.answer), t.at) for t in there.tests
    )
    names = {test.name for test in there.tests} | ({stand.TITLE} if there.stands else set())
    open_ = tuple(
        Line(name, "not answered yet", "ring", deeds=(Deed("test", "Answer…", ANSWER_ASKS, of=name, keep="Keep"),))
        for name in USUAL
        if name not in names
    )
    another = Deed("test", "Another test…", (Ask("name", "Which test"), *ANSWER_ASKS))
    return Block("Tests", (*answered, *open_), deeds=(another,))


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


def _causes(concerns: tuple[Concern, ...]) -> Block:
    return Block("Cause and correction", tuple(_cause(concern) for concern in concerns))


def _cause(concern: Concern) -> Line:
    asks = (
        Ask("cause", "Cause: part, place, kind of failure, the test that proves it", "long text", value=concern.cause),
        Ask("confidence", "How sure", "choice", CONFIDENCE, value=concern.confidence),
        Ask("correction", "Correction, and how it was shown right", "long text", (), "", concern.correction, False),
    )
    said = [f"Cause ({concern.confidence}): {concern.cause}"] if concern.cause else ["no cause written yet"]
    said += [f"Correction: {concern.correction}"] if concern.correction else []
    mark = "disc" if concern.cause and concern.correction else "half" if concern.cause else "ring"
    words = "(erased)" if concern.words is None else concern.words
    deed = Deed("cause", "Write…" if not concern.cause else "Change…", asks, of=str(concern.number))
    return Line(f"“{words}”", "\n".join(said), mark, deeds=(deed,))


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


def _keep_cause(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    desk.concern(
        book,
        by.who,
        job,
        int(deed.of),
        cause=given["cause"].strip(),
        confidence=given["confidence"],
        correction=given["correction"].strip(),
    )
    return f"Cause and correction of concern {deed.of}"


KEEP: Mapping[str, Callable[[OpenBook, Signing, int, Deed, Answers], str]] = {
    "test": _keep_test,
    "code": _keep_code,
    "cause": _keep_cause,
    "heights": heights.keep,
    "stand": stand.keep,
    "pressure": air.keep,
    "compressor": air.keep,
}
