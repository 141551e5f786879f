"""Files by content, in a folder and on a server: laid first, named by an entry, taken back where none named them."""

import pytest

from jobbook.core.errors import NotFound
from jobbook.core.record.journal import Draft
from jobbook.db.audit import audit
from jobbook.db.disk.papers_on_disk import digest_of
from tests.db.building import PERSON, one_job

DATA = b"a picture, byte for byte"


def named(store, number, data=DATA, **more):
    facts = {"job": number, "digest": digest_of(data), "size": len(data), "media": "image/jpeg", "what": "picture"}
    with store.write(PERSON) as tx:
        return tx.keep(Draft("file/1", f"job/{number}", facts | {"name": tx.seal("a.jpg")} | more, job=number))


def test_a_file_is_laid_once_and_read_back_byte_for_byte(either):
    assert (either.lay(DATA), either.lay(DATA)) == (True, False)
    with either.read() as reading:
        assert reading.files.bytes(digest_of(DATA)) == DATA
        assert reading.files.is_there(digest_of(DATA))
        with pytest.raises(NotFound):
            reading.files.bytes(digest_of(b"another"))


def test_what_an_entry_names_is_not_taken_back_and_what_none_names_is(either):
    number = one_job(either)
    either.lay(DATA)
    either.lay(b"another")
    entry = named(either, number).number
    for data in (DATA, b"another"):
        either.take_back(digest_of(data))
    with either.read() as reading:
        assert [reading.files.is_there(digest_of(data)) for data in (DATA, b"another")] == [True, False]
        assert reading.files.where(digest_of(DATA)) == [(entry, number)]
        (file,) = reading.files.of_job(number)
    assert (file.name, file.entry, file.job, file.to, file.is_picture) == ("a.jpg", entry, number, "", False)
    assert audit(either).sound


def test_an_older_program_that_keeps_less_of_a_file_is_read(book):
    number = one_job(book)
    book.lay(DATA)
    named(book, number, name="")
    with book.read() as reading:
        assert reading.files.of_job(number)[0].called.startswith("picture ")


def test_the_audit_says_what_is_no_digest(book):
    named(book, one_job(book), digest="../keys/book.pem")
    assert "names a file by what is no digest" in " ".join(audit(book).findings)


def test_where_a_picture_is_already_is_asked_by_an_index(book):
    with book.read() as reading:
        plan = reading.rows.all("EXPLAIN QUERY PLAN SELECT entry FROM files WHERE kind = 'file/1' AND digest = 'aa'")
    assert "journal_file" in " ".join(str(dict(row)) for row in plan)
