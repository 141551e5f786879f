"""A thousand random bytes of a book, each altered by itself: the audit finds it, or nothing that the book says changed.

Bytes are drawn from everything that a book keeps: its file (journal, tree, head, where things stand, sealed values,
indexes and the database's own marks), its papers and its key. That a change was harmless (free space, counters of the
database) is shown by comparing every row of every table, and never taken for granted.
"""

import random
import shutil
import sqlite3
from pathlib import Path

import pytest

from jobbook.core.errors import BookError
from jobbook.db.audit import audit
from jobbook.db.disk.keys import read_key
from tests.db.building import new_book, opened, whole_job

IN_FILE, IN_FREE_SPACE, IN_PAPERS, IN_KEY = 820, 60, 80, 40


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """A closed book in one file, with an entry of every kind and two papers."""
    folder = tmp_path_factory.mktemp("whole") / "book"
    with new_book(folder) as store:
        whole_job(store)
        assert audit(store).sound
    assert sorted(part.name for part in folder.iterdir()) == ["book.sqlite", "keys", "papers", "photos"]
    return folder


def altered(original, at, chance):
    changed = bytearray(original)
    changed[at] ^= 1 << chance.randrange(8)
    return bytes(changed)


def found(folder):
    """Whether opening or auditing the book says that something is wrong."""
    try:
        with opened(folder) as store:
            return bool(audit(store).findings)
    except BookError:
        return True


def says(file):
    """Every row of every table, and the shape of the book; None where it cannot even be read."""
    connection = sqlite3.connect(file)
    connection.text_factory = bytes
    try:
        shape = connection.execute("SELECT type, name, tbl_name, sql FROM sqlite_master ORDER BY 1, 2").fetchall()
        tables = [row[1].decode() for row in shape if row[0] == b"table"]
        return shape, {table: connection.execute(f'SELECT * FROM "{table}"').fetchall() for table in tables}
    except (sqlite3.Error, UnicodeDecodeError):
        return None
    finally:
        connection.close()


def put(file, data):
    for name in ("book.sqlite-wal", "book.sqlite-shm"):
        (file.parent / name).unlink(missing_ok=True)
    file.write_bytes(data)


def copied(whole, tmp_path):
    return Path(shutil.copytree(whole, tmp_path / "book"))


@pytest.mark.parametrize("free_space", [False, True], ids=["content", "free space"])
def test_altered_bytes_of_the_file_are_found_or_change_nothing(free_space, whole, tmp_path):
    folder, chance = copied(whole, tmp_path), random.Random(1 + free_space)
    file = folder / "book.sqlite"
    original = file.read_bytes()
    before = says(file)
    places = [at for at, byte in enumerate(original) if (byte == 0) == free_space]
    missed, harmless = [], 0
    for at in chance.sample(places, IN_FREE_SPACE if free_space else IN_FILE):
        put(file, altered(original, at, chance))
        if not found(folder):
            same = says(file) == before
            harmless += same
            missed += [] if same else [at]
    assert missed == []
    # Nearly every noughted byte is in free space, where an alteration changes nothing that the book says.
    assert free_space or harmless < 10


def test_altered_bytes_of_papers_are_found(whole, tmp_path):
    folder, chance = copied(whole, tmp_path), random.Random(3)
    papers = sorted((folder / "papers").glob("*.pdf"))
    assert len(papers) == 2
    for _ in range(IN_PAPERS):
        paper = chance.choice(papers)
        original = paper.read_bytes()
        paper.write_bytes(altered(original, chance.randrange(len(original)), chance))
        assert found(folder)
        paper.write_bytes(original)
    assert not found(folder)


def test_altered_bytes_of_the_key_are_found_or_leave_the_same_key(whole, tmp_path):
    folder, chance = copied(whole, tmp_path), random.Random(4)
    file = folder / "keys" / "book.pem"
    original, before = file.read_bytes(), read_key(folder / "keys").hex
    for at in chance.sample(range(len(original)), IN_KEY):
        file.write_bytes(altered(original, at, chance))
        assert found(folder) or read_key(folder / "keys").hex == before
    file.write_bytes(original)
