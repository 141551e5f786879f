"""A job that is played once and copied, since every entry is synced to the disk."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.services.workshop import Played, Workshop


@pytest.fixture(scope="session")
def played(tmp_path_factory: pytest.TempPathFactory) -> Played:
    return Played(tmp_path_factory.mktemp("played"))


@pytest.fixture
def at(played: Played, tmp_path: Path) -> Iterator[Callable[[str], Workshop]]:
    """The workshop with its job played to a place, in a book of the test's own."""
    opened: list[Workshop] = []

    def go_to(place: str) -> Workshop:
        opened.append(played.at(place, tmp_path))
        return opened[-1]

    yield go_to
    for one in opened:
        one.close()
