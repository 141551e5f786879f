"""The epochs of a book, read from its entries `restored/1`; and the numbers that are left out because of them."""

from collections.abc import Mapping, Sequence
from typing import Any

from jobbook.core.jobs import IssuedPaper
from jobbook.core.record.epochs import VERSION_MARGIN, Restoration
from jobbook.core.record.journal import Entry
from jobbook.db.journal import COLUMNS, entry_of
from jobbook.db.rows import Rows, payload_of

RESTORED, BACKED_UP = "restored/1", "backed-up/1"
NUMBERED = {"job": "number", "vehicle": "id", "customer": "id"}  # tables whose numbers people use, and their columns


def restorations(rows: Rows) -> tuple[Restoration, ...]:
    """Every restoring of this book, in order."""
    sql = f"SELECT {COLUMNS} FROM journal WHERE kind = '{RESTORED}' ORDER BY number"
    return tuple(restoration_of(entry_of(row)) for row in rows.all(sql))


def restoration_of(entry: Entry) -> Restoration:
    """What an entry `restored/1` says. Raises ValueError, TypeError or KeyError where it does not say it."""
    told: Mapping[str, Any] = entry.payload
    numbers = {name: int(told[name]) for name in ("epoch", "size", "last_entry")}
    return Restoration(entry.number, root=str(told["root"]), made_at=str(told["made_at"]), **numbers)


def last_backup(rows: Rows) -> Entry | None:
    """The entry of the last backup, or of the restoring that came after it."""
    kinds = f"kind IN ('{BACKED_UP}', '{RESTORED}')"
    row = rows.first(f"SELECT {COLUMNS} FROM journal WHERE {kinds} ORDER BY number DESC LIMIT 1")
    return None if row is None else entry_of(row)


def forgotten_after(rows: Rows, number: int) -> int:
    """How many times something was erased for somebody after that entry."""
    sql = "SELECT COUNT(*) FROM journal WHERE kind = 'erased/1' AND number > :number"
    return int(rows.value(sql, number=number))


def next_number(rows: Rows, table: str) -> int:
    """The next free number of jobs, vehicles or customers; one that may have been given in a lost part is not free."""
    key = NUMBERED[table]
    highest = int(rows.value(f"SELECT COALESCE(MAX({key}), 0) FROM {table}"))
    gone = int(rows.value("SELECT COALESCE(MAX(id), 0) FROM merged WHERE what = :what", what=table))
    bodies = rows.all(f"SELECT body FROM journal WHERE kind = '{RESTORED}' ORDER BY number")
    skipped = [one for row in bodies for one in payload_of(row["body"])["skipped"] if one["what"] == table]
    return max([highest, gone, *(int(one["last"]) for one in skipped)]) + 1


def next_version(rows: Rows, job: int, copies: Sequence[IssuedPaper]) -> int:
    """The next version of a paper of this job, of which these copies left.

    After a restoring some versions are left out for a job that was open before it: they may have left in the lost
    part."""
    highest = max((paper.version for paper in copies), default=0)
    last = int(rows.value(f"SELECT COALESCE(MAX(number), 0) FROM journal WHERE kind = '{RESTORED}'"))
    opened = rows.value("SELECT MIN(number) FROM journal WHERE job = :job", job=job)
    lost = last and int(opened or 0) < last and not any(paper.entry > last for paper in copies)
    return highest + 1 + (VERSION_MARGIN if lost else 0)
