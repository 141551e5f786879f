"""The rows of a list that something is wrong with, written to a file in which they can be mended and taken in anew."""

import csv
from itertools import groupby
from pathlib import Path

from jobbook.core.errors import Refused
from jobbook.core.lists.rows import guarded
from jobbook.services.lists.planning import WRONG, Plan


def write_left_out(planned: Plan, file: Path) -> int:
    """Write them as CSV under the headings of the list, with what is wrong in a last column. Returns how many.

    Never over another file, and whole or not at all. The last column is left out when the file is taken in."""
    if file.exists():
        raise Refused(f"Nothing was written: {file} is there already. Choose another name.")
    wrong = {
        row: " ".join(f"{one.column}: {one.words}." if one.column else f"{one.words}." for one in found)
        for row, found in groupby(planned.findings, key=lambda one: one.row)
    }
    headings, part = planned.listed.headings, file.with_name(file.name + ".part")
    rows = [(*_as_wide(cells, len(headings)), wrong[row]) for row, cells in planned.listed.rows if row in wrong]
    try:
        with part.open("w", encoding="utf-8-sig", newline="") as out:
            csv.writer(out).writerows([guarded(cell) for cell in cells] for cells in ((*headings, WRONG), *rows))
        part.rename(file)
    finally:
        part.unlink(missing_ok=True)
    return len(rows)


def _as_wide(cells: tuple[str, ...], wide: int) -> tuple[str, ...]:
    """As many cells as there are headings; what stands beyond them is kept in the last one."""
    if len(cells) <= wide:
        return (*cells, *("",) * (wide - len(cells)))
    return (*cells[: wide - 1], " ".join(cell for cell in cells[wide - 1 :] if cell.strip()))
