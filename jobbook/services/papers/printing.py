"""A paper as bytes: set, with its entries attached, sealed. What prints is imported with this module, so that a window
that prints nothing opens without it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from types import MappingProxyType

from jobbook.db.disk.keys import Key
from jobbook.db.store import Book
from jobbook.paperwork import arrival as arrival_paper
from jobbook.paperwork import estimate as estimate_paper
from jobbook.paperwork import evidence as evidence_paper
from jobbook.paperwork import handover as handover_paper
from jobbook.paperwork.attached import attach
from jobbook.paperwork.issue import Head
from jobbook.paperwork.seal import SealFacts, append_seal
from jobbook.services.papers.arriving import arrival
from jobbook.services.papers.estimating import estimate
from jobbook.services.papers.filed import file_rows, printed_pictures
from jobbook.services.papers.gathered import JobFacts, gather
from jobbook.services.papers.handing_over import handover
from jobbook.services.papers.proving import earlier_fitting, evidence
from jobbook.services.papers.years import years

ENTRIES = "entries.json"


@dataclass(frozen=True)
class Copy:
    """Which copy of a paper is made: when, by whom, its version, what it takes the place of."""

    at: datetime
    by: str
    version: int = 1
    replaces: str = ""


def printed(reading: Book, job: int, kind: str, copy: Copy, head: Head | None = None) -> bytes:
    """The paper of one job. Without a head it is a preview. A kind that is not one of `leaving.KINDS` is a KeyError."""
    return PRINTERS[kind](reading, gather(reading, job), copy, head)


def _arrival(reading: Book, facts: JobFacts, copy: Copy, head: Head | None) -> bytes:
    record = arrival(reading, facts, copy.at, copy.by, copy.version, copy.replaces)
    return arrival_paper.to_pdf(record, head=head, size=facts.shop.paper)


def _estimate(reading: Book, facts: JobFacts, copy: Copy, head: Head | None) -> bytes:
    record = estimate(facts, copy.at, copy.by, copy.version, copy.replaces)
    return estimate_paper.to_pdf(record, head=head, size=facts.shop.paper)


def _handover(reading: Book, facts: JobFacts, copy: Copy, head: Head | None) -> bytes:
    record = handover(facts, copy.at, copy.by, copy.version, copy.replaces)
    return handover_paper.to_pdf(record, head=head, size=facts.shop.paper)


def _evidence(reading: Book, facts: JobFacts, copy: Copy, head: Head | None) -> bytes:
    told = (facts, copy.at, copy.by, copy.version, copy.replaces)
    earlier = earlier_fitting(reading, facts)
    record = evidence(facts, earlier, *told[1:])
    record = replace(record, years=years(reading, facts, earlier))
    record = replace(record, files=file_rows(reading, facts), pictures=printed_pictures(reading, facts))
    return evidence_paper.to_pdf(record, head=head, size=facts.shop.paper)


PRINTERS: Mapping[str, Callable[[Book, JobFacts, Copy, Head | None], bytes]] = MappingProxyType(
    {"arrival": _arrival, "estimate": _estimate, "handover": _handover, "evidence": _evidence}
)


def sealed(reading: Book, job: int, kind: str, copy: Copy, key: Key, leaves: bool = True) -> bytes:
    """The paper as it leaves: the book's head on every page, the evidence with its entries, and the seal. One that does
    not leave is a preview, marked so on every page and in its seal, without the head that witnesses."""
    head = reading.journal.head()
    shown = Head(reading.book_id, head.size, head.hex, key.fingerprint) if leaves else None
    pdf = printed(reading, job, kind, copy, shown)
    if kind == "evidence":
        pdf = attach(pdf, ENTRIES, reading.pack(job))
    facts = SealFacts(reading.book_id, head.size, head.hex, key.hex, "paper" if leaves else "preview")
    return append_seal(pdf, facts, key.sign)
