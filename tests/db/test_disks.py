"""Disks that cannot be used: on the network, full, held by another program, read-only. One sentence each."""

import os
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from jobbook.core.errors import StoreUnavailable
from jobbook.db.audit import audit
from tests.db.building import PERSON, new_book, one_job, opened, sign_off
from tests.db.saying import contents, one_sentence

ROOT = Path(__file__).parents[2]


def mounted(*lines):
    return lambda: "".join(f"{line}\n" for line in lines)


def test_a_network_disk_is_refused_with_what_to_do_instead(tmp_path):
    mounts = mounted("proc /proc proc rw 0 0", "/dev/a / ext4 rw 0 0", f"server:/shop {tmp_path} nfs4 rw 0 0", "short")
    with pytest.raises(StoreUnavailable) as refusal:
        new_book(tmp_path / "book", mounts=mounts)
    assert "postgresql+psycopg://" in one_sentence(refusal)
    assert not (tmp_path / "book" / "book.sqlite").exists()
    new_book(tmp_path / "book", mounts=mounted("/dev/a / ext4 rw 0 0")).close()
    with pytest.raises(StoreUnavailable, match="network disk"):
        opened(tmp_path / "book", mounts=mounts)


def test_a_disk_of_this_machine_inside_a_network_disk_is_no_network_disk(tmp_path):
    inner = str(tmp_path).replace(" ", "\\040")
    mounts = mounted("server:/ / nfs rw 0 0", f"/dev/b {inner} ext4 rw 0 0")
    with new_book(tmp_path / "book", mounts=mounts) as store:
        assert one_job(store) == 1


def test_a_full_disk_keeps_nothing_of_the_write_and_all_that_was_before(book):
    one_job(book)
    with book.read() as reading:
        before = reading.journal.head()
    connection = sqlite3.connect(book.file)
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.close()
    for raw in _connections(book):
        raw.execute(f"PRAGMA max_page_count = {pages}")

    def fill():
        with book.write(PERSON) as tx:
            for number in range(3000):
                sign_off(tx, joint=f"bolt {number}@FL")

    with pytest.raises(StoreUnavailable) as refusal:
        fill()
    assert "The disk of the book" in one_sentence(refusal)
    with book.read() as reading:
        assert reading.journal.head() == before
    assert audit(book).findings == ()


def _connections(store):
    """The raw connection that the pool will hand out next."""
    with store._engine.connect() as connection:
        yield connection.connection.dbapi_connection


@pytest.mark.parametrize("patience", [50, 250])
def test_a_book_that_another_program_holds(book, patience):
    one_job(book)
    for raw in _connections(book):
        raw.execute(f"PRAGMA busy_timeout = {patience}")
    other = sqlite3.connect(book.file, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreUnavailable) as refusal, book.write(PERSON):
        pass
    assert "Another program holds the book" in one_sentence(refusal)
    other.execute("ROLLBACK")
    other.close()
    for raw in _connections(book):
        assert raw.execute("PRAGMA busy_timeout").fetchone() == (patience,)
    with book.write(PERSON) as tx:
        sign_off(tx)


needs_root = pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() != 0 or shutil.which("setpriv") is None,
    reason="needs to be root with setpriv, to become somebody who may not write",
)

AS_NOBODY = """
import sys
sys.path.insert(0, {root!r})
from jobbook.core.errors import StoreUnavailable
from tests.db.building import opened
try:
    opened({folder!r})
except StoreUnavailable as error:
    print(error)
"""


@needs_root
def test_a_read_only_book_is_said_to_be_read_only(tmp_path):
    with new_book(tmp_path / "book") as store:
        one_job(store)
    for part in (tmp_path, *tmp_path.parents):
        if str(part).startswith("/tmp/"):
            part.chmod(0o755)
    before = contents(tmp_path / "book")
    program = AS_NOBODY.format(root=str(ROOT), folder=str(tmp_path / "book"))
    command = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--inh-caps=-all", sys.executable]
    done = subprocess.run([*command, "-c", program], capture_output=True, text=True, cwd="/", timeout=60)
    if "Permission denied" in done.stderr:
        pytest.skip("nobody may not even run this Python")
    assert done.stderr == ""
    assert "is read-only: nothing was changed" in done.stdout
    assert contents(tmp_path / "book") == before


def test_a_book_whose_disk_turned_read_only_says_so(book):
    one_job(book)
    for raw in _connections(book):
        raw.execute("PRAGMA query_only = ON")

    def write():
        with book.write(PERSON) as tx:
            sign_off(tx)

    with pytest.raises(StoreUnavailable) as refusal:
        write()
    assert "is read-only" in one_sentence(refusal)
