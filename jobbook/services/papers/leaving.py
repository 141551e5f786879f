"""Papers that leave the shop: previewed, issued with the book's head and seal, kept byte for byte."""

from pathlib import Path

from jobbook.core.errors import Conflict, NotFound, Refused, StoreUnavailable
from jobbook.core.jobs import IssuedPaper
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, head_message
from jobbook.services.house.people import as_now, writing
from jobbook.services.opened import OpenBook

KINDS = ("arrival", "estimate", "handover", "evidence")
MAY_ISSUE = ("desk", "release")


def preview(book: OpenBook, job: int, kind: str) -> bytes:
    """The paper as it would leave now, marked as a preview on every page and in its seal; nothing is kept."""
    from jobbook.services.papers.printing import Copy, sealed  # slow to import, and the first page needs none of it

    _look_at_kind(kind)
    key = book.store.key
    with book.store.read() as reading:
        copy = Copy(book.clock(), "nobody yet: a preview", reading.papers.next_version(job, kind))
        return sealed(reading, job, kind, copy, key, leaves=False)


def issue(book: OpenBook, who: Person, job: int, kind: str) -> IssuedPaper:
    """Issue a paper: it carries the book's head and seal, is kept byte for byte, and names the copy it replaces."""
    from jobbook.services.papers.printing import Copy, sealed

    _look_at_kind(kind)
    key = book.store.key
    with book.store.read() as reading:
        reading.jobs.get(job)
        as_now(reading, who, *MAY_ISSUE)
        head, copies = reading.journal.head(), [p for p in reading.papers.of_job(job) if p.kind == kind]
        replaces = f"version {copies[-1].version} of {copies[-1].issued_at[:10]}" if copies else ""
        copy = Copy(book.clock(), who.name, reading.papers.next_version(job, kind), replaces)
        paper = sealed(reading, job, kind, copy, key)
    with writing(book, who, *MAY_ISSUE) as tx:
        now = [p for p in tx.papers.of_job(job) if p.kind == kind]
        if len(now) != len(copies):
            raise Conflict(
                "Nothing was issued: somebody else issued this paper a moment ago. Look at that one before another."
            )
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
    """Write a paper into a folder: a preview, or with `issuing` one that left. Returns the file.

    `by`: who issues it. Where nobody is named it is who released the job, or else the first person who may issue it."""
    file = folder / f"{kind}-{job}{'' if issuing else '-preview'}.pdf"
    if not issuing:
        _write_whole(file, preview(book, job, kind))
        return file
    folder.mkdir(parents=True, exist_ok=True)
    paper = issue(book, _issuer(book, job, by), job, kind)
    with book.store.read() as reading:
        data = reading.papers.bytes(paper.digest)
    try:
        _write_whole(file, data)
    except OSError as error:
        raise StoreUnavailable(
            f"The paper was issued and is kept in the book, but nothing of it in {folder} ({error.strerror}). "
            "Look at that folder, and take the paper from the book."
        ) from error
    return file


def _issuer(book: OpenBook, job: int, by: str) -> Person:
    with book.store.read() as reading:
        if by:
            return reading.people.get(by)
        releaser = reading.jobs.get(job).released_by
        may = [one for one in reading.people.all() if any(one.may(permission) for permission in MAY_ISSUE)]
    if not may:
        raise Refused("Nothing was issued: nobody who works here may issue papers. Give somebody that permission.")
    return next((one for one in may if one.id == releaser), may[0])


def _write_whole(file: Path, data: bytes) -> None:
    """Write a file whole, or leave none."""
    file.parent.mkdir(parents=True, exist_ok=True)
    partial = file.with_suffix(".part")
    try:
        partial.write_bytes(data)
        partial.replace(file)
    except OSError:
        partial.unlink(missing_ok=True)
        raise
