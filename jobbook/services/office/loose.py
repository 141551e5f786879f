"""What is loose in jobs. It replays them, and so brings along all of the work: Today asks for it when it stands."""

from collections.abc import Sequence

from jobbook.core.desk.today import Loose
from jobbook.services.job.replay import kept_acts, state_of, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.jobsheet import all_loose_ends


def loose_ends(book: OpenBook, jobs: Sequence[int]) -> dict[int, Loose]:
    """What is loose in each of these jobs. It replays their acts, some hundredths of a second for each job."""
    return {job: _loose(book, job) for job in jobs}


def _loose(book: OpenBook, job: int) -> Loose:
    with book.store.read() as reading:
        kept = kept_acts(work_entries(reading, job))
    ends = all_loose_ends(state_of(kept), kept)
    now = [end for end in ends if end.group == "loose now"]
    first = next((end.sentence for end in (*now, *ends)), "")
    return Loose(len(now), len(ends) - len(now), first)
