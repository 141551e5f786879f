"""The files of a job, folded from their entries: kept, assigned, chosen, marked, moved away."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.record.files import KeptFile, Mark
from jobbook.core.record.journal import Entry
from jobbook.db.disk.files_on_disk import file_of, read_file
from jobbook.db.journal import entry_of
from jobbook.db.rows import Rows, unsealed

KEPT, ASSIGNED, CHOSEN, MARKED = "file/1", "file-assigned/1", "file-chosen/1", "file-marked/1"
# What counts is asked of the view, so that a file that was moved or taken away is not among them.
OF_JOB = """
    SELECT j.number, j.kind, j.job, j.done_at, j.replaces, j.body, j.leaf, s.value AS name,
           EXISTS (SELECT 1 FROM files f WHERE f.entry = j.number) AS counts
    FROM journal j LEFT JOIN sealed s ON s.commitment = j.body -> 'payload' ->> 'name'
    WHERE j.job = :job AND j.kind IN ('file/1', 'file-assigned/1', 'file-chosen/1', 'file-marked/1') ORDER BY j.number
"""
SAME = "SELECT entry, job FROM files WHERE kind = 'file/1' AND digest = :digest ORDER BY entry"
NAMED = "SELECT number FROM journal WHERE kind = 'file/1' AND body -> 'payload' ->> 'digest' = :digest LIMIT 1"


class Files:
    """Files kept by content. `folder` is the book's, or None where they are kept on the server."""

    def __init__(self, rows: Rows, folder: Path | None) -> None:
        self._rows, self._folder = rows, folder

    def of_job(self, job: int) -> list[KeptFile]:
        """The files of a job that count, in the order in which they came."""
        found: dict[int, KeptFile] = {}
        for row in self._rows.all(OF_JOB, job=job):
            entry = entry_of(row)
            if entry.kind == KEPT and row["counts"]:
                found[entry.number] = kept_file(entry, row["name"])
            elif entry.kind != KEPT:
                found |= _told(found, entry)
        return list(found.values())

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

    def is_there(self, digest: str) -> bool:
        """Whether the content lies in the book now."""
        if self._folder is not None:
            return file_of(self._folder, digest).is_file()
        return self._rows.value("SELECT 1 FROM file_content WHERE digest = :digest", digest=digest) is not None

    def bytes(self, digest: str) -> bytes:
        """The file byte for byte. Raises NotFound."""
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
