"""Papers: a preview that is marked so, the paper that leaves the shop, and those that left with their versions."""

from jobbook.core.jobs import IssuedPaper
from jobbook.services import papers
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import JobSheet
from jobbook.ui.jobs.signing import name_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet

KINDS = {
    "arrival": ("Arrival", "For the customer: what was handed over, in what state, and what may be done."),
    "estimate": ("Estimate", "For the customer: parts with their condition, labour, tax, what was declined."),
    "handover": ("Handover", "For the customer: what was said, found and done, parts, heights, joints, cautions."),
    "evidence": ("Evidence", "For the warranty desk: the part as fitted and as failed, every figure with its source."),
}
PREVIEW, ISSUE, OPEN, FOLDER = "preview", "issue", "open", "folder"


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    left = papers.papers(book, sheet.number)
    kinds = Block("Papers of this job", tuple(_kind(kind, left) for kind in KINDS))
    nothing = "No paper of this job has left the shop. A paper that is issued is kept byte for byte."
    folder = Deed(FOLDER, "Open the folder", opens=True)
    lines = tuple(_issued(one, name_of(book, one.issued_by)) for one in left)
    issued = Block("Left the shop", lines, nothing=nothing, deeds=(folder,) if left else ())
    return TabSheet((kinds, issued))


def _kind(kind: str, left: tuple[IssuedPaper, ...]) -> Line:
    title, what = KINDS[kind]
    mark = "disc" if any(one.kind == kind for one in left) else "ring"
    deeds = (Deed(PREVIEW, "Preview", of=kind, opens=True), Deed(ISSUE, "Issue", of=kind))
    return Line(title, what, mark, deeds=deeds)


def _issued(one: IssuedPaper, by: str) -> Line:
    words = f"{KINDS.get(one.kind, (one.kind, ''))[0]}, version {one.version}"
    beside = f"issued by {by} · entry {one.entry} · {one.digest[:16]}"
    return Line(words, beside, "disc", one.issued_at, deeds=(Deed(OPEN, "Open", of=one.digest, opens=True),))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    paper = papers.issue(book, by.who, job, deed.of)
    return f"{KINDS[deed.of][0]}, version {paper.version}, is issued"
