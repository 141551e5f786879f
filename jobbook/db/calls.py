"""Calls that were taken, and attempts to reach somebody."""

from typing import Any

from jobbook.core.desk.calls import Call, Tried
from jobbook.db.rows import Rows, payload_of, record, unsealed

SEALED = ("caller", "phone", "words", "warning", "elsewhere")
_VALUES = ", ".join(f"s{place}.value AS {name}" for place, name in enumerate(SEALED))
_JOINS = " ".join(
    f"LEFT JOIN sealed s{place} ON s{place}.commitment = e.body -> 'payload' ->> '{name}'"
    for place, name in enumerate(SEALED)
)
CALL = f"""
    SELECT c.id, c.expected, c.outcome, c.job, c.entry, e.body, t.done_at AS taken_at,
        t.body ->> 'done_by' AS taken_by, {_VALUES}
    FROM call c JOIN journal e ON e.number = c.entry JOIN journal t ON t.number = c.id {_JOINS}
"""
TRIED = """
    SELECT t.how, t.outcome, t.at, t.by, t.note AS note_seal, s.value AS note
    FROM tries t LEFT JOIN sealed s ON s.commitment = t.note WHERE t.whom = :whom ORDER BY t.entry
"""


class Calls:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> Call:
        """One call. Raises NotFound."""
        return _call(self._rows.one(f"call {number}", f"{CALL} WHERE c.id = :id", id=number))

    def open(self, limit: int) -> list[Call]:
        """Calls that nothing came of yet: the one that is expected first, those without a day at the end."""
        order = "ORDER BY CASE WHEN c.expected = '' THEN 1 ELSE 0 END, c.expected, c.id LIMIT :limit"
        return [_call(row) for row in self._rows.all(f"{CALL} WHERE c.outcome = '' {order}", limit=limit)]

    def entries_of_job(self, job: int) -> list[int]:
        """The numbers of the entries about a call that became this job: as it was taken, said anew, and tried."""
        call = self._rows.value("SELECT id FROM call WHERE job = :job", job=job)
        return [] if call is None else self.entries_of(int(call))

    def entries_of(self, number: int) -> list[int]:
        """The numbers of the entries about a call: as it was taken, said anew, and tried."""
        said, entry = [], self._rows.value("SELECT entry FROM call WHERE id = :id", id=number)
        while entry is not None:
            said.append(int(entry))
            entry = self._rows.value("SELECT replaces FROM journal WHERE number = :entry", entry=entry)
        tries = self._rows.all("SELECT entry FROM tries WHERE whom = :whom", whom=f"call/{number}")
        return sorted({*said, *(row["entry"] for row in tries)})

    def ended_before(self, day: str, limit: int) -> list[Call]:
        """Calls that ended without a job and of which nothing was said since that day, but for those erased."""
        where = "c.outcome <> '' AND c.job IS NULL AND e.done_at < :day AND s0.value IS NOT NULL"
        return [
            _call(row)
            for row in self._rows.all(f"{CALL} WHERE {where} ORDER BY c.id LIMIT :limit", day=day, limit=limit)
        ]

    def tried(self, whom: str) -> list[Tried]:
        """The attempts to reach somebody about this: "call/12", "reminder/34"."""
        return [_tried(row) for row in self._rows.all(TRIED, whom=whom)]


def _call(row: Any) -> Call:
    facts = payload_of(row["body"])
    said = {name: unsealed(facts.get(name, ""), row[name]) for name in SEALED}
    standing = {"number": row["id"], "job": row["job"] or 0}
    standing |= {name: row[name] for name in ("expected", "outcome", "taken_at", "taken_by", "entry")}
    return record(Call, facts | said | standing)


def _tried(row: Any) -> Tried:
    note = unsealed(row["note_seal"] or "", row["note"])
    return Tried(row["how"], row["outcome"], note, row["at"], row["by"])
