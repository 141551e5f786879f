"""Customers, vehicles or parts written to a file that the same program, or a spreadsheet, can read again."""

import csv
import json
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.lists.columns import KINDS
from jobbook.core.lists.known import Record
from jobbook.core.lists.rows import guarded
from jobbook.core.people import Person
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.store import Book
from jobbook.services.house.people import as_now
from jobbook.services.lists.loading import every
from jobbook.services.lists.planning import LOOK_EVERY, Running, look_at_kind
from jobbook.services.opened import OpenBook

Cells = tuple[str, ...]
Rows = Iterator[Cells]


@dataclass(frozen=True)
class Exported:
    """What was written. `erased`: customers who were forgotten, and are left out."""

    file: Path
    rows: int
    erased: int


def export(book: OpenBook, who: Person | None, kind: str, file: Path, running: Running | None = None) -> Exported:
    """Write a list as CSV, XLSX or JSON, by the ending of the file's name. Never over another file, and whole or not
    at all. `who` may be nobody, on the command line."""
    look_at_kind(kind)
    write = WRITERS.get(file.suffix.lower())
    if write is None:
        raise Refused(
            f"Nothing was written: the name must end in {', '.join(WRITERS)}, which says the form of the file."
        )
    if file.exists():
        raise Refused(f"Nothing was written: {file} is there already. Choose another name.")
    part, counts = file.with_name(file.name + ".part"), {"rows": 0, "erased": 0}
    try:
        with book.store.read() as reading:
            if who is not None:
                as_now(reading, who, "desk")
            write(part, kind, _rows(reading, kind, counts, running))
        part.rename(file)
    finally:
        part.unlink(missing_ok=True)
    return Exported(file, **counts)


def _rows(reading: Book, kind: str, counts: dict[str, int], running: Running | None) -> Rows:
    for place, record in enumerate(every(reading, kind)):
        if running is not None and place % LOOK_EVERY == 0:
            if running.cancelled:
                raise Refused("The export was stopped; no file was written.")
            running.report(place, 0)
        if isinstance(record, Customer) and record.name is None:
            counts["erased"] += 1
            continue
        counts["rows"] += 1
        facts = _facts(reading, record)
        yield tuple(facts.get(one.name, "") for one in KINDS[kind])


def _facts(reading: Book, record: Record) -> dict[str, str]:
    facts = {name: str(value) for name, value in vars(record).items() if value is not None}
    facts["number_here"] = str(record.id)
    if isinstance(record, Vehicle) and record.customer_id:
        owner = reading.customers.get(record.customer_id)
        told = {"owner_here": str(owner.id), "owner": owner.name or "", "owner_phone": owner.phone or ""}
        facts |= told if owner.name else {}
    return facts


def _titles(kind: str) -> Cells:
    return tuple(one.title for one in KINDS[kind])


def _to_csv(file: Path, kind: str, rows: Rows) -> None:
    """As RFC 4180 has it, in UTF-8 with the mark by which spreadsheets know it; no cell begins like a formula."""
    with file.open("w", encoding="utf-8-sig", newline="") as out:
        writer = csv.writer(out)
        writer.writerow(_titles(kind))
        writer.writerows([guarded(cell) for cell in cells] for cells in rows)


def _to_workbook(file: Path, kind: str, rows: Rows) -> None:
    """Every cell is text, so that no VIN becomes a number and nothing is reckoned."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    sheet = book.create_sheet(kind)

    def texts(cells: Sequence[str]) -> list[Any]:
        made = [WriteOnlyCell(sheet, value=cell) for cell in cells]
        for one in made:
            one.data_type = "s"
            one.number_format = "@"
        return made

    sheet.append(texts(_titles(kind)))
    for cells in rows:
        sheet.append(texts(cells))
    book.save(file)


def _to_json(file: Path, kind: str, rows: Rows) -> None:
    names = [one.name for one in KINDS[kind]]
    listed = [dict(zip(names, cells, strict=True)) for cells in rows]
    file.write_text(json.dumps({"list": kind, "rows": listed}, ensure_ascii=False, indent=1), encoding="utf-8")


WRITERS: dict[str, Callable[[Path, str, Rows], None]] = {".csv": _to_csv, ".xlsx": _to_workbook, ".json": _to_json}
