"""Facts of a job, read from the views: what was allowed, tested, shown and issued."""

from pathlib import Path

from jobbook.core.errors import NotFound
from jobbook.core.jobs import FaultCode, IssuedPaper, Permission, Test
from jobbook.db.disk.papers_on_disk import read_paper
from jobbook.db.epochs import next_version
from jobbook.db.rows import Rows, record, unsealed
from jobbook.db.shelves import PAPER, issued_paper

PERMISSIONS = """
    SELECT p.*, w.value AS who_said, n.value AS reached_said, f.value AS acts_for_said FROM permissions p
    LEFT JOIN sealed w ON w.commitment = p.who LEFT JOIN sealed n ON n.commitment = p.reached_at
    LEFT JOIN sealed f ON f.commitment = p.acts_for
    WHERE p.job = :job ORDER BY p.entry
"""


def permissions(rows: Rows, job: int) -> list[Permission]:
    """What was allowed, in the order in which it was."""
    found = []
    for row in rows.all(PERMISSIONS, job=job):
        said = {
            "who": unsealed(row["who"] or "", row["who_said"]),
            "reached_at": unsealed(row["reached_at"] or "", row["reached_said"]),
            "acts_for": unsealed(row["acts_for"] or "", row["acts_for_said"]),
            "at": row["given_at"] or row["at"],
        }
        found.append(record(Permission, {k: v for k, v in row.items() if v is not None} | said))
    return found


def tests(rows: Rows, job: int) -> list[Test]:
    """The tests of the diagnosis with their answers."""
    return [record(Test, dict(row)) for row in rows.all("SELECT * FROM tests WHERE job = :job ORDER BY entry", job=job)]


def fault_codes(rows: Rows, job: int) -> list[FaultCode]:
    """Fault codes before and after, each with the module that showed it."""
    listed = rows.all("SELECT * FROM fault_codes WHERE job = :job ORDER BY entry", job=job)
    return [record(FaultCode, dict(row) | {"text": row["words"], "when": row["of_time"]}) for row in listed]


class Papers:
    """Papers that left the shop. `folder` is the book's, or None where papers are kept on the server."""

    def __init__(self, rows: Rows, folder: Path | None) -> None:
        self._rows, self._folder = rows, folder

    def of_job(self, job: int) -> list[IssuedPaper]:
        return [issued_paper(row) for row in self._rows.all(f"{PAPER} WHERE job = :job ORDER BY entry", job=job)]

    def get(self, digest: str) -> IssuedPaper:
        """The paper with this digest. Raises NotFound."""
        row = self._rows.first(f"{PAPER} WHERE kind = 'paper/1' AND digest = :digest ORDER BY entry", digest=digest)
        if row is None:
            raise NotFound(f"No paper {digest[:12]} left this shop; nothing was changed.")
        return issued_paper(row)

    def next_version(self, job: int, kind: str) -> int:
        """The version that the next paper of this kind has."""
        return next_version(self._rows, job, [paper for paper in self.of_job(job) if paper.kind == kind])

    def bytes(self, digest: str) -> bytes:
        """The paper byte for byte. Raises NotFound."""
        return read_paper(self._folder, self._rows, digest)
