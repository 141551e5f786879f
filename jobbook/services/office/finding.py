"""The find line: one question to everything that the book knows by a name or a number."""

from dataclasses import dataclass, replace

from jobbook.core.desk.calls import Call
from jobbook.core.jobs import JobRow
from jobbook.core.labels import Label, read_label
from jobbook.core.quantities.whole import whole_number
from jobbook.core.scans import misread
from jobbook.core.tools import Tool
from jobbook.core.vehicle.parts import KnownPart, Piece
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.search import joined, typed_words, words
from jobbook.db.store import Book
from jobbook.services.office.expected import begins, open_calls
from jobbook.services.opened import OpenBook

MOST_OF_A_GROUP = 6
FEWEST_SIGNS = 4  # of a number that somebody else gave


@dataclass(frozen=True)
class Finds:
    """What was found, by group; each holds a few, the newest first, and what is meant exactly before all others.

    `by_others`: jobs with a number that somebody else gave. `read_as`: what was found is not what was typed, but what
    it may have been read from."""

    jobs: tuple[JobRow, ...] = ()
    calls: tuple[Call, ...] = ()
    vehicles: tuple[Vehicle, ...] = ()
    customers: tuple[Customer, ...] = ()
    parts: tuple[KnownPart, ...] = ()
    pieces: tuple[Piece, ...] = ()
    tools: tuple[Tool, ...] = ()
    by_others: tuple[JobRow, ...] = ()
    read_as: str = ""

    def __len__(self) -> int:
        found = (self.jobs, self.calls, self.vehicles, self.customers, self.parts, self.pieces, self.tools)
        return sum(len(group) for group in (*found, self.by_others))


def find(book: OpenBook, text: str, limit: int = MOST_OF_A_GROUP) -> Finds:
    """What begins with every word of the text as typed so far: numbers, plates, VIN ends, names, serials, batches."""
    if not typed_words(text):
        return Finds()
    if read_label(text) is not None:
        return find_exactly(book, text, limit)
    with book.store.read() as reading:
        found = _found(reading, text, limit)
        if joined(text) not in _numbers_of(found):
            found = replace(found, by_others=_of_paper(reading, text, limit))
        others = misread(text) if not len(found) else ()
        again = (replace(_found(reading, other, limit), read_as=other) for other in others)
        return next((finds for finds in again if len(finds)), found)


def _found(reading: Book, text: str, limit: int) -> Finds:
    return Finds(
        _jobs(reading, text, limit),
        tuple(open_calls(reading, text)[:limit]),
        tuple(reading.vehicles.page(limit=limit, text=text)),
        tuple(reading.customers.page(limit=limit, text=text)),
        tuple(reading.parts.page(limit=limit, text=text)),
        tuple(reading.pieces.page(text, limit)),
        tuple(_tools(reading, text)[:limit]),
    )


def _numbers_of(found: Finds) -> set[str]:
    """The numbers that what was found bears: one that was typed whole is meant, and not looked for among others."""
    told = [str(row.number) for row in found.jobs] + [vehicle.plate for vehicle in found.vehicles]
    told += [vehicle.vin[-signs:] for vehicle in found.vehicles for signs in (6, 8, 17)]
    told += [number for piece in found.pieces for number in (piece.number, piece.serial, piece.batch)]
    told += [part.number for part in found.parts] + [tool.number for tool in found.tools]
    told += [customer.phone or "" for customer in found.customers]
    return {joined(number) for number in told}


def _of_paper(reading: Book, text: str, limit: int) -> tuple[JobRow, ...]:
    """The jobs on which a number stands that others gave, as one is asked for on the telephone."""
    number = joined(text)
    if len(number) < FEWEST_SIGNS or not any(sign.isdigit() for sign in number):
        return ()
    rows = (reading.jobs.row(job) for job in reading.jobs.with_number_of_others(number, limit))
    return tuple(row for row in rows if row is not None)


def find_exactly(book: OpenBook, code: str, limit: int = MOST_OF_A_GROUP) -> Finds:
    """What a scanned code names: a job's number, a whole VIN, a part number, serial or batch, a tool's number."""
    if not joined(code):
        return Finds()
    label = read_label(code)
    with book.store.read() as reading:
        if label is not None:
            return _of_label(reading, label, limit)
        vehicle = reading.vehicles.by_vin(code.strip().upper())
        part = reading.parts.numbered(code)
        return Finds(
            jobs=_job_of(reading, code),
            vehicles=(vehicle,) if vehicle is not None else (),
            parts=(part,) if part is not None else (),
            pieces=tuple(reading.pieces.numbered(code, limit)),
            tools=tuple(tool for tool in reading.tools.all() if joined(tool.number) == joined(code)),
        )


def _of_label(reading: Book, label: Label, limit: int) -> Finds:
    """The item by any of its numbers; the very piece by its serial, else all of its batch."""
    parts = (reading.parts.numbered(number) for number in label.numbers)
    pieces = reading.pieces.numbered(label.serial or label.batch, limit) if label.serial or label.batch else []
    return Finds(parts=tuple(dict.fromkeys(part for part in parts if part is not None)), pieces=tuple(pieces))


def _jobs(reading: Book, text: str, limit: int) -> tuple[JobRow, ...]:
    """The job of just that number first, then those found by the beginnings."""
    exactly = _job_of(reading, text)
    others = reading.jobs.page(limit=limit, text=text)
    return (*exactly, *(row for row in others if row not in exactly))[:limit]


def _job_of(reading: Book, text: str) -> tuple[JobRow, ...]:
    number = whole_number(text)
    row = reading.jobs.row(number) if number is not None else None
    return (row,) if row is not None else ()


def _tools(reading: Book, text: str) -> list[Tool]:
    """The crib holds tens of tools, not thousands: each is looked at."""
    return [tool for tool in reading.tools.all() if begins(_words_of(tool), typed_words(text))]


def _words_of(tool: Tool) -> set[str]:
    return {joined(tool.number), *words(f"{tool.number} {tool.kind} {tool.certificate} {tool.laboratory}")}
