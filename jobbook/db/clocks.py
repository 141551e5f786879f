"""Which entries bear times of a clock that ran ahead, told by the entries that set it right."""

from jobbook.core.record.clocks import SET_BACK, Ahead, says_times
from jobbook.core.record.journal import Entry
from jobbook.db.journal import COLUMNS, entry_of
from jobbook.db.rows import Rows

LAST_RIGHT = """
    SELECT number FROM journal WHERE number < :entry AND body ->> 'entered_at' <= :now ORDER BY number DESC LIMIT 1
"""


def ahead(rows: Rows) -> tuple[Ahead, ...]:
    """One for each time that a clock was confirmed which had gone back; one query where there was none."""
    sql = f"SELECT {COLUMNS} FROM journal WHERE kind = '{SET_BACK}' ORDER BY number"
    told = [entry_of(row) for row in rows.all(sql)]
    return tuple(_ahead(rows, entry) for entry in told if says_times(entry.payload))


def _ahead(rows: Rows, entry: Entry) -> Ahead:
    now, until = str(entry.payload["now"]), str(entry.payload["last"])
    right = rows.value(LAST_RIGHT, entry=entry.number, now=now)
    return Ahead(int(right or 0) + 1, int(entry.payload["entry"]), until, now, entry.number)
