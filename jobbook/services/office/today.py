"""Today: what is due at the desk and in the bay, from everything that the book knows. One question for each kind."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from jobbook.core.desk.calls import Call, read_moment
from jobbook.core.desk.outcomes import RETORQUE
from jobbook.core.desk.today import Due, in_order
from jobbook.core.fitness import DUE_SOON_DAYS, due_on
from jobbook.core.jobs import JobRow, Reminder
from jobbook.db.store import Book
from jobbook.services.house.backups import last_backup
from jobbook.services.house.clocks import trouble_and_doubt
from jobbook.services.house.kept_long import oldest_kept_long
from jobbook.services.house.putting_off import backup_put_off
from jobbook.services.office.today_waits import LOOKED_AT, of_job, of_reminder, with_times
from jobbook.services.opened import OpenBook

MOST = 200  # of each kind; a shop of this trade has a dozen
VISIT_DAYS = 14  # a visit is shown so many days before it is due: our own choice


@dataclass(frozen=True)
class Today:
    """What is due, in order. `last` names the last entry of each job in the shop: while it is the same, so is what is
    loose in that job. `cut` says that there is more than is shown."""

    lines: tuple[Due, ...]
    last: Mapping[int, int]
    now: datetime
    cut: bool = False


def today(book: OpenBook) -> Today:
    """Everything that is due. Some ten queries, however long the book is."""
    now = book.clock()
    with book.store.read() as reading:
        in_shop, calls = reading.jobs.in_shop(MOST), reading.calls.open(MOST)
        visits = reading.reminders.due((now + timedelta(days=VISIT_DAYS)).date().isoformat(), MOST)
        numbers = [row.number for row in in_shop]
        last = reading.journal.last_of_jobs(numbers)
        entries = with_times(reading, reading.journal.of_jobs(numbers, LOOKED_AT))
        lines = [*map(_call, calls), *map(_job, in_shop), *_tools(reading, now)]
        lines += [_reminder(one, where) for one, where in visits]
        lines += _kept_long(reading, now)
    for row in in_shop:
        lines += of_job(row, _vehicle(row), entries.get(row.number, []), now)
    lines += _of_the_book(book)
    cut = max(len(in_shop), len(calls), len(visits)) >= MOST
    return Today(in_order(lines, now), last, now, cut)


def _call(call: Call) -> Due:
    about = " ".join(filter(None, (call.vehicle, call.plate)))
    overnight = ", stands overnight" if call.overnight else ""
    what = f"{call.caller or 'erased'} comes{overnight}: “{call.words or 'erased'}”"
    return Due("call", what, call.expected, "" if call.expected else call.taken_at, about, call.number)


def _job(row: JobRow) -> Due:
    promised = read_moment(row.promised) or ""
    said = f"“{row.concern}”" if row.concern else "erased" if row.concern is None else "no concern"
    return Due("job", f"Job {row.number}: {said}", promised, row.opened_at, _vehicle(row), row.number, row.number)


def _vehicle(row: JobRow) -> str:
    return f"{row.vehicle} {row.plate}".strip()


def _reminder(one: Reminder, where: str) -> Due:
    if one.waits_for:
        return of_reminder(one, where)
    kind = "visit" if one.what == RETORQUE else "reminder"
    return Due(kind, _visit_words(one), one.due_on, "", where, one.entry, one.job)


def _visit_words(one: Reminder) -> str:
    about = f"Job {one.job}: " if one.job else ""
    return f"{about}{one.what}" + (f", or after {one.due_at}" if one.due_at else "")


def _tools(reading: Book, now: datetime) -> Iterator[Due]:
    for tool in reading.tools.all():
        due = due_on(tool)
        if tool.status == "in use" and due is not None and due - now.date() <= timedelta(days=DUE_SOON_DAYS):
            yield Due("tool", f"{tool.number} {tool.kind}: calibration", due.isoformat(), key=tool.number)


def _kept_long(reading: Book, now: datetime) -> Iterator[Due]:
    first = oldest_kept_long(reading, now.date())
    if first is not None:
        yield Due("kept long", "Customers' data is kept longer than the country profile says", "", first.last)


def _of_the_book(book: OpenBook) -> Iterator[Due]:
    (trouble, doubt), backup = trouble_and_doubt(book), last_backup(book)
    if trouble:
        yield Due("clock", trouble)
    if doubt:
        yield Due("clock ahead", doubt)
    if backup.is_due and backup_put_off(book) is None:
        yield Due("backup", backup.sentence, "", backup.at or book.now())
