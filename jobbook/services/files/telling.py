"""Reading the files of a job: what the page shows of each, its bytes, its small picture."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from jobbook.core.errors import BookError
from jobbook.core.record.files import KeptFile, camera_words
from jobbook.db.disk.files_on_disk import small_of, write_small
from jobbook.db.store import Book
from jobbook.services.files.erasing import erased_words, look_whether_erased
from jobbook.services.files.places import Place, places_of
from jobbook.services.opened import OpenBook
from jobbook.services.pictures import SMALL, upright


@dataclass(frozen=True)
class Shown:
    """A file as the page shows it: who brought it, what is odd about its camera's time, where it belongs in words.

    `place` is "" in the tray, also where what it belonged to is not there any more; `gone` says when and by whom its
    bytes were erased."""

    file: KeptFile
    by: str
    camera: str
    place: str
    gone: str = ""


@dataclass(frozen=True)
class ShelfOf:
    """The files of a job and the places that they can belong to, as of the entry `last`; `away` were taken away."""

    shown: tuple[Shown, ...]
    places: tuple[Place, ...]
    last: int
    away: tuple[Shown, ...] = ()


def files_of(book: OpenBook, job: int) -> tuple[KeptFile, ...]:
    """The files of a job that count, in the order in which they came."""
    with book.store.read() as reading:
        return tuple(reading.files.of_job(job))


def shown_files(book: OpenBook, job: int) -> tuple[Shown, ...]:
    """The same with the words that the page shows."""
    return shelf_of(book, job).shown


def shelf_of(book: OpenBook, job: int) -> ShelfOf:
    """Everything that the page of files shows, in one reading."""
    with book.store.read() as reading:
        opened_at, files = reading.jobs.get(job).opened_at, reading.files.of_job(job)
        away = reading.files.away_of(job)
        names = {person.id: person.name for person in reading.people.all()}
        there = places_of(reading, job)
        last = reading.journal.head().size
    words = {one.key: one.words for one in there}

    def shown(file: KeptFile) -> Shown:
        camera = camera_words(file.taken_at, opened_at, file.at) if file.is_picture else ""
        gone = erased_words(file.erased_at, file.erased_by, names) if file.is_erased else ""
        return Shown(file, names.get(file.by, file.by), camera, words.get(file.to, ""), gone)

    return ShelfOf(tuple(map(shown, files)), there, last, tuple(map(shown, away)))


def place_words(reading: Book, job: int, files: Sequence[KeptFile]) -> Mapping[str, str]:
    """What the places of these files are called; nothing of a place that is not there any more."""
    wanted = {file.to for file in files} - {""}
    return {one.key: one.words for one in places_of(reading, job) if one.key in wanted} if wanted else {}


def content(book: OpenBook, digest: str) -> bytes:
    """A kept file byte for byte. Raises NotFound."""
    with book.store.read() as reading:
        return reading.files.bytes(digest)


def small_picture(book: OpenBook, file: KeptFile) -> bytes:
    """The small picture of a picture; made again where somebody threw it away. b"" where there is nothing to show."""
    if file.is_erased:
        return b""
    lies = small_of(book.folder, file.digest)
    if lies.is_file():
        return lies.read_bytes()
    try:
        small = upright(content(book, file.digest), file.called, SMALL)
        write_small(book.folder, file.digest, small)
    except (BookError, OSError):
        return b""
    return small


def view(book: OpenBook, file: KeptFile, longest: int) -> bytes:
    """A picture upright and no larger than needed, as a JPEG. Raises NotFound or Refused."""
    look_whether_erased(file)
    return upright(content(book, file.digest), file.called, longest)
