"""Files come into the book: looked into, laid beside it, and only then named by the journal, all of them or none."""

import mimetypes
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError, Refused, StoreUnavailable
from jobbook.core.people import Person
from jobbook.core.record.files import WHATS, KeptFile
from jobbook.core.record.journal import Draft
from jobbook.db.disk.files_on_disk import write_small
from jobbook.db.disk.papers_on_disk import digest_of
from jobbook.db.disk.troubles import disk_said_plainly
from jobbook.db.files import KEPT
from jobbook.db.store import WritingBook
from jobbook.services.files.erasing import refuse_what_was_erased
from jobbook.services.files.places import look_at_place
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.pictures import Looked, look_into

MOST_BYTES = 250_000_000
MAY = ("work", "desk")


class Pace(Protocol):
    """How preparing says how far it is, and hears that it is no longer wanted."""

    @property
    def cancelled(self) -> bool: ...

    def report(self, done: int, total: int) -> None: ...


@dataclass(frozen=True)
class Source:
    """Where a file comes from: its name, and how its bytes are read. Reading may raise OSError."""

    name: str
    read: Callable[[], bytes]


def of_path(path: Path) -> Source:
    return Source(path.name, lambda: _read(path))


def of_bytes(name: str, data: bytes) -> Source:
    return Source(name, lambda: data)


def _read(path: Path) -> bytes:
    if path.stat().st_size > MOST_BYTES:
        raise OSError(0, f"it has more than {MOST_BYTES // 1_000_000} MB")
    return path.read_bytes()


@dataclass(frozen=True)
class Again:
    """A file that the book has already: on which job, and as which entry."""

    name: str
    job: int
    entry: int


@dataclass(frozen=True)
class Waiting:
    """A file that lies in the book and is not named by an entry yet."""

    digest: str
    size: int
    name: str
    what: str
    looked: Looked
    laid: bool  # false where the content was there already


@dataclass(frozen=True)
class Ready:
    """Files that were looked into and laid beside the book; `refused` are sentences on those that were not."""

    files: tuple[Waiting, ...]
    again: tuple[Again, ...]
    refused: tuple[str, ...]


@dataclass(frozen=True)
class Added:
    """What came of taking files in."""

    kept: tuple[KeptFile, ...]
    again: tuple[Again, ...] = ()
    refused: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        many = len(self.kept)
        return "1 file kept" if many == 1 else f"{many} files kept"


def add_files(
    book: OpenBook,
    who: Person,
    job: int,
    sources: Sequence[Path | Source],
    what: str = "",
    to: str = "",
) -> Added:
    """Take files into a job. `what` is one of core.files.WHATS; "" takes pictures as pictures, the rest as documents.

    A file that cannot be taken is said in a sentence, and the others are kept. A full disk keeps none of them."""
    taken = tuple(of_path(one) if isinstance(one, Path) else one for one in sources)
    return keep_ready(book, who, job, prepare(book, job, taken, what), to)


def prepare(book: OpenBook, job: int, sources: Sequence[Source], what: str = "", pace: Pace | None = None) -> Ready:
    """The slow part, beside any write: read, look into, lay into the book. Nothing names the files yet.

    Raises StoreUnavailable or, where it was stopped, Refused; and then leaves nothing behind."""
    if what not in ("", *WHATS):
        raise Refused(f"Nothing was kept: there are no files called “{what}”.")
    with book.store.read() as reading:
        reading.jobs.get(job)
    files: list[Waiting] = []
    again: list[Again] = []
    refused: list[str] = []
    with _taken_back(book, files):
        for place, source in enumerate(sources):
            if pace is not None and pace.cancelled:
                raise Refused("Nothing was kept: taking the files in was stopped.")
            try:
                one = _looked_at(book, job, source, what, {file.digest for file in files})
            except Refused as error:
                refused.append(str(error))
                continue
            if isinstance(one, Again):
                again.append(one)
            else:
                _lay(book, *one, files)
            if pace is not None:
                pace.report(place + 1, len(sources))
    return Ready(tuple(files), tuple(again), tuple(refused))


def _looked_at(book: OpenBook, job: int, source: Source, what: str, before: set[str]) -> tuple[Waiting, bytes] | Again:
    try:
        data = source.read()
    except OSError as error:
        why = error.strerror or "its disk reports a fault"
        raise Refused(f"“{source.name}” was not kept: it could not be read ({why}). Look at where it lies.") from error
    if not data:
        raise Refused(f"“{source.name}” was not kept: it is empty, 0 bytes. Copy it from the camera again.")
    digest = digest_of(data)
    if digest in before:
        return Again(source.name, job, 0)
    with book.store.read() as reading:
        refuse_what_was_erased(reading, digest, source.name)
    looked = look_into(data, source.name)
    if looked is None and what in ("picture", "signature"):
        raise Refused(f"“{source.name}” was not kept: it is no picture that can be read here. Add it as a document.")
    there = _where(book, digest, job, bool(looked))
    if there is not None:
        return Again(source.name, *there)
    kind = what or ("picture" if looked else "document")
    media = mimetypes.guess_type(source.name)[0] or "application/octet-stream"
    seen = looked or Looked(media, 0, 0, "", 0, b"")
    return Waiting(digest, len(data), source.name, kind, seen, False), data


def _where(book: OpenBook, digest: str, job: int, picture: bool) -> tuple[int, int] | None:
    """The job and the entry that has this content: a picture in any job, another file in this one."""
    with book.store.read() as reading:
        found = reading.files.where(digest)
    listed = [(number, entry) for entry, number in found if picture or number == job]
    return next((one for one in listed if one[0] == job), listed[0] if listed else None)


def _lay(book: OpenBook, one: Waiting, data: bytes, files: list[Waiting]) -> None:
    laid = book.store.lay(data)
    files.append(replace(one, laid=laid))
    if one.looked.small:
        with disk_said_plainly(book.folder):
            write_small(book.folder, one.digest, one.looked.small)


def keep_ready(book: OpenBook, who: Person, job: int, ready: Ready, to: str = "") -> Added:
    """The short part: one write in which the journal names what was prepared. `to`: what it belongs to."""
    again, kept = list(ready.again), []
    with _taken_back(book, ready.files):
        look_at_place(to)
        if not ready.files:
            return Added((), ready.again, ready.refused)
        with writing(book, who, *MAY) as tx:
            for one in ready.files:
                there = [a for a in tx.files.where(one.digest) if one.looked.width or a[1] == job]
                if there:
                    again.append(Again(one.name, there[0][1], there[0][0]))
                    continue
                kept.append(tx.keep(_draft(tx, job, one, to)).number)
            found = tuple(file for file in tx.files.of_job(job) if file.entry in kept)
    return Added(found, tuple(again), ready.refused)


def _draft(tx: WritingBook, job: int, one: Waiting, to: str) -> Draft:
    refuse_what_was_erased(tx, one.digest, one.name)
    if not tx.files.is_there(one.digest):
        raise StoreUnavailable(
            f"“{one.name}” is not in the book's folder any more: nothing was kept. Look at its disk, then add it again."
        )
    looked = one.looked
    facts: dict[str, object] = {"job": job, "digest": one.digest, "size": one.size, "what": one.what}
    facts |= {"name": tx.seal(one.name), "media": looked.media, "taken_at": looked.taken_at, "turn": looked.turn}
    facts |= {"width": looked.width, "height": looked.height, "to": to}
    return Draft(KEPT, f"job/{job}", facts, job=job)


def said_of(added: Added) -> str:
    """The words for what came of it. Refused where nothing was kept, with why."""
    if not added.kept:
        again = [
            f"“{one.name}” is in the book already, on job {one.job}; it was not kept twice." for one in added.again
        ]
        raise Refused(" ".join((*added.refused, *again)) or "Nothing was kept: no file was given.")
    return added.words


@contextmanager
def _taken_back(book: OpenBook, files: Sequence[Waiting]) -> Iterator[None]:
    """Whatever goes wrong inside, the files that were laid for it are taken away again."""
    try:
        yield
    except BaseException:
        for one in files:
            if one.laid:
                with _quietly():
                    book.store.take_back(one.digest)
        raise


@contextmanager
def _quietly() -> Iterator[None]:
    """What already failed says why; a disk that cannot even be cleared adds nothing to it."""
    try:
        yield
    except (BookError, OSError):
        return
