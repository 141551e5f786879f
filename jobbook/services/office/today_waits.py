"""What a job in the shop waits for, as lines of Today: somebody's word, a time of the work that runs, a stand."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from jobbook.core.desk.answers_to_findings import KINDS as ANSWER_KINDS
from jobbook.core.desk.today import Due, waited_for
from jobbook.core.desk.waits import STANDS_KINDS, TIMES, held_words, running_stands, unanswered
from jobbook.core.jobs import JobRow, Reminder
from jobbook.core.record.journal import Entry
from jobbook.db.store import Book

LOOKED_AT = (
    *("asked/1", "finding/1", "waiting/1", "undone/1"),
    *ANSWER_KINDS,
    *STANDS_KINDS,
)


def of_job(row: JobRow, where: str, entries: Sequence[Entry], now: datetime) -> Iterator[Due]:
    """The lines of one job. `entries` are its entries of LOOKED_AT, and of TIMES where a wait was begun on it."""
    undone = {entry.payload["act"] for entry in entries if entry.kind == "undone/1"}
    counting = [entry for entry in entries if entry.act not in undone]
    job = row.number
    for kind, words, since in waited_for(counting):
        yield Due(kind, f"Job {job} waits for {words}", "", since or row.opened_at, where, job, job)
    for wait in unanswered(entries):
        ends = datetime.fromisoformat(str(wait.payload["until"])).astimezone(now.tzinfo).strftime("%Y-%m-%dT%H:%M")
        yield Due("wait", f"Job {job}: the wait of step {wait.payload['step']} ends", ends, "", where, wait.number, job)
    for number, at in running_stands(counting):
        yield Due("stand", f"Job {job}: a leak-down stand runs", "", at, where, number, job)


def with_times(reading: Book, entries: dict[int, list[Entry]]) -> dict[int, list[Entry]]:
    """The entries of each job; where a wait was begun, with the acts that may have answered it. Costs one query where
    there is such a job."""
    waiting = [job for job, listed in entries.items() if any(entry.kind == "waiting/1" for entry in listed)]
    acts = reading.journal.of_jobs(waiting, [kind for kind in TIMES if kind not in LOOKED_AT])
    both = {job: sorted([*entries[job], *listed], key=lambda entry: entry.number) for job, listed in acts.items()}
    return entries | both


def of_reminder(one: Reminder, where: str) -> Due:
    """What a vehicle in the shop waits for from outside."""
    words = f"Job {one.job} waits for {held_words(one.waits_for, one.what, one.stands)}"
    return Due("held", words, one.due_on, one.made_at, where, one.entry, one.job)
