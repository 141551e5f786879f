"""What is still known of the part of a book that a backup does not hold."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from jobbook.core.errors import Refused
from jobbook.db.disk.places import FILE
from jobbook.db.files import files_erased
from jobbook.db.rows import payload_of


@dataclass(frozen=True)
class Known:
    """The highest entry known of the lost part (0: none), and what was erased in it: commitments, digests of files."""

    last_entry: int = 0
    erased: frozenset[str] = frozenset()
    files: frozenset[str] = frozenset()


def left_of(folder: Path, book: str) -> Known | None:
    """What can still be read in what is left of that book's folder, or None where its file cannot be read.

    PINs and badges that were changed are not among what was erased: without the old one nobody might be left who can
    sign. Raises Refused where the folder holds another book."""
    file = folder / FILE
    if not file.is_file():
        return None
    try:
        with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as connection:
            named, size = connection.execute("SELECT book, size FROM head").fetchone()
            bodies = connection.execute("SELECT body FROM journal WHERE kind = 'erased/1'").fetchall()
        told = [payload_of(body) for (body,) in bodies]
        erased = frozenset(str(one) for payload in told for one in payload["commitments"])
        files = frozenset(digest for payload in told for digest in files_erased(payload))
    except (sqlite3.Error, TypeError, ValueError, KeyError):
        return None
    if named != book:
        raise Refused(
            f"Nothing was restored: {folder} holds another book than the backup. Name the folder of this one."
        )
    return Known(int(size), erased, files)
