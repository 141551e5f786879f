"""Is this paper as it was issued, and is this book whole?"""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from jobbook.core.errors import NotFound, Unreadable
from jobbook.core.record.epochs import lost_after
from jobbook.core.record.heads import fingerprint
from jobbook.core.record.pack import Proved, read_pack
from jobbook.services.opened import open_book

if TYPE_CHECKING:
    from jobbook.db.audit import Report
    from jobbook.db.store import Book

STATUS = {"consistent": 0, "altered": 1, "unreadable": 2}
LARGEST = 200 * 1024 * 1024


@dataclass(frozen=True)
class Answer:
    """What became of a file: consistent, altered or unreadable, in sentences."""

    word: str
    sentences: tuple[str, ...]
    lost: bool = False  # consistent by itself, but of a part of the book that was lost before a backup was restored

    @property
    def status(self) -> int:
        return STATUS[self.word]


@dataclass(frozen=True)
class _Witnessed:
    """What a file says of the book that it comes from."""

    book: str
    entry: int
    head: str
    key: bytes
    left: bool = True  # a preview never left the shop, so no book knows it
    entries: tuple[Proved, ...] = ()


def verify_file(file: Path, book: str | None = None, key: str | None = None) -> Answer:
    """Check a paper (PDF) or an evidence pack (JSON) by itself, and against a book or a key where one is given."""
    if not file.is_file() or file.stat().st_size > LARGEST:
        raise Unreadable(f"{file} is no file that can be checked; name the paper as it was sent.")
    data = file.read_bytes()
    answer, said = _pack(data) if data.lstrip()[:1] == b"{" else _paper(data)
    if answer.word != "consistent" or said is None:
        return answer
    doubts, lost = _against_the_book(said, data, book) if book else ([], "")
    doubts = [*_key_doubts(said, key), *doubts]
    if doubts:
        return Answer("altered", tuple(doubts))
    return Answer(answer.word, (*answer.sentences, lost), lost=True) if lost else answer


def _paper(data: bytes) -> tuple[Answer, _Witnessed | None]:
    from jobbook.paperwork.attached import attachment
    from jobbook.paperwork.seal import check_seal

    verdict = check_seal(data)
    if verdict.state != "consistent" or verdict.seal is None:
        return Answer(verdict.state, (verdict.sentence,)), None
    facts = verdict.seal.facts
    inside = attachment(data, "entries.json")
    pack = read_pack(inside) if inside is not None else None
    if pack is not None and pack.findings:
        return Answer("altered", pack.findings), None
    entries = pack.entries if pack is not None else ()
    said = _Witnessed(facts.book, facts.entry, facts.head, bytes.fromhex(facts.key), facts.kind == "paper", entries)
    return Answer("consistent", (_consistent(said.key), verdict.sentence)), said


def _pack(data: bytes) -> tuple[Answer, _Witnessed | None]:
    pack = read_pack(data)
    if pack.findings:
        return Answer("altered", pack.findings), None
    said = _Witnessed(pack.book, pack.head.size, pack.head.hex, pack.key, entries=pack.entries)
    words = f"{len(pack.entries)} entries are those that the head of entry {pack.head.size} witnesses."
    return Answer("consistent", (_consistent(pack.key), words)), said


def _consistent(key: bytes) -> str:
    return f"Consistent, signed by {fingerprint(key)}: compare with a paper."


def _key_doubts(said: _Witnessed, key: str | None) -> list[str]:
    if key is None or "".join(key.split()).lower() == "".join(fingerprint(said.key).split()):
        return []
    return [f"It is signed by {fingerprint(said.key)}, not by {key}: it does not come from that book."]


def _against_the_book(said: _Witnessed, data: bytes, place: str) -> tuple[list[str], str]:
    """What speaks against it in its book; and where nothing does, the part of the book that was lost with it, if so."""
    opened = open_book(place)
    try:
        if opened.store.book_id != said.book or opened.store.key_hex != said.key.hex():
            return ["It does not come from this book: another book's id or key stands in it."], ""
        with opened.store.read() as reading:
            known = _head_at(reading, said)
            doubts = [] if known else ["The head on it is not one that this book ever had."]
            if data[:4] == b"%PDF" and said.left:
                doubts += _unknown(reading, data)
            lost = _lost(reading, said, known) if doubts else ""
        return ([], lost) if lost else (doubts, "")
    finally:
        opened.close()


def _lost(reading: "Book", said: _Witnessed, head_is_known: bool) -> str:
    """Where the book was restored from a backup that was older than this paper: the book cannot speak for or against
    it, but for the entries that both hold."""
    parts = [
        f"entry {one.size} of epoch {one.epoch - 1}"
        for one in lost_after(reading.restorations(), said.entry, head_is_known)
        if all(_has(reading, proved) for proved in said.entries if proved.number <= one.size)
    ]
    return (
        f"It was issued in the lost part after {' or after '.join(parts)}: the book was restored from an older backup "
        "since, so it neither confirms nor contradicts this paper. Compare the key with another paper."
        if parts
        else ""
    )


def _has(reading: "Book", proved: Proved) -> bool:
    return reading.journal.get(proved.number).body == proved.body


def _head_at(reading: "Book", said: _Witnessed) -> bool:
    """Whether the book's head was this when it had that many entries."""
    head = reading.journal.head_at(said.entry)
    return head is not None and head.hex == said.head


def _unknown(reading: "Book", data: bytes) -> list[str]:
    import hashlib

    try:
        reading.papers.get(hashlib.sha256(data).hexdigest())
    except NotFound:
        return ["This paper is not among those that left this book."]
    return []


def audit_book(place: str) -> "Report":
    """Check a whole book. Raises StoreUnavailable where it cannot be opened."""
    from jobbook.db.audit import audit

    opened = open_book(place)
    try:
        return audit(opened.store)
    finally:
        opened.close()
