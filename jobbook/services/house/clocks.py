"""The computer's clock beside the book: what is wrong with it, and the word of somebody who looked."""

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.clocks import SET_BACK, gone_back, leapt
from jobbook.core.record.journal import Draft
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook, last_kept


def clock_trouble(book: OpenBook) -> str:
    """Why nothing can be kept with this clock; "" where it goes on from the last entry."""
    return trouble_and_doubt(book)[0]


def trouble_and_doubt(book: OpenBook) -> tuple[str, str]:
    """Why nothing can be kept with this clock, and what is to be looked at before anything is, since nothing was kept
    for very long; each "" where there is none. In one reading."""
    last, _number = last_kept(book)
    return gone_back(last, book.clock()), leapt(last, book.clock())


def confirm_clock(book: OpenBook, who: Person, reason: str) -> None:
    """Keep that the clock is right although the last entry was made later: from then on the book goes on with it."""
    if not reason.strip():
        raise Refused(
            "Nothing was kept: say why the last entry was made later than now, and what the clock was set by."
        )
    last, number = last_kept(book)
    with writing(book, who, "people") as tx:
        facts = {"last": last, "entry": number, "now": book.now()}
        tx.keep(Draft(SET_BACK, "book", facts, reason=reason.strip()))
