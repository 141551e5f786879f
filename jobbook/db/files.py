"""The files of a job, folded from their entries: kept, assigned, chosen, marked, moved away, erased."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.record.files import Erasing, KeptFile, Mark
from jobbook.core.record.journal import Entry
from jobbook.db.disk.files_on_disk import file_of, read_file
from jobbook.db.journal import entry_of
from jobbook.db.rows import Rows, payload_of, unsealed

KEPT, ASSIGNED, CHOSEN, MARKED = "file/1", "file-assigned/1", "file-chosen/1", "file-marked/1"
ERASED = "erased/1"
# What counts is asked of the view, so that a file that was moved or taken away is not among them.
OF_JOB = """
    SELECT j.number, j.kind, j.job, j.done_at, j.replaces, j.body, j.leaf, s.value AS name,
           EXISTS (SELECT 1 FROM files f WHERE f.entry = j.number) AS counts
    FROM journal j LEFT JOIN sealed s ON s.commitment = j.body -> 'payload' ->> 'name'
    WHERE j.job = :job AND j.kind IN ('file/1', 'file-assigned/1', 'file-chosen/1', 'file-marked/1', 'erased/1')
    ORDER BY j.number
"""
SAME = "SELECT entry, job FROM files WHERE kind = 'file/1' AND digest = :digest ORDER BY entry"
NAMED = "SELECT number FROM journal WHERE kind = 'file/1' AND body -> 'payload' ->> 'digest' = :digest LIMIT 1"
AWAY = """
    SELECT j.number, j.kind, j.job, j.done_at, j.replaces, j.body, j.leaf, s.value AS name
    FROM journal j LEFT JOIN sealed s ON s.commitment = j.body -> 'payload' ->> 'name'
    WHERE j.job = :job AND (j.kind = 'erased/1' OR (j.kind = 'file/1' AND EXISTS (
        SELECT 1 FROM journal u WHERE u.kind = 'undone/1' AND u.body -> 'payload' ->> 'act' = j.body ->> 'act'
        AND u.body -> 'payload' ->> 'moved_to' IS NULL))) ORDER BY j.number
"""
KEEPINGS = "SELECT number, job FROM journal WHERE kind = 'file/1' AND body -> 'payload' ->> 'digest' = :digest"
ERASINGS = f"SELECT * FROM journal WHERE kind = 'erased/1' AND job IN (SELECT job FROM ({KEEPINGS}) k)"
ALL_ERASED = """
    SELECT j.number, j.body, j.body ->> 'entered_at' AS at, COALESCE(p.name, j.body ->> 'done_by') AS by_name
    FROM journal j LEFT JOIN person p ON p.id = j.body ->> 'done_by' WHERE j.kind = 'erased/1' ORDER BY j.number DESC
"""


class Files:
    """Files kept by content. `folder` is the book's, or None where they are kept on the server."""

    def __init__(self, rows: Rows, folder: Path | None) -> None:
        self._rows, self._folder = rows, folder

    def of_job(self, job: int) -> list[KeptFile]:
        """The files of a job that count, in the order in which they came."""
        found: dict[int, KeptFile] = {}
        for row in self._rows.all(OF_JOB, job=job):
            entry = entry_of(row)
            if entry.kind == KEPT:
                found |= {entry.number: kept_file(entry, row["name"])} if row["counts"] else {}
            elif entry.kind == ERASED:
                found |= _erased(found, entry)
            else:
                found |= _told(found, entry)
        return list(found.values())

    def away_of(self, job: int) -> list[KeptFile]:
        """The files that were taken away from a job and not brought back: they count no longer, and their bytes are
        there unless erased."""
        here = {file.digest for file in self.of_job(job)}
        found: dict[int, KeptFile] = {}
        for row in self._rows.all(AWAY, job=job):
            entry = entry_of(row)
            found |= {entry.number: kept_file(entry, row["name"])} if entry.kind == KEPT else _erased(found, entry)
        return list({file.digest: file for file in found.values() if file.digest not in here}.values())

    def count(self, job: int) -> int:
        """How many files a job has."""
        return int(self._rows.value("SELECT COUNT(*) FROM files WHERE kind = 'file/1' AND job = :job", job=job))

    def get(self, job: int, entry: int) -> KeptFile:
        """One file of a job. Raises NotFound."""
        found = next((one for one in self.of_job(job) if one.entry == entry), None)
        if found is None:
            raise NotFound(f"Job {job} has no such file any more; nothing was changed. Look at its files again.")
        return found

    def where(self, digest: str) -> list[tuple[int, int]]:
        """Where this content counts already: (entry, job)."""
        return [(int(row["entry"]), int(row["job"])) for row in self._rows.all(SAME, digest=digest)]

    def is_named(self, digest: str) -> bool:
        """Whether any entry names this content, be it one that counts no longer."""
        return self._rows.value(NAMED, digest=digest) is not None

    def keepings(self, digest: str) -> list[tuple[int, int]]:
        """Every entry that ever named this content, with its job, be it one that counts no longer."""
        return [(int(row["number"]), int(row["job"])) for row in self._rows.all(KEEPINGS, digest=digest)]

    def erasing(self, digest: str) -> Entry | None:
        """The entry by which this content was erased for good, or None."""
        entries = (entry_of(row) for row in self._rows.all(ERASINGS, digest=digest))
        return next((entry for entry in entries if digest in files_erased(entry.payload)), None)

    def is_there(self, digest: str) -> bool:
        """Whether the content lies in the book now."""
        if self._folder is not None:
            return file_of(self._folder, digest).is_file()
        return self._rows.value("SELECT 1 FROM file_content WHERE digest = :digest", digest=digest) is not None

    def bytes(self, digest: str) -> bytes:
        """The file byte for byte. Raises NotFound."""
        if not self.is_there(digest) and self.erasing(digest) is not None:
            raise NotFound(f"The file {digest[:12]} was erased for good: its digest is all that is left of it.")
        return read_file(self._folder, self._rows, digest)


def kept_file(entry: Entry, name: str | None) -> KeptFile:
    """The record of an entry `file/1`; `name` is its unsealed name."""
    facts: Mapping[str, Any] = entry.payload
    return KeptFile(
        entry=entry.number,
        digest=facts["digest"],
        size=facts["size"],
        name=unsealed(facts.get("name", ""), name),
        media=facts["media"],
        what=facts["what"],
        at=str(entry.facts["entered_at"]),
        by=str(entry.facts["done_by"]),
        job=entry.job or 0,
        taken_at=facts.get("taken_at", ""),
        turn=facts.get("turn", 0),
        width=facts.get("width", 0),
        height=facts.get("height", 0),
        to=facts.get("to", ""),
    )


def files_erased(payload: Mapping[str, Any]) -> tuple[str, ...]:
    """The digests of the contents that an entry `erased/1` took away."""
    return tuple(str(one) for one in payload.get("files", ()))


def all_erased(rows: Rows) -> dict[str, Erasing]:
    """Every content that was ever erased, with the first entry that says so."""
    found: dict[str, Erasing] = {}
    for row in rows.all(ALL_ERASED):
        payload = payload_of(row["body"])
        told = (int(row["number"]), str(row["at"]), str(row["by_name"]), str(payload.get("reason", "")))
        found |= {digest: Erasing(digest, *told) for digest in files_erased(payload)}
    return found


def _erased(found: Mapping[int, KeptFile], entry: Entry) -> dict[int, KeptFile]:
    """The files whose bytes an entry took away; the facts of them stay."""
    gone, facts = files_erased(entry.payload), entry.facts
    told: dict[str, Any] = {"erased_at": facts["entered_at"], "erased_by": facts["done_by"]}
    told |= {"erased_why": entry.payload["reason"], "chosen": False, "marks": ()}
    return {number: replace(file, **told) for number, file in found.items() if file.digest in gone}


def _told(found: Mapping[int, KeptFile], entry: Entry) -> dict[int, KeptFile]:
    """What an entry says of files that count: the last word holds."""
    facts = entry.payload
    changes: dict[str, Any] = {"to": facts.get("to", "")} if entry.kind == ASSIGNED else {}
    changes |= {"chosen": facts.get("chosen", False)} if entry.kind == CHOSEN else {}
    changes |= {"marks": tuple(_marks(facts))} if entry.kind == MARKED else {}
    return {number: replace(found[number], **changes) for number in facts["files"] if number in found}


def _marks(facts: Mapping[str, Any]) -> Iterator[Mark]:
    for one in facts["marks"]:
        yield Mark(one["shape"], one["x1"], one["y1"], one["x2"], one["y2"])
