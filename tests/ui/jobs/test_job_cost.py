"""What opening a job costs: so many queries, whether little or much was done on it."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from sqlalchemy import event
from sqlalchemy.engine import Engine

from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import at_work, main
from tests.ui.jobs.strut_book import Strut

MOST = 47
MOST_OF_TAB = {
    "diagnosis": 17,  # heights, stands, tests, codes, causes
    "arrival": 22,  # the people, the odometer, what fits the vehicle and its figures
    "checks": 18,  # loose ends, and the geometry with its figures and its sheet
}


@contextmanager
def counted() -> Iterator[list[str]]:
    said: list[str] = []

    def note(connection, cursor, statement, *rest):
        said.append(statement)

    event.listen(Engine, "before_cursor_execute", note)
    yield said
    event.remove(Engine, "before_cursor_execute", note)


@pytest.fixture
def there(tmp_path) -> Strut:
    made = strut_book.begun(strut_book.strut(tmp_path / "book"))
    yield made
    made.book.close()


def test_opening_a_job_costs_as_many_queries_after_more_acts_as_before(there):
    presenter, seen = at_work(there)
    with counted() as before:
        presenter.refresh()
    for _ in range(3):
        presenter.open_step(0, 1)
        if seen.sheet.card.step.mark == "ring":
            presenter.choose(main(seen), {})
    presenter.open_step(0, 4)
    presenter.choose(main(seen), {"how": "menu"})
    with counted() as after:
        presenter.refresh()
    assert len(after) == len(before) <= MOST


@pytest.mark.parametrize("tab", ["arrival", "diagnosis", "permission", "parts", "checks", "papers"])
def test_opening_a_tab_costs_a_few_queries(there, tab):
    presenter, _ = at_work(there)
    with counted() as said:
        presenter.open_tab(tab)
    assert 0 < len(said) <= MOST_OF_TAB.get(tab, 12)
