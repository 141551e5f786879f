"""Today in a long book, beside a page of the jobs list by plain sqlite3: it must not grow with the book."""

from jobbook.services.office.today import MOST, today
from jobbook.services.opened import OpenBook
from tests.bench.listing import plain_page
from tests.bench.timing import Measured, Sizes, by_turns
from tests.db.building import PERSON, sign_off


def due(book: OpenBook, sizes: Sizes) -> tuple[Measured, ...]:
    """What is due, with as many vehicles in the shop as are ever shown, far more than a shop of this trade has."""
    with book.store.write(PERSON) as tx:
        sign_off(tx)  # the filling entries of the long book have no time
    many = f"{sizes.jobs:,}".replace(",", " ")
    if len(today(book).last) != min(MOST, -(-sizes.jobs // 9)):
        raise LookupError("today: there are not as many vehicles in the shop as were to be measured")
    what = f"today at {many} jobs, {MOST} vehicles in the shop"
    beside = "a page of the jobs list by plain sqlite3"
    return (Measured(what, *by_turns(lambda: today(book), plain_page(book), sizes.times), beside),)
