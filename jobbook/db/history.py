"""What a vehicle's visits left behind: heights as they were read, declined work, and entries of any kind."""

import json
from typing import Any

from jobbook.core.record.journal import Entry
from jobbook.db.journal import COLUMNS, entry_of
from jobbook.db.rows import Rows

# Straight from the journal and word for word as in the partial indexes, which SQLite does not find through a view.
# CROSS JOIN keeps it from going through every act of the book before the visits.
ACTS = """
    SELECT j.number AS entry, j.job, j.done_at AS at, j.body -> 'payload' -> 'act' AS plain
    FROM job v CROSS JOIN journal j WHERE v.vehicle = :vehicle AND j.job = v.number AND j.kind = 'act/1' AND {which}
    AND NOT EXISTS (SELECT 1 FROM journal r WHERE r.replaces = j.number)
    AND NOT EXISTS (SELECT 1 FROM journal u WHERE u.kind = 'undone/1'
        AND u.body -> 'payload' ->> 'act' = j.body ->> 'act')
    ORDER BY j.number
"""
HEIGHTS = ACTS.format(which="j.body -> 'payload' -> 'act' ->> 'what' = 'heights'")
DECLINED = ACTS.format(
    which="(j.body -> 'payload' -> 'act' ->> 'answer' = 'declined' "
    "OR j.body -> 'payload' -> 'act' ->> 'do' = 'declined')"
)
TESTS = """
    SELECT t.entry, t.job, t.at, t.name, t.reason FROM job v CROSS JOIN tests t WHERE v.vehicle = :vehicle
    AND t.job = v.number AND t.answer = 'declined'
"""


class VehicleHistory:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def heights(self, vehicle: int) -> list[dict[str, Any]]:
        """Every reading of heights that counts: entry, job, at, and the act as plain."""
        return [_act(row) for row in self._rows.all(HEIGHTS, vehicle=vehicle)]

    def declined_acts(self, vehicle: int) -> list[dict[str, Any]]:
        """What was answered “declined” in the work, and findings whose repair was declined."""
        return [_act(row) for row in self._rows.all(DECLINED, vehicle=vehicle)]

    def declined_tests(self, vehicle: int) -> list[dict[str, Any]]:
        return [dict(row) for row in self._rows.all(TESTS, vehicle=vehicle)]

    def entries(self, vehicle: int, *kinds: str) -> list[Entry]:
        """The entries of these kinds of all visits, in order; replaced ones are among them."""
        return self._entries("v.vehicle = :vehicle", kinds, vehicle=vehicle)

    def of_the_vehicle(self, job: int, *kinds: str) -> list[Entry]:
        """The same of the vehicle of a job."""
        return self._entries("v.vehicle = (SELECT vehicle FROM job WHERE number = :job)", kinds, job=job)

    def _entries(self, where: str, kinds: tuple[str, ...], **values: int) -> list[Entry]:
        named = {f"kind{place}": kind for place, kind in enumerate(kinds)}
        columns = ", ".join(f"j.{name}" for name in COLUMNS.split(", "))
        sql = f"""SELECT {columns} FROM job v CROSS JOIN journal j WHERE {where} AND j.job = v.number
            AND j.kind IN ({", ".join(":" + name for name in named)}) ORDER BY j.number"""
        return [entry_of(row) for row in self._rows.all(sql, **values, **named)]


def _act(row: Any) -> dict[str, Any]:
    plain = row["plain"]
    return dict(row) | {"plain": json.loads(plain) if isinstance(plain, str) else plain}
