"""The parts that the shop knows by their numbers."""

from typing import Any

from jobbook.core.vehicle.parts import KnownPart
from jobbook.db.rows import Rows, payload_of, record
from jobbook.db.search import Question, joined, matching

PART = "SELECT p.id, e.body FROM part p JOIN journal e ON e.number = p.entry"
OF_PART = Question(
    rare="p.id IN (SELECT subject FROM found WHERE kind = 'part' AND {found})",
    common="EXISTS (SELECT 1 FROM found WHERE kind = 'part' AND subject = p.id AND {found})",
)


class KnownParts:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> KnownPart:
        """One part. Raises NotFound."""
        return _part(self._rows.one(f"part {number}", f"{PART} WHERE p.id = :id", id=number))

    def page(self, after: int | None = None, limit: int = 100, text: str = "") -> list[KnownPart]:
        """Parts, the newest first; `text` finds by the beginnings of number, title and supplier."""
        conditions, values = matching(self._rows, text, OF_PART, ("part",))
        if after is not None:
            conditions, values = [*conditions, "p.id < :after"], values | {"after": after}
        where = f"WHERE {' AND '.join(conditions)}" if conditions else ""
        sql = f"{PART} {where} ORDER BY p.id DESC LIMIT :limit"
        return [_part(row) for row in self._rows.all(sql, **values, limit=limit)]

    def numbered(self, number: str) -> KnownPart | None:
        """The part of this number, separators and capitals aside."""
        folded = joined(number)
        row = self._rows.first(f"{PART} WHERE p.folded = :folded AND p.folded <> '' ORDER BY p.id", folded=folded)
        return None if row is None else _part(row)


def _part(row: Any) -> KnownPart:
    return record(KnownPart, payload_of(row["body"]) | {"id": row["id"]})
