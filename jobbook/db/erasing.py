"""Erasing the content of a file for good: said on every job that ever named it, so that each tells why it is gone."""

from collections.abc import Sequence

from jobbook.core.record.journal import Draft, Entry
from jobbook.db.files import ERASED
from jobbook.db.writing import WritingBook


def erase_content(tx: WritingBook, digest: str, commitments: Sequence[str], reason: str) -> list[Entry]:
    """Keep that this content is erased, with sealed values that go along. The bytes go when the write is kept."""
    jobs = sorted({job for _entry, job in tx.files.keepings(digest)})
    facts = {"commitments": list(commitments), "files": [digest], "reason": reason}
    return [tx.keep(Draft(ERASED, f"job/{job}", facts, job=job, reason=reason)) for job in jobs]
