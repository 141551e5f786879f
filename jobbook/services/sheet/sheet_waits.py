"""What a vehicle in the shop waits for, in the words of its job's left page: its stand, and what comes from outside."""

from collections.abc import Iterator
from datetime import datetime

from jobbook.core.desk.waits import held_words
from jobbook.core.measured.stands import Stand
from jobbook.db.store import Book
from jobbook.services.measured.stand_records import state_words
from jobbook.services.sheet.sheets import StateWord


def waiting_words(reading: Book, job: int, stand: Stand | None, now: datetime) -> Iterator[StateWord]:
    """“waits for a part, on the lift”; what exactly stands under Final checks, and on Today."""
    yield from state_words(stand, now)
    for one in reading.reminders.of_job(job):
        if one.waits_for and not one.outcome:
            yield StateWord(f"waits for {held_words(one.waits_for, '', one.stands)}", True)
