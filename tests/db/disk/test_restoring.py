"""Restoring: a sound copy in a new folder that begins another epoch, or nothing at all."""

import random
import shutil
import sqlite3
import zipfile
from contextlib import closing
from datetime import timedelta

import pytest

from jobbook.core.errors import Altered, NotFound, Refused, StoreUnavailable, Unreadable
from jobbook.core.record.backups import BOOK
from jobbook.core.record.epochs import LEAST_MARGIN, Restoration, lost_after, margin, skipped
from jobbook.core.record.heads import Head
from jobbook.core.record.journal import Draft
from jobbook.db.audit import audit
from jobbook.db.disk.backing_up import write_backup
from jobbook.db.disk.left_behind import Known, left_of
from jobbook.db.disk.restoring import restore
from tests.db.building import (
    MORNING,
    PERSON,
    Ticking,
    chance,
    customer,
    job,
    one_job,
    opened,
    paper,
    vehicle,
    whole_job,
)
from tests.db.saying import contents, one_sentence

AT = MORNING.isoformat()
LATER = MORNING + timedelta(hours=2)
NOTHING = Known()


@pytest.fixture
def stick(tmp_path):
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick"


def backed_up(store, stick, name="a.zip", **more):
    return write_backup(store, stick / name, AT, **more)


def restored_to(file, folder, known=NOTHING, seed=7, **more):
    return restore(file, folder, lambda _manifest: known, clock=Ticking(LATER), random=chance(seed), **more)


def test_what_was_backed_up_stands_again_and_is_sound(book, stick, tmp_path):
    whole_job(book)
    written = backed_up(book, stick, with_key=True)
    restored = restored_to(written.file, tmp_path / "again")
    assert restored.report.findings == ()
    assert restored.report.head == written.manifest.head
    with opened(tmp_path / "again") as again, again.read() as reading, book.read() as before:
        head = written.manifest.head
        assert reading.journal.head_at(head.size) == Head(head.size, head.root)
        assert [p.digest for p in reading.papers.of_job(1)] == [p.digest for p in before.papers.of_job(1)]
        assert reading.papers.bytes(reading.papers.of_job(1)[0].digest) == b"%PDF-1.4 the first paper\n" * 8
        report = audit(again)
    assert (report.findings, report.epoch) == ((), 3)
    assert sorted(one.name for one in tmp_path.iterdir()) == ["again", "book", "stick"]


def test_restoring_begins_another_epoch_and_says_what_it_went_on_from(book, stick, tmp_path):
    one_job(book)
    head = backed_up(book, stick).manifest.head
    restored = restored_to(stick / "a.zip", tmp_path / "again", Known(last_entry=head.size + 40))
    assert restored.restoration == Restoration(head.size + 1, 2, head.size, head.hex, AT, head.size + 40)
    with opened(tmp_path / "again") as again, again.read() as reading:
        assert reading.restorations() == (restored.restoration,)


def test_numbers_that_may_have_been_given_in_the_lost_part_are_not_given_again(book, stick, tmp_path):
    one_job(book)
    backed_up(book, stick)
    restored = restored_to(stick / "a.zip", tmp_path / "again")
    assert {one.what: one.next for one in restored.skipped} == {"job": 201, "vehicle": 201, "customer": 201}
    with opened(tmp_path / "again") as again:
        with again.write(PERSON) as tx:
            owner = customer(tx, "Somebody New")
            its = vehicle(tx, owner, vin="XX0VRNHLT00999999")
            assert (owner, its, job(tx, its, owner)) == (201, 201, 201)
        with again.write(PERSON) as tx:
            assert tx.next_job_number() == 202
        assert audit(again, with_key=False).findings == ()


def test_papers_of_a_job_from_before_go_on_ten_versions_higher(book, stick, tmp_path):
    whole_job(book)
    backed_up(book, stick, with_key=True)
    restored_to(stick / "a.zip", tmp_path / "again")
    with opened(tmp_path / "again") as again:
        with again.read() as reading:
            assert reading.papers.next_version(1, "handover") == 12
        with again.write(PERSON) as tx:
            paper(tx, again, 1, b"%PDF another")
        with again.read() as reading:
            assert reading.papers.next_version(1, "handover") == 2  # this builder's papers are all version 1


def test_a_restored_book_is_backed_up_and_restored_again(book, stick, tmp_path):
    one_job(book)
    backed_up(book, stick)
    restored_to(stick / "a.zip", tmp_path / "again")
    with opened(tmp_path / "again") as again:
        backed_up(again, stick, "b.zip")
    restored = restored_to(stick / "b.zip", tmp_path / "third", seed=8)
    assert restored.restoration.epoch == 3
    # Job 201 may have been given after the second backup: what was left out before is counted as given.
    assert {one.what: one.next for one in restored.skipped}["job"] == 301


def test_what_was_erased_since_is_erased_again(book, stick, tmp_path):
    """Nasty case 85: somebody who was forgotten must not come back with an old backup."""
    one_job(book)
    backed_up(book, stick)
    with book.write(PERSON) as tx:
        name = next(e.payload["name"] for e in tx.journal.entries(kind="customer/1"))
        tx.keep(Draft("erased/1", "customer/1", {"commitments": [name], "reason": "asked for"}))
    known = left_of(book.folder, book.book_id)
    restored = restored_to(stick / "a.zip", tmp_path / "again", known)
    assert restored.erased == 1
    with opened(tmp_path / "again") as again:
        with again.read() as reading:
            assert reading.customers.get(1).name is None
        assert audit(again, with_key=False).findings == ()
    files = [file.read_bytes() for file in (tmp_path / "again").glob("book*")]
    assert files
    assert not any(b"Brandvold" in data for data in files)


def test_what_is_left_of_the_old_folder_tells_the_last_entry_and_what_was_erased(book):
    one_job(book)
    with book.read() as reading:
        size = reading.journal.head().size
    assert left_of(book.folder, book.book_id) == Known(size)
    with pytest.raises(Refused, match="holds another book"):
        left_of(book.folder, "some other book")


def test_an_old_folder_that_cannot_be_read_tells_nothing(tmp_path):
    assert left_of(tmp_path, "b") is None
    (tmp_path / "book.sqlite").write_bytes(b"what is left after a fire")
    assert left_of(tmp_path, "b") is None


def test_a_backup_without_the_key_brings_a_book_that_no_paper_can_leave(book, stick, tmp_path):
    one_job(book)
    backed_up(book, stick)
    restored_to(stick / "a.zip", tmp_path / "again")
    with opened(tmp_path / "again") as again:
        with pytest.raises(StoreUnavailable, match="no paper can leave it"):
            again.key.sign(b"")
        assert audit(again, with_key=False).findings == ()
    shutil.copytree(book.folder / "keys", tmp_path / "again" / "keys", dirs_exist_ok=True)
    with opened(tmp_path / "again") as again:
        assert again.key.hex == book.key_hex


def refused(file, folder, kind):
    before = sorted(folder.parent.iterdir())
    with pytest.raises(kind) as refusal:
        restored_to(file, folder)
    assert sorted(folder.parent.iterdir()) == before
    return one_sentence(refusal)


def test_every_altered_byte_is_found_and_nothing_is_restored(book, stick, tmp_path):
    whole_job(book)
    whole = backed_up(book, stick).file.read_bytes()
    file = stick / "b.zip"
    for place in random.Random(3).sample(range(len(whole)), 60):
        file.write_bytes(whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :])
        refused(file, tmp_path / "again", (Altered, Unreadable))


@pytest.mark.parametrize("share", [0, 0.3, 0.999])
def test_a_backup_that_was_cut_off_is_unreadable(book, stick, tmp_path, share):
    one_job(book)
    whole = backed_up(book, stick).file.read_bytes()
    (stick / "b.zip").write_bytes(whole[: int(len(whole) * share)])
    assert "no backup of a job book, or its end is missing" in refused(stick / "b.zip", tmp_path / "x", Unreadable)


def test_a_file_that_is_something_else_is_unreadable(tmp_path, stick):
    (stick / "letter.txt").write_text("Dear customer,")
    refused(stick / "letter.txt", tmp_path / "x", Unreadable)
    refused(stick / "none.zip", tmp_path / "x", Unreadable)
    with zipfile.ZipFile(stick / "c.zip", "w") as archive:
        archive.writestr("hello.txt", "hello")
    assert "altered or damaged" in refused(stick / "c.zip", tmp_path / "x", Altered)


def test_a_book_that_was_exchanged_inside_a_backup_that_was_sealed_anew_is_found(book, stick, tmp_path):
    """Somebody who seals the archive anew cannot sign its manifest; where no signature is asked, the audit finds it."""
    whole_job(book)
    with closing(sqlite3.connect(book.folder / "book.sqlite")) as connection:
        connection.execute("UPDATE job SET stage = 'arrived'")
        connection.commit()
    written = backed_up(book, stick)
    assert "the audit of the copy found" in refused(written.file, tmp_path / "again", Altered)


def test_a_folder_that_is_there_is_never_written_over(book, stick, tmp_path):
    one_job(book)
    backed_up(book, stick)
    before = contents(book.folder)
    refused(stick / "a.zip", book.folder, Refused)
    assert contents(book.folder) == before
    (tmp_path / "empty").mkdir()
    restored_to(stick / "a.zip", tmp_path / "empty")
    assert (tmp_path / "empty" / BOOK).is_file()


def test_how_far_it_is_grows_to_the_end_and_a_wish_to_stop_leaves_nothing(book, stick, tmp_path):
    one_job(book)
    (book.folder / "photos" / "aa.jpg").write_bytes(bytes(3 << 20))
    backed_up(book, stick)
    told = []
    restored_to(stick / "a.zip", tmp_path / "again", progress=lambda done, total: told.append(done / total))
    assert told == sorted(told)
    assert told[0] < 0.5 < 0.9 < told[-1] <= 1
    for looks in (1, 3, 5):
        wishes = iter([False] * looks + [True] * 100)
        with pytest.raises(Refused, match="was stopped: nothing of"):
            restored_to(stick / "a.zip", tmp_path / "third", seed=9, stop=wishes.__next__)
        assert sorted(one.name for one in tmp_path.iterdir()) == ["again", "book", "stick"]


def test_a_person_who_is_named_must_be_in_the_book(book, stick, tmp_path):
    one_job(book)
    backed_up(book, stick)
    with pytest.raises(NotFound):
        restored_to(stick / "a.zip", tmp_path / "again", person="zz")
    assert not (tmp_path / "again").exists()
    restored_to(stick / "a.zip", tmp_path / "again", person=PERSON)
    with opened(tmp_path / "again") as again, again.read() as reading:
        assert reading.journal.entries(kind="restored/1")[0].entered_by == PERSON


def test_the_margin_is_never_smaller_than_what_was_lost():
    assert margin(1000, 0, 0) == LEAST_MARGIN
    assert margin(1000, 1500, 0) == 500
    assert margin(1000, 0, 300) == 600
    assert (skipped("job", 2041, 100).first, skipped("job", 2041, 100).next) == (2042, 2201)


def test_a_paper_is_of_the_lost_part_only_where_its_entry_comes_after_what_the_backup_held():
    one = Restoration(101, 2, 100, "ab", AT)
    assert lost_after([one], 99, True) == ()
    assert lost_after([one], 100, True) == (one,)  # its own entry is the one after its head
    assert lost_after([one], 100, False) == ()
    assert lost_after([one], 140, False) == (one,)


def test_a_folder_in_no_folder_is_refused(book, stick, tmp_path):
    one_job(book)
    backed_up(book, stick)
    with pytest.raises(StoreUnavailable, match="Make it first"):
        restored_to(stick / "a.zip", tmp_path / "none" / "again")
