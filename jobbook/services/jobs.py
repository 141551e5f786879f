"""Lists of jobs."""

from jobbook.core.jobs import JobRow
from jobbook.core.record.pages import Page
from jobbook.db.jobs import newest_first
from jobbook.services.opened import OpenBook


def jobs(
    book: OpenBook, after: tuple[str, int] | None = None, text: str = "", stage: str = "", limit: int = 100
) -> Page[JobRow]:
    """A page of jobs, the newest first; `text` finds by number, plate, VIN, vehicle or customer as typed so far."""
    with book.store.read() as reading:
        rows = tuple(reading.jobs.page(after=after, limit=limit, text=text, stage=stage))
    last = rows[-1] if len(rows) == limit else None
    return Page(tuple(newest_first(rows)), (last.opened_at, last.number) if last else None)
