"""What stops an accident: the journal takes the next entry and no other, whatever statement tries."""

import sqlite3

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from tests.db.building import PERSON, one_job, sign_off
from tests.db.conftest import needs_server

COLUMNS = "number, kind, job, done_at, replaces, body, leaf"
ON_SQLITE = {
    "an entry put over another": "INSERT OR REPLACE INTO journal SELECT * FROM journal WHERE number = 3",
    "an entry that takes the row of an earlier correction": (
        'INSERT OR REPLACE INTO journal SELECT 9, kind, job, done_at, replaces, \'{"act":"x"}\', leaf '
        "FROM journal WHERE number = 8"
    ),
    "an entry that takes the row of an earlier act": (
        "INSERT OR REPLACE INTO journal SELECT 9, kind, job, done_at, NULL, body, leaf FROM journal WHERE number = 3"
    ),
    "an entry with no number": (
        "INSERT INTO journal (kind, done_at, body, leaf) VALUES ('note/1', '', '{\"act\":\"x\"}', x'00')"
    ),
    "a block put over another": "INSERT OR REPLACE INTO tree VALUES (1, 0, x'00')",
    "a sealed value put over another": "INSERT OR REPLACE INTO sealed SELECT commitment, 'a', 'b' FROM sealed",
}
ON_BOTH = {
    "an entry changed": "UPDATE journal SET kind = 'note/1' WHERE number = 3",
    "an entry taken away": "DELETE FROM journal WHERE number = 6",
    "the last entry taken away": "DELETE FROM journal WHERE number = (SELECT MAX(number) FROM journal)",
    "an entry out of order": (
        f'INSERT INTO journal ({COLUMNS}) SELECT 11, kind, job, done_at, NULL, \'{{"act":"x"}}\', leaf '
        "FROM journal WHERE number = 3"
    ),
    "an entry again": f"INSERT INTO journal ({COLUMNS}) SELECT {COLUMNS} FROM journal WHERE number = 3",
    "a block changed": "UPDATE tree SET number = 7",
    "a block taken away": "DELETE FROM tree",
    "a sealed value changed": "UPDATE sealed SET value = 'another'",
    "a commitment changed": "UPDATE sealed SET commitment = 'another'",
    "a sealed value taken away": "DELETE FROM sealed",
    "the head taken away": "DELETE FROM head",
}
ON_SERVER = {f"{table} emptied": f"TRUNCATE {table} CASCADE" for table in ("journal", "tree", "sealed", "head")}


def filled(store):
    one_job(store)
    with store.write(PERSON) as tx:
        wrong = sign_off(tx)
        sign_off(tx, replaces=wrong.number, reason="the other bolt")
        for row in ((1, 0, bytes(32)),):  # a finished block, without keeping 256 entries for it
            sql = "INSERT INTO tree (level, number, hash) VALUES (:level, :number, :hash)"
            tx.rows.run(sql, **dict(zip(("level", "number", "hash"), row, strict=True)))


def everything(store):
    with store.read() as reading:
        tables = ("journal", "tree", "sealed", "head")
        return [tuple(map(tuple, reading.rows.all(f"SELECT * FROM {table} ORDER BY 1, 2"))) for table in tables]


@pytest.mark.parametrize("what", ON_BOTH)
def test_refused_by_both_databases(what, either):
    filled(either)
    before = everything(either)
    with pytest.raises(DBAPIError), either._engine.begin() as connection:
        connection.execute(text(ON_BOTH[what].replace(":", r"\:")))
    assert everything(either) == before


@pytest.mark.parametrize("what", ON_SQLITE)
def test_refused_by_sqlite_also_where_replace_asks_no_delete_trigger(what, book):
    filled(book)
    before = everything(book)
    connection = sqlite3.connect(book.file)
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(ON_SQLITE[what])
    connection.close()
    assert everything(book) == before


@pytest.mark.parametrize("what", ON_SERVER)
@needs_server
def test_refused_by_the_server(what, on_server):
    filled(on_server)
    before = everything(on_server)
    with pytest.raises(DBAPIError), on_server._engine.begin() as connection:
        connection.execute(text(ON_SERVER[what]))
    assert everything(on_server) == before


def test_a_sealed_value_may_be_erased(either):
    filled(either)
    with either._engine.begin() as connection:
        connection.execute(text("UPDATE sealed SET salt = NULL, value = NULL"))
    with either.read() as reading:
        assert reading.rows.value("SELECT COUNT(*) FROM sealed WHERE value IS NOT NULL") == 0
