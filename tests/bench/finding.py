"""The find line and the lists on a very large book, beside bare SQL for the rows alone."""

import sqlite3
from collections.abc import Callable

from jobbook.services.jobs import jobs
from jobbook.services.office.finding import find
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.customers import customers
from jobbook.services.vehicle.vehicles import vehicles
from tests.bench.many_jobs import VISITS
from tests.bench.million import vin_of
from tests.bench.timing import Measured, Sizes, by_turns

LAST = "\U0010ffff"
PLAIN = "SELECT number, stage, opened_at, vehicle FROM job"
NEWEST = "ORDER BY opened_at DESC, number DESC LIMIT"
BY_WORD = f"""{PLAIN} WHERE number IN (
    SELECT subject FROM found WHERE kind = 'job' AND token >= :word AND token < :last
    UNION SELECT number FROM job WHERE vehicle IN
        (SELECT subject FROM found WHERE kind = 'vehicle' AND token >= :word AND token < :last)
    UNION SELECT number FROM job WHERE customer IN
        (SELECT subject FROM found WHERE kind = 'customer' AND token >= :word AND token < :last)) {NEWEST} 6"""


def finding(book: OpenBook, sizes: Sizes) -> tuple[Measured, ...]:
    """The whole answer to what is typed, all groups of it; then pages of the lists."""
    many = f"at {sizes.many:,} jobs".replace(",", " ")
    car = sizes.many // VISITS // 2 + 2
    raw = sqlite3.connect(book.store.file)
    typed = {
        "the last six of a VIN": vin_of(car)[-6:],
        "a plate without dashes": f"kx{car:06}",
        "a word of one customer": f"k{car:07}",
        "the number of a job": str(sizes.many // 2 + 1),
        "a serial that nobody has": "zz99-zz",
    }
    rare = [
        _measured(f"found {many}: {what}", lambda t=text: find(book, t), _by_word(raw, text), sizes, "zz" not in text)
        for what, text in typed.items()
    ]
    common = {"a make that all have": "varnholt", "a name and two words": "brandvold front left"}
    newest = _rows(raw, f"{PLAIN} {NEWEST} 6")
    often = [
        _measured(f"found {many}: {what}", lambda t=text: find(book, t), newest, sizes) for what, text in common.items()
    ]
    return (*rare, *often, *_pages(book, raw, many, sizes))


def _pages(book: OpenBook, raw: sqlite3.Connection, many: str, sizes: Sizes) -> list[Measured]:
    middle = raw.execute("SELECT opened_at, number FROM job WHERE number = ?", (sizes.many // 2,)).fetchone()
    page = _rows(raw, f"{PLAIN} {NEWEST} 100")
    asked: dict[str, tuple[Callable[[], object], Callable[[], object]]] = {
        "the first page of jobs": (lambda: jobs(book).rows, page),
        "a page from the middle": (lambda: jobs(book, after=middle).rows, page),
        "a page of those in work": (lambda: jobs(book, stage="in work").rows, page),
        "a page of vehicles": (
            lambda: vehicles(book).rows,
            _rows(raw, "SELECT id, vin, plate, make, model FROM vehicle ORDER BY id DESC LIMIT 100"),
        ),
        "a page of customers": (
            lambda: customers(book),
            _rows(raw, "SELECT id, name, phone FROM customer ORDER BY id DESC LIMIT 100"),
        ),
    }
    return [_measured(f"{what} {many}", ours, bare, sizes) for what, (ours, bare) in asked.items()]


def _by_word(raw: sqlite3.Connection, word: str) -> Callable[[], object]:
    return lambda: raw.execute(BY_WORD, {"word": word, "last": word + LAST}).fetchall()


def _rows(raw: sqlite3.Connection, sql: str) -> Callable[[], object]:
    return lambda: raw.execute(sql).fetchall()


def _measured(
    what: str, ours: Callable[[], object], bare: Callable[[], object], sizes: Sizes, there: bool = True
) -> Measured:
    if bool(ours()) != there:
        raise LookupError(f"{what}: the answer is not what it has to be, so there is nothing to measure")
    return Measured(what, *by_turns(ours, bare, sizes.times), "bare SQL for the rows alone")
