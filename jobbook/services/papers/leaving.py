"""Papers that leave the shop: previewed, issued with the book's head and seal, kept byte for byte."""

from pathlib import Path

from jobbook.core.errors import NotFound, Refused
from jobbook.core.jobs import IssuedPaper
from jobbook.core.journal import Draft, head_message
from jobbook.core.people import Person
from jobbook.services.opened import OpenBook

KINDS = ("handover", "evidence")


def preview(book: OpenBook, job: int, kind: str) -> bytes:
    """The paper as it would leave now, marked as a preview on every page and in its seal; nothing is kept."""
    from jobbook.services.papers.printing import Copy, sealed  # slow to import, and the first page needs none of it

    _look_at_kind(kind)
    key = book.store.key
    with book.store.read() as reading:
        copies = [paper for paper in reading.papers.of_job(job) if paper.kind == kind]
        copy = Copy(book.clock(), "nobody yet: a preview", len(copies) + 1)
        return sealed(reading, job, kind, copy, key, leaves=False)


def issue(book: OpenBook, who: Person, job: int, kind: str) -> IssuedPaper:
    """Issue a paper: it carries the book's head and seal, is kept byte for byte, and names the copy it replaces."""
    from jobbook.services.papers.printing import Copy, sealed

    _look_at_kind(kind)
    key = book.store.key
    with book.store.read() as reading:
        reading.jobs.get(job)
        head, copies = reading.journal.head(), [p for p in reading.papers.of_job(job) if p.kind == kind]
        replaces = f"version {copies[-1].version} of {copies[-1].issued_at[:10]}" if copies else ""
        copy = Copy(book.clock(), who.name, len(copies) + 1, replaces)
        paper = sealed(reading, job, kind, copy, key)
    with book.store.write(who.id) as tx:
        now = [p for p in tx.papers.of_job(job) if p.kind == kind]
        if len(now) != len(copies):
            raise Refused("Somebody else issued this paper a moment ago; look at that one before you issue another.")
        digest = tx.keep_paper(paper)
        told = {
            "job": job, "kind": kind, "version": copy.version, "digest": digest, "size": head.size, "root": head.hex,
            "key": key.hex, "signature": key.sign(head_message(book.store.book_id, head)).hex(),
            "replaces_version": copies[-1].version if copies else 0,
        }  # fmt: skip
        tx.keep(Draft("paper/1", f"job/{job}", told, job=job))
    return papers(book, job)[-1]


def _look_at_kind(kind: str) -> None:
    if kind not in KINDS:
        raise Refused(f"There is no paper “{kind}”: choose {' or '.join(KINDS)}; nothing was printed.")


def papers(book: OpenBook, job: int) -> tuple[IssuedPaper, ...]:
    """The papers of a job that left the shop."""
    with book.store.read() as reading:
        return tuple(reading.papers.of_job(job))


def paper_path(book: OpenBook, paper: IssuedPaper) -> Path:
    """Where an issued paper lies on disk. From a book on a server it is first laid into this workstation's folder."""
    file = book.folder / paper.file
    if book.store.file is None:
        with book.store.read() as reading:
            _write_whole(file, reading.papers.bytes(paper.digest))
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
    file = folder / f"{kind}-{job}{'' if issuing else '-preview'}.pdf"
    _write_whole(file, data)
    return file


def _write_whole(file: Path, data: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    partial = file.with_suffix(".part")
    partial.write_bytes(data)
    partial.replace(file)
