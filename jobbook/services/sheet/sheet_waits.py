"""What a vehicle in the shop waits for, in the words of its job's left page."""

from collections.abc import Iterator

from jobbook.core.desk.waits import held_words
from jobbook.db.store import Book
from jobbook.services.sheet.sheets import StateWord


def waiting_words(reading: Book, job: int) -> Iterator[StateWord]:
    """“waits for a part, on the lift”; what exactly stands under Final checks, and on Today."""
    for one in reading.reminders.of_job(job):
        if one.waits_for and not one.outcome:
            yield StateWord(f"waits for {held_words(one.waits_for, '', one.stands)}", True)
