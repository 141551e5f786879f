"""What only a server has: many workstations, papers in the database, backups by its keeper."""

import pytest
from sqlalchemy import text

from jobbook.core.errors import StoreUnavailable
from jobbook.db.audit import audit
from jobbook.db.store import is_book
from tests.db.building import PERSON, new_book, one_job, opened, paper, whole_job
from tests.db.conftest import needs_server

pytestmark = needs_server


def test_an_empty_database_is_no_book_and_a_begun_one_is(address, tmp_path):
    assert not is_book(address)
    with pytest.raises(StoreUnavailable, match="no book at this address"):
        opened(address, keys=tmp_path / "keys")
    with new_book(address, keys=tmp_path / "keys") as store:
        assert not is_book(address)
        one_job(store)
    assert is_book(address)
    with pytest.raises(StoreUnavailable, match="There is a book at"):
        new_book(address, keys=tmp_path / "keys")


def test_an_empty_book_on_a_server_is_begun_again(address, tmp_path):
    with new_book(address, keys=tmp_path / "keys") as first:
        identity = first.book_id, first.key_hex
    with new_book(address, seed=5, keys=tmp_path / "keys") as again:
        assert (again.book_id, again.key_hex) == identity


def test_a_newer_form_is_refused_and_an_older_one_brought_up_to_date(on_server, tmp_path):
    number = whole_job(on_server)
    with on_server._engine.begin() as connection:
        connection.execute(text("UPDATE schema SET major = 2"))
    with pytest.raises(StoreUnavailable, match="newer version"):
        opened(on_server.place, keys=tmp_path / "keys")
    with on_server._engine.begin() as connection:
        connection.execute(text("UPDATE schema SET major = 0, minor = 9"))
    with opened(on_server.place, keys=tmp_path / "keys") as again:
        assert audit(again).findings == ()
        with again.read() as reading:
            assert reading.jobs.get(number).stage == "released"


def test_papers_are_kept_in_the_database_and_every_workstation_reads_them(on_server, tmp_path):
    number = one_job(on_server)
    with on_server.write(PERSON) as tx:
        kept = paper(tx, on_server, number, b"%PDF the paper")
    with opened(on_server.place, keys=tmp_path / "elsewhere" / "keys") as other:
        with other.read() as reading:
            assert reading.papers.bytes(kept.payload["digest"]) == b"%PDF the paper"
        assert audit(other).findings == ()
        with pytest.raises(StoreUnavailable, match="no paper can leave"):
            _ = other.key


def test_the_body_is_kept_word_for_word(on_server):
    one_job(on_server)
    with on_server.read() as reading:
        bodies = [entry.body for entry in reading.journal.entries()]
        kind = reading.rows.value("SELECT data_type FROM information_schema.columns WHERE column_name = 'body'")
    assert kind == "json"
    assert all(isinstance(body, str) and body.startswith('{"act":') for body in bodies)


def test_the_server_keeps_its_own_backups(on_server, tmp_path):
    with pytest.raises(StoreUnavailable, match="The server keeps the backups"):
        on_server.backup(tmp_path / "copy.sqlite")
