"""Papers that leave the shop: previewed, issued with the book's head and seal, kept byte for byte."""

from dataclasses import dataclass
from pathlib import Path

from jobbook.core.errors import NotFound, Refused
from jobbook.core.jobs import IssuedPaper
from jobbook.core.journal import Draft, head_message
from jobbook.core.people import Person
from jobbook.db.store import Book
from jobbook.paperwork import evidence as evidence_paper
from jobbook.paperwork import handover as handover_paper
from jobbook.paperwork.attached import attach
from jobbook.paperwork.issue import Head
from jobbook.paperwork.seal import SealFacts, append_seal
from jobbook.services.opened import OpenBook
from jobbook.services.papers.gathered import gather
from jobbook.services.papers.handing_over import handover
from jobbook.services.papers.proving import earlier_fitting, evidence

KINDS = ("handover", "evidence")
ENTRIES = "entries.json"


@dataclass(frozen=True)
class _Copy:
    """Which copy of a paper is made: by whom, its version, what it takes the place of."""

    by: str
    version: int = 1
    replaces: str = ""


def preview(book: OpenBook, job: int, kind: str) -> bytes:
    """The paper as it would leave now, marked as a preview, without head and seal."""
    with book.store.read() as reading:
        copies = [paper for paper in reading.papers.of_job(job) if paper.kind == kind]
        return _pdf(book, reading, job, kind, _Copy("nobody yet: a preview", len(copies) + 1), None)


def issue(book: OpenBook, who: Person, job: int, kind: str) -> IssuedPaper:
    """Issue a paper: it carries the book's head and seal, is kept byte for byte, and names the copy it replaces."""
    with book.store.read() as reading:
        reading.jobs.get(job)
        head, copies = reading.journal.head(), [p for p in reading.papers.of_job(job) if p.kind == kind]
        replaces = f"version {copies[-1].version} of {copies[-1].issued_at[:10]}" if copies else ""
        key = book.store.key
        shown = Head(book.store.book_id, head.size, head.hex, key.fingerprint)
        copy = _Copy(who.name, len(copies) + 1, replaces)
        pdf = _pdf(book, reading, job, kind, copy, shown)
        if kind == "evidence":
            pdf = attach(pdf, ENTRIES, reading.pack(job))
    facts = SealFacts(book.store.book_id, head.size, head.hex, key.hex)
    sealed = append_seal(pdf, facts, key.sign)
    with book.store.write(who.id) as tx:
        now = [paper for paper in tx.papers.of_job(job) if paper.kind == kind]
        if len(now) != len(copies):
            raise Refused("Somebody else issued this paper a moment ago; look at that one before you issue another.")
        digest = tx.keep_paper(sealed)
        told = {
            "job": job, "kind": kind, "version": copy.version, "digest": digest, "size": head.size, "root": head.hex,
            "key": key.hex, "signature": key.sign(head_message(book.store.book_id, head)).hex(),
            "replaces_version": copies[-1].version if copies else 0,
        }  # fmt: skip
        tx.keep(Draft("paper/1", f"job/{job}", told, job=job))
    return papers(book, job)[-1]


def _pdf(book: OpenBook, reading: Book, job: int, kind: str, copy: _Copy, head: Head | None) -> bytes:
    if kind not in KINDS:
        raise Refused(f"There is no paper “{kind}”: choose {' or '.join(KINDS)}; nothing was printed.")
    facts, now = gather(reading, job), book.clock()
    size = facts.shop.paper
    if kind == "handover":
        return handover_paper.to_pdf(handover(facts, now, copy.by, copy.version, copy.replaces), head=head, size=size)
    earlier = earlier_fitting(reading, facts)
    record = evidence(facts, earlier, now, copy.by, copy.version, copy.replaces)
    return evidence_paper.to_pdf(record, head=head, size=size)


def papers(book: OpenBook, job: int) -> tuple[IssuedPaper, ...]:
    """The papers of a job that left the shop."""
    with book.store.read() as reading:
        return tuple(reading.papers.of_job(job))


def paper_path(book: OpenBook, paper: IssuedPaper) -> Path:
    """Where an issued paper lies on disk."""
    file = book.folder / paper.file
    if not file.exists():
        raise NotFound(f"The paper {paper.digest[:12]} is not in the book's folder any more; run the audit.")
    return file


def print_to(book: OpenBook, job: int, kind: str, folder: Path, *, issuing: bool = False, by: str = "") -> Path:
    """Write a paper into a folder: a preview, or with `issuing` one that left. Returns the file."""
    if issuing:
        with book.store.read() as reading:
            person = reading.people.get(by) if by else reading.people.all()[0]
        paper = issue(book, person, job, kind)
        with book.store.read() as reading:
            data = reading.papers.bytes(paper.digest)
    else:
        data = preview(book, job, kind)
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / f"{kind}-{job}{'' if issuing else '-preview'}.pdf"
    partial = file.with_suffix(".part")
    partial.write_bytes(data)
    partial.replace(file)
    return file
