"""Fault codes in the Diagnosis tab: each module before and after the work, and the reports as the tool saved them."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from jobbook.core.jobs import FaultCode, Job
from jobbook.core.measured.codes import GONE, NEW, READ, STATUSES, STILL, Compared, both_forms, code_words, compare
from jobbook.core.record.files import KeptFile
from jobbook.services import files
from jobbook.services.measured import codes
from jobbook.services.office import desk
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing

TITLE = "Fault codes"
REPORT, OPEN_FILE = "scan report", "open-file"
WHEN = (Option("before", "before the work"), Option("after", "after the work"))
STATUS = options_of(STATUSES)
FOUND = {GONE: "gone", STILL: "still there", NEW: "new", READ: "read, none stored"}
MARKS = {GONE: "disc", READ: "disc", STILL: "ring", NEW: "ring"}
MODULE, TIME = Ask("module", "Module, as shown"), Ask("when", "Read", "choice", WHEN)
ASKS = (
    MODULE,
    TIME,
    Ask("code", "Code, as shown: its text or its bytes", hint=code_words),
    Ask("status", "Status", "choice", STATUS),
    Ask("text", "Text, as shown", required=False),
    Ask("odometer", "Odometer of the code", required=False),
    Ask("cleared", "Cleared, by whom and when", required=False),
)
CLEARED = (Ask("by", "Cleared by"), Ask("at", "When"))
ATTACH = Deed("report", "Attach the report…", (TIME, Ask("path", "The file that the tool saved", "file")))


def block(book: OpenBook, job: Job, shown: tuple[FaultCode, ...]) -> Block:
    lines = tuple(_line(one) for one in compare(shown))
    reports = tuple(_report(one) for one in files.files_of(book, job.number) if one.what == REPORT)
    if job.released_at:
        return Block(TITLE, (*lines, *reports), nothing="No module was read.", deeds=(ATTACH,))
    none = Deed("code", "Module read, none stored…", (MODULE, TIME), of="none")
    nothing = "No module has been read. Save the codes before anything is cleared."
    return Block(TITLE, (*lines, *reports), nothing=nothing, deeds=(Deed("code", "Add a code…", ASKS), none, ATTACH))


def _line(one: Compared) -> Line:
    last = one.last
    words = f"{one.module}: {both_forms(one.code) or FOUND[READ]}"
    text = next((reading.text for reading in (one.after, one.before) if reading and reading.text), "")
    beside = " · ".join(filter(None, (_read(one), cleared(one.before or last))))
    deeds: tuple[Deed, ...] = ()
    if one.before is not None and one.before.code and not one.before.cleared.startswith("by "):
        deeds = (Deed("clear", "Cleared…", CLEARED, of=str(one.before.entry)),)
    mark = MARKS.get(one.found, "half")
    return Line(
        " ".join(filter(None, (words, text))), beside, mark, last.at, loud=one.found in (STILL, NEW), deeds=deeds
    )


def _read(one: Compared) -> str:
    """ "before: stored at 128 402 km · after: gone"."""
    if one.found == READ:
        return " · ".join(f"{said.when} the work" for said in (one.before, one.after) if said is not None)
    before = _status(one.before) if one.before is not None else "not there"
    after = _status(one.after) if one.after is not None and one.after.code else ""
    return f"before: {before} · after: {', '.join(filter(None, (FOUND.get(one.found, one.found), after)))}"


def _status(code: FaultCode) -> str:
    return " ".join(filter(None, (code.status, f"at {code.odometer}" if code.odometer else "")))


def cleared(code: FaultCode) -> str:
    said = {"": "", "no": "not cleared", "yes": "cleared"}
    return said.get(code.cleared, f"cleared {code.cleared}")


def _report(file: KeptFile) -> Line:
    when = {"codes/before": "before the work", "codes/after": "after the work"}.get(file.to, "")
    return file_line("Report", file, when)


def file_line(title: str, file: KeptFile, beside: str = "") -> Line:
    """A file of the job as a line: what it is called, its digest, and a way to open it."""
    said = " · ".join(filter(None, (beside, f"SHA-256 {file.digest[:16]}…")))
    look = Deed(OPEN_FILE, "Open", of=str(file.entry), opens=True)
    return Line(f"{title}: {file.called}", said, "disc", file.at, deeds=(look,))


def _keep_code(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    read = FaultCode(given["module"], "", "", "", given["when"], book.now())
    if deed.of != "none":
        told = {name: answer.strip() for name, answer in given.items()}
        read = replace(read, code=told["code"], text=told["text"], status=told["status"])
        read = replace(read, odometer=told["odometer"], cleared=told["cleared"])
    desk.add_fault_code(book, by.who, job, read)
    return f"{read.module}: {both_forms(read.code) or 'none stored'}"


def _clear(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    return codes.clear_code(book, by.who, job, int(deed.of), given["by"], given["at"]).words


def _attach(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    added = files.add_files(book, by.who, job, [Path(given["path"]).expanduser()], REPORT, f"codes/{given['when']}")
    return files.said_of(added)


KEEP: Mapping[str, Callable[[OpenBook, Signing, int, Deed, Answers], str]] = {
    "code": _keep_code,
    "clear": _clear,
    "report": _attach,
}
