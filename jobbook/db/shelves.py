"""What jobs and the shop keep on shelves: tools, specifications, pieces, reminders, papers, methods."""

from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.jobs import IssuedPaper, Reminder
from jobbook.core.tools import Tool
from jobbook.core.vehicle.parts import Piece
from jobbook.db.rows import Rows, payload_of, record
from jobbook.db.search import LONGEST, Question, joined, matching

REMINDER = """
    SELECT r.id, r.job, r.due_on, r.outcome, e.body, m.done_at AS made_at FROM reminder r
    JOIN journal e ON e.number = r.entry JOIN journal m ON m.number = r.id
"""
REMINDER_OF = """
    SELECT r.id, r.job, r.due_on, r.outcome, e.body, m.done_at AS made_at, v.make, v.model, v.plate FROM reminder r
    JOIN journal e ON e.number = r.entry JOIN journal m ON m.number = r.id
    LEFT JOIN job j ON j.number = r.job LEFT JOIN vehicle v ON v.id = j.vehicle
"""
WAITED_FOR = "COALESCE(e.body -> 'payload' ->> 'waits_for', '') <> ''"
FIRST = "ORDER BY r.due_on, r.id LIMIT :limit"
PAPER = """
    SELECT entry, job, paper_kind AS kind, version, digest, at AS issued_at, by AS issued_by FROM papers
"""
PIECE = """
    SELECT p.id, p.job, p.state, p.entry, e.body, e.done_at FROM piece p JOIN journal e ON e.number = p.entry
"""
OF_PIECE = Question(
    rare="p.id IN (SELECT CAST(subject AS TEXT) FROM found WHERE kind = 'piece' AND {found})",
    common="EXISTS (SELECT 1 FROM found WHERE kind = 'piece' AND subject = CAST(p.id AS BIGINT) AND {found})",
)
NUMBERS_OF_PIECE = ("number", "serial", "batch")


class Tools:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: str) -> Tool:
        """One tool. Raises NotFound."""
        sql = "SELECT e.body FROM tool t JOIN journal e ON e.number = t.entry WHERE t.number = :number"
        body = self._rows.value(sql, number=number)
        if body is None:
            raise NotFound(f"There is no tool “{number}” in the tool crib; nothing was changed.")
        return record(Tool, payload_of(body))

    def all(self) -> list[Tool]:
        """Every tool there ever was, by number."""
        sql = "SELECT e.body FROM tool t JOIN journal e ON e.number = t.entry ORDER BY t.number"
        return [record(Tool, payload_of(row["body"])) for row in self._rows.all(sql)]


def entry_facts(body: str) -> dict[str, Any]:
    """All facts of an entry's body."""
    import json

    facts: dict[str, Any] = json.loads(body)
    return facts


class Pieces:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def of_job(self, job: int) -> list[Piece]:
        """What was issued to a job, in the order of issue, each with its state now."""
        sql = f"{PIECE} WHERE p.job = :job ORDER BY CAST(p.id AS INTEGER)"
        return [_piece(row) for row in self._rows.all(sql, job=job)]

    def page(self, text: str, limit: int = 100) -> list[Piece]:
        """Pieces found by the beginnings of part number, serial and batch; those of the newest jobs first."""
        conditions, values = matching(self._rows, text, OF_PIECE, ("piece",))
        where = f"WHERE {' AND '.join(conditions)}" if conditions else ""
        sql = f"{PIECE} {where} ORDER BY p.job DESC, p.id DESC LIMIT :limit"
        return [_piece(row) for row in self._rows.all(sql, **values, limit=limit)]

    def numbered(self, code: str, limit: int = 100) -> list[Piece]:
        """Pieces whose part number, serial or batch is this one, separators and capitals aside."""
        sql = f"""{PIECE} WHERE p.id IN
            (SELECT CAST(subject AS TEXT) FROM found WHERE kind = 'piece' AND token = :token)
            ORDER BY p.job DESC, p.id DESC LIMIT :limit"""
        there = [_piece(row) for row in self._rows.all(sql, token=joined(code)[:LONGEST], limit=limit)]
        return [one for one in there if joined(code) in {joined(getattr(one, name)) for name in NUMBERS_OF_PIECE}]


def _piece(row: Any) -> Piece:
    facts = entry_facts(row["body"])
    standing = {name: row[name] for name in ("id", "job", "state", "entry")}
    issue = {"issued_at": row["done_at"], "issued_by": facts["done_by"]}
    return record(Piece, facts["payload"] | standing | issue)


class Reminders:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def open(self) -> list[Reminder]:
        """What is still due, the earliest first."""
        return [_reminder(row) for row in self._rows.all(f"{REMINDER} WHERE r.outcome = '' ORDER BY r.due_on, r.id")]

    def entry_of(self, number: int) -> int:
        """The entry that speaks for a reminder now."""
        return int(self._rows.value("SELECT entry FROM reminder WHERE id = :number", number=number))

    def due(self, until: str, limit: int) -> list[tuple[Reminder, str]]:
        """What is due up to that day, the earliest first, each with its vehicle and plate; and whatever a vehicle in
        the shop waits for, however far its day is off."""
        which = f"r.outcome = '' AND (r.due_on <= :until OR {WAITED_FOR})"
        rows = self._rows.all(f"{REMINDER_OF} WHERE {which} {FIRST}", until=until, limit=limit)
        return [(_reminder(row), " ".join(filter(None, (row["make"], row["model"], row["plate"])))) for row in rows]

    def get(self, number: int) -> Reminder:
        """One reminder. Raises NotFound."""
        return _reminder(self._rows.one(f"reminder {number}", f"{REMINDER} WHERE r.id = :number", number=number))

    def of_job(self, job: int) -> list[Reminder]:
        return [_reminder(row) for row in self._rows.all(f"{REMINDER} WHERE r.job = :job ORDER BY r.id", job=job)]


def _reminder(row: Any) -> Reminder:
    standing = {"entry": row["id"], "job": row["job"] or 0, "due_on": row["due_on"], "outcome": row["outcome"]}
    standing["made_at"] = row["made_at"]
    return record(Reminder, payload_of(row["body"]) | standing)


class Methods:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, digest: str) -> str:
        """The text of the method with this digest, as a job began it. Raises NotFound."""
        body = self._rows.value(
            "SELECT body FROM journal WHERE kind = 'method/1' AND body -> 'payload' ->> 'digest' = :digest "
            "ORDER BY number",
            digest=digest,
        )
        if body is None:
            raise NotFound(f"The method {digest[:12]} is not in the book; nothing was changed.")
        return str(payload_of(body)["text"])


def issued_paper(row: Any) -> IssuedPaper:
    facts = dict(row) | {"version": int(row["version"]), "file": f"papers/{row['digest']}.pdf"}
    return record(IssuedPaper, facts)
