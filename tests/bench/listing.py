"""Pages of the jobs list, beside the same statement by plain sqlite3."""

import sqlite3

from jobbook.db.jobs import NEWEST_FIRST, ROW
from jobbook.services.jobs import jobs
from jobbook.services.opened import OpenBook
from tests.bench.timing import Measured, Sizes, by_turns

PAGE = 100


def listing(book: OpenBook, sizes: Sizes) -> tuple[Measured, ...]:
    """The first page, one from the middle of the list, one stage alone, and pages found by what was typed."""
    middle = jobs(book, limit=sizes.jobs // 2).next
    many = f"of 100 at {sizes.jobs:,} jobs".replace(",", " ")
    plain = plain_page(book)
    beside = "the list's statement by plain sqlite3"
    asked = {
        f"jobs page {many}, the first": {},
        f"jobs page {many}, from the middle": {"after": middle},
        f"jobs page {many}, those in work": {"stage": "arrived"},
        f"jobs page {many}, found by a name typed": {"text": "brandv"},
        f"jobs page {many}, found by the end of a VIN": {"text": f"{sizes.jobs // 2 // 5 * 5:08}"},
    }
    for what, narrowed in asked.items():
        if not jobs(book, **narrowed).rows:
            raise LookupError(f"{what}: the list is empty, so there is nothing to measure")
    return tuple(
        Measured(what, *by_turns(lambda n=narrowed: jobs(book, **n), plain, sizes.times), beside)
        for what, narrowed in asked.items()
    )


def plain_page(book: OpenBook):
    """The first page's rows by plain sqlite3, as tuples."""
    connection = sqlite3.connect(book.store.file)
    statement = f"{ROW} {NEWEST_FIRST} LIMIT {PAGE}"
    return lambda: connection.execute(statement).fetchall()
