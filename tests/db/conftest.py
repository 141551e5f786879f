"""Where the books of tests lie: in a folder always, and on a PostgreSQL server where the environment names one."""

import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import pytest
from sqlalchemy import create_engine

from jobbook.db.store import Store
from tests.db.building import new_book

SERVER = os.environ.get("JOBBOOK_TEST_POSTGRES", "")
needs_server = pytest.mark.skipif(not SERVER, reason="no server: JOBBOOK_TEST_POSTGRES names none")
ON_BOTH = ("folder", pytest.param("server", marks=needs_server))


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Store]:
    """An empty book in a folder."""
    with new_book(tmp_path / "book") as store:
        yield store


@contextmanager
def empty_database(word: str) -> Iterator[str]:
    """The address of an empty database on the server, which is gone afterwards."""
    name = "book_" + "".join(sign for sign in word.lower() if sign.isalnum())[-40:] + f"_{os.getpid()}"
    engine = create_engine(SERVER, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.exec_driver_sql(f'DROP DATABASE IF EXISTS "{name}"')
        connection.exec_driver_sql(f'CREATE DATABASE "{name}"')
    yield engine.url.set(database=name).render_as_string(hide_password=False)
    with engine.connect() as connection:
        connection.exec_driver_sql(f'DROP DATABASE "{name}" WITH (FORCE)')
    engine.dispose()


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    with empty_database(tmp_path.name) as place:
        yield place


@pytest.fixture
def on_server(address: str, tmp_path: Path) -> Iterator[Store]:
    """An empty book on the server."""
    with new_book(address, keys=tmp_path / "keys") as store:
        yield store


@pytest.fixture(params=ON_BOTH)
def either(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """An empty book, in a folder and on a server."""
    place = tmp_path / "book" if request.param == "folder" else request.getfixturevalue("address")
    with new_book(place, keys=tmp_path / "keys") as store:
        yield store


@pytest.fixture(scope="module", params=ON_BOTH)
def shared(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A book that the tests of one file fill once and then only read, in a folder and on a server."""
    folder = tmp_path_factory.mktemp("shared")
    with ExitStack() as stack:
        on_server = request.param == "server"
        place = stack.enter_context(empty_database(folder.parent.name + folder.name)) if on_server else folder / "book"
        yield stack.enter_context(new_book(place, keys=folder / "keys"))
