"""Who called and has not come yet: found by name, number, plate and words, and listed where their job will stand."""

from jobbook.core.desk.calls import Call
from jobbook.core.jobs import EXPECTED, JobRow
from jobbook.core.record.pages import Page
from jobbook.db.search import number_words, spellings, typed_words
from jobbook.db.store import Book
from jobbook.services.opened import OpenBook

MOST_CALLS = 200  # a shop of this trade has a dozen


def expected(book: OpenBook, text: str = "") -> Page[JobRow]:
    """The calls that nothing came of yet, as they stand among the jobs: the one that is expected first, first."""
    with book.store.read() as reading:
        return Page(tuple(_as_job(call) for call in open_calls(reading, text)), None)


def open_calls(reading: Book, text: str = "") -> list[Call]:
    """Open calls that have every word of the text, as the beginning of one of theirs. There are so few that each is
    looked at: what was erased is found by nothing."""
    typed = typed_words(text)
    return [call for call in reading.calls.open(MOST_CALLS) if begins(_words_of(call), typed)]


def begins(words: set[str], typed: list[tuple[str, ...]]) -> bool:
    """Whether each typed word, in one of its spellings, begins one of these."""
    return all(any(word.startswith(way) for word in words for way in ways) for ways in typed)


def _words_of(call: Call) -> set[str]:
    told = " ".join(filter(None, (call.caller, call.vehicle, call.words, call.warning)))
    return spellings(told) | number_words(call.plate) | number_words(call.phone or "")


def _as_job(call: Call) -> JobRow:
    """The row of a job that is yet to come; its number is that of the call."""
    return JobRow(
        number=call.number,
        stage=EXPECTED,
        opened_at=call.taken_at,
        vehicle_id=0,
        vehicle=call.vehicle,
        plate=call.plate,
        vin="",
        customer=call.caller,
        concern=call.words,
        promised=call.expected,
    )
