"""What an import would do, row by row, without doing any of it."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Protocol

from jobbook.core.errors import Refused
from jobbook.core.lists.columns import KINDS
from jobbook.core.lists.known import SAME, Known, decide
from jobbook.core.lists.mapping import NOT_TAKEN, Mapped, guess, look_at_mapping, said
from jobbook.core.lists.rows import Finding, Row, doubled, read_row
from jobbook.db.store import Book
from jobbook.services.lists.loading import load
from jobbook.services.lists.reading import Listed, read_list
from jobbook.services.opened import OpenBook

BEGUN = "import-begun/1"
WRONG = "What is wrong"  # the heading of our own column, where rows were written to a file to be mended
LOOK_EVERY = 500  # rows


class Running(Protocol):
    """Who waits for slow work."""

    @property
    def cancelled(self) -> bool: ...

    def report(self, done: int, total: int) -> None: ...

    def hold(self) -> None: ...


@dataclass(frozen=True)
class Plan:
    """What a list comes to: the rows that would be kept, what is wrong with the others, and what else happens.

    `counts` says how many rows are new, changed and the same."""

    kind: str
    listed: Listed
    mapped: Mapped
    rows: tuple[Row, ...]
    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    counts: Mapping[str, int]

    @property
    def left_out(self) -> int:
        """How many rows something is wrong with."""
        return len({finding.row for finding in self.findings})


def headings_of(book: OpenBook, kind: str, file: Path, told: Mapping[str, str] | None = None) -> tuple[Listed, Mapped]:
    """A list with the meaning of its columns: as at the last import of such a list, else guessed, else as told."""
    look_at_kind(kind)
    listed = read_list(file)
    with book.store.read() as reading:
        start = _remembered(reading, kind, listed.headings) or guess(kind, listed.headings)
    return listed, said(kind, listed.headings, start, told or {})


def look_at_kind(kind: str) -> None:
    if kind not in KINDS:
        raise Refused(f"There is no list of “{kind}”: nothing was read. There are {', '.join(KINDS)}.")


def _remembered(reading: Book, kind: str, headings: tuple[str, ...]) -> Mapped:
    """How the columns of a list with these headings were taken last; () where there was none."""
    own = tuple(heading for heading in headings if heading != WRONG)
    known = {"", *(one.name for one in KINDS[kind])}
    for entry in reversed(reading.journal.entries(kind=BEGUN)):
        told: Mapping[str, Any] = entry.payload
        if told["list"] == kind and tuple(told["headings"]) in (own, headings) and set(told["mapped"]) <= known:
            return (*told["mapped"], *(NOT_TAKEN,) * (len(headings) - len(told["mapped"])))
    return ()


def plan(book: OpenBook, kind: str, listed: Listed, mapped: Mapped, running: Running | None = None) -> Plan:
    """Look at every row and say what would become of it. Nothing is kept. Refused where it is stopped meanwhile."""
    look_at_mapping(kind, mapped, listed.headings)
    rows, findings = [], []
    for number, cells in listed.rows:
        row, wrong = read_row(kind, listed.headings, mapped, number, cells)
        rows += [row] if row is not None else []
        findings += wrong
    again = doubled(kind, rows)
    findings += again
    stopped = {finding.row for finding in again}
    with book.store.read() as reading:
        known, _ = load(reading, kind)
    return _decided(kind, listed, mapped, [row for row in rows if row.number not in stopped], findings, known, running)


def _decided(
    kind: str,
    listed: Listed,
    mapped: Mapped,
    rows: list[Row],
    findings: list[Finding],
    known: Known,
    running: Running | None,
) -> Plan:
    kept, notes, counts = [], [], Counter[str]()
    for place, row in enumerate(rows):
        if place % LOOK_EVERY == 0:
            look_whether_stopped(running, place, len(rows))
        try:
            decision = decide(known, kind, row.facts)
        except ValueError as error:
            findings.append(Finding(row.number, "", str(error)))
            continue
        counts[decision.what] += 1
        notes += [Finding(row.number, "", decision.note)] if decision.note else []
        if decision.what != SAME:
            kept.append(row)
            _learn_for_now(known, decision, -2 * place - 1)
    found = tuple(sorted(findings, key=lambda finding: finding.row))
    return Plan(kind, listed, mapped, tuple(kept), found, tuple(notes), dict(counts))


def _learn_for_now(known: Known, decision: Any, number: int) -> None:
    """What the row would bring stands for the rows after it, under numbers that no book gives."""
    record = decision.record
    if decision.owner is not None:
        known.learn(replace(decision.owner, id=number - 1))
        record = replace(record, customer_id=number - 1)
    known.learn(replace(record, id=record.id or number))


def look_whether_stopped(running: Running | None, done: int, total: int) -> None:
    """Say how far it is. Refused where it is no longer wanted."""
    if running is None:
        return
    if running.cancelled:
        raise Refused("The import was stopped before anything of it was kept; the book is as it was.")
    running.report(done, total)
