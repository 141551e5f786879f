"""What was allowed, declined and tried on a job, read from its entries."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from functools import reduce
from typing import Any, TypeVar

from jobbook.core.desk.answers_to_findings import FindingAnswered
from jobbook.core.desk.estimate import Line, Terms
from jobbook.core.desk.permission import (
    ON_SCREEN,
    Change,
    Contact,
    Declined,
    Overrun,
    as_changed,
    counts,
    withdrawn,
)
from jobbook.core.desk.price import KINDS as PRICE_KINDS
from jobbook.core.desk.price import Priced, followed
from jobbook.core.desk.signature import Signed, from_text
from jobbook.core.jobs import Permission
from jobbook.core.record.journal import Entry
from jobbook.db.store import Book

Record = TypeVar("Record")
Opened = Mapping[str, str | None]

CHANGED, SIGNATURE, CONTACT, OVERRUN = "permission-changed/1", "signature/1", "contact/1", "overrun/1"
DECLINED, LINE, TERMS, ASKED = "declined/1", "line/1", "estimate-terms/1", "asked/1"
ANSWERED = "finding-answered/1"
KINDS = (*PRICE_KINDS, CONTACT, OVERRUN, DECLINED, TERMS, ASKED, ANSWERED)
SEALED = {
    CHANGED: ("who", "reached_at", "why"),
    CONTACT: ("reached_at", "said"),
    DECLINED: ("who", "reached_at"),
    ANSWERED: ("who",),
    SIGNATURE: ("name", "signed"),
    TERMS: ("exclusions",),
}


@dataclass(frozen=True)
class Signature:
    """A signature under a text: `signed` is None where it was erased. `of` is the entry that it stands under."""

    of: int
    name: str | None
    signed: Signed | None
    at: str
    entry: int


@dataclass(frozen=True)
class Asked:
    """A payer was asked for authority."""

    of: str
    at: str
    entry: int
    refused: Change | None = None


@dataclass(frozen=True)
class Agreed:
    """Everything that was agreed, or was to be, on one job. `permissions` are as they were given."""

    permissions: tuple[Permission, ...]
    changes: tuple[Change, ...]
    signatures: tuple[Signature, ...]
    asked: tuple[Asked, ...]
    contacts: tuple[Contact, ...]
    overruns: tuple[Overrun, ...]
    declined: tuple[Declined, ...]
    priced: Priced
    terms: Terms
    answered: tuple[FindingAnswered, ...] = ()

    @property
    def lines(self) -> tuple[Line, ...]:
        return tuple(self.priced.lines[number] for number in sorted(self.priced.lines))

    def as_they_stand(self) -> tuple[Permission, ...]:
        """The permissions with what was changed of them; those withdrawn are left out."""
        there = (one for one in self.permissions if withdrawn(one, self.changes) is None)
        return tuple(as_changed(one, self.changes) for one in there)

    def answer_to(self, finding: int) -> Permission | Declined | FindingAnswered | None:
        """What became of a finding last: allowed, declined, answered otherwise, or nothing yet."""
        answers: list[Permission | Declined | FindingAnswered] = [
            *(one for one in self.as_they_stand() if one.finding == str(finding) and self._given(one)),
            *(one for one in self.declined if one.finding == finding),
            *(one for one in self.answered if one.finding == finding),
        ]
        return max(answers, key=lambda one: one.entry, default=None)

    def _given(self, one: Permission) -> bool:
        return counts(one) and (one.how != ON_SCREEN or self.signature_of(one.entry) is not None)

    def signature_of(self, entry: int) -> Signature | None:
        return next((one for one in reversed(self.signatures) if one.of == entry), None)


NOTHING_AGREED = Agreed((), (), (), (), (), (), (), Priced(), Terms())


def agreed(reading: Book, job: int) -> Agreed:
    """What the entries of this job say, in one reading."""
    entries = _counting(reading.journal.entries(job=job, kind=KINDS))
    opened = reading.all_sealed(entry.payload.get(key, "") for entry in entries for key in SEALED.get(entry.kind, ()))
    changes = _each(entries, opened, CHANGED, Change)
    return Agreed(
        tuple(reading.permissions(job)),
        changes,
        tuple(_signature(entry, opened) for entry in entries if entry.kind == SIGNATURE),
        tuple(_asked(entry, changes) for entry in entries if entry.kind == ASKED),
        _each(entries, opened, CONTACT, Contact),
        _each(entries, opened, OVERRUN, Overrun),
        _each(entries, opened, DECLINED, Declined),
        priced_of(entries),
        next(iter(reversed(_each(entries, opened, TERMS, Terms))), Terms()),
        _each(entries, opened, ANSWERED, FindingAnswered),
    )


def priced_of(entries: Iterable[Entry]) -> Priced:
    """How the price stands after these entries of one job."""
    return reduce(lambda priced, one: followed(priced, one.kind, one.number, one.payload), _counting(entries), Priced())


def _counting(entries: Iterable[Entry]) -> list[Entry]:
    listed = list(entries)
    replaced = {entry.replaces for entry in listed}
    return [entry for entry in listed if entry.number not in replaced]


def _each(entries: Sequence[Entry], opened: Opened, kind: str, made: Callable[..., Record]) -> tuple[Record, ...]:
    return tuple(_record(entry, opened, made) for entry in entries if entry.kind == kind)


def _record(entry: Entry, opened: Opened, made: Any) -> Any:
    known = {one.name for one in fields(made)}
    facts: dict[str, Any] = {key: value for key, value in entry.payload.items() if key in known}
    facts |= {key: opened.get(facts.get(key, "")) for key in SEALED.get(entry.kind, ()) if key in known}
    own = {"entry": entry.number, "by": entry.done_by}
    return made(**facts | {key: value for key, value in own.items() if key in known})


def _signature(entry: Entry, opened: Opened) -> Signature:
    name, kept = (opened.get(entry.payload[key]) for key in ("name", "signed"))
    return Signature(entry.payload["of"], name, from_text(kept) if kept else None, entry.done_at, entry.number)


def _asked(entry: Entry, changes: Iterable[Change]) -> Asked:
    refused = next((one for one in changes if one.of == entry.number), None)
    return Asked(str(entry.payload.get("of", "")), entry.done_at, entry.number, refused)
