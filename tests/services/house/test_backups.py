"""Backups and restoring as a person meets them: who may, what is noted, what is told, and papers of a lost part."""

import shutil
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from jobbook.core.errors import Refused
from jobbook.services import files, papers
from jobbook.services.house import backups, restoring
from jobbook.services.house.shop import shop
from jobbook.services.house.verifying import audit_book, verify_file
from jobbook.services.office.intake import take_in
from jobbook.services.opened import open_book
from tests.services.pictures_at_hand import picture
from tests.services.workshop import ARRIVAL

ANOTHER = replace(ARRIVAL, vehicle=replace(ARRIVAL.vehicle, vin="", plate="NEW 1"))
NONE = restoring.Witnesses()


@pytest.fixture
def there(at):
    return at("taken in")


@pytest.fixture
def stick(tmp_path):
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick"


def restore(there, file, folder, witnesses=NONE, **more):
    return restoring.restore(file, folder, witnesses, clock=there.clock, **more)


def test_a_backup_is_noted_with_who_made_it_and_where_it_lies(there, stick):
    written = backups.back_up(there.book, there.jonas, stick)
    with there.book.store.read() as reading:
        entry = reading.last_backup()
    assert (entry.kind, entry.entered_by) == ("backed-up/1", there.jonas.id)
    assert (entry.payload["file"], entry.payload["place"]) == (written.file.name, str(stick))
    assert entry.payload["digest"] == written.digest
    assert written.file.parent == stick


def test_only_the_desk_backs_up_and_only_who_keeps_people_takes_the_key(there, stick):
    with pytest.raises(Refused, match="no permission"):
        backups.back_up(there.book, there.bram, stick)
    with pytest.raises(Refused, match="no permission"):
        backups.back_up(there.book, there.jonas, stick, with_key=True)
    assert list(stick.iterdir()) == []
    assert backups.back_up(there.book, there.imke, stick, with_key=True).manifest.with_key


def test_a_backup_grows_old_only_while_something_is_kept(there, stick):
    assert backups.last_backup(there.book).sentence.startswith("No backup was made yet")
    assert not backups.last_backup(there.book).is_due
    there.clock.on(timedelta(days=7))
    assert backups.last_backup(there.book).is_due
    backups.back_up(there.book, there.jonas, stick)
    there.clock.on(timedelta(days=30))
    last = backups.last_backup(there.book)
    assert (last.is_due, last.since) == (False, 0)
    assert last.sentence == "The last backup is 30 days old; nothing was kept since."
    take_in(there.book, there.jonas, ANOTHER)
    assert backups.last_backup(there.book).is_due


def test_the_shop_says_after_how_many_days_it_is_reminded(there):
    backups.keep_backup_days(there.book, there.imke, " 3 ")
    assert shop(there.book).backup_days == 3
    there.clock.on(timedelta(days=3))
    assert backups.last_backup(there.book).is_due
    for typed in ("0", "366", "-1", "soon", "", "٣"):
        with pytest.raises(Refused, match="no number of days"):
            backups.keep_backup_days(there.book, there.imke, typed)


def test_restoring_tells_the_gap_the_numbers_and_what_to_do(there, stick, tmp_path):
    """Nasty case 85: restored from an old backup, with one paper in a customer's hands that left after it."""
    backups.back_up(there.book, there.jonas, stick)
    take_in(there.book, there.jonas, ANOTHER)
    left = papers.paper_path(there.book, papers.issue(there.book, there.jonas, there.job, "evidence"))
    paper = Path(shutil.copy(left, tmp_path))
    (file,) = stick.iterdir()
    witnesses = restoring.Witnesses(papers=[paper])
    restored = restore(there, file, tmp_path / "again", witnesses, by=there.imke.id)
    told = list(restoring.sentences(restored, witnesses))
    held = restored.restoration.size
    assert restored.restoration.last_entry > held + 1
    assert f"Entries {held + 1} to {restored.restoration.last_entry} are missing" in told[1]
    assert told[2].startswith("Job numbers 2 to 200, vehicle numbers 2 to 200, customer numbers 2 to 200 may have been")
    assert "next come job 201, vehicle 201, customer 201" in told[2]
    assert any("the book's key was not in the backup" in one.lower() for one in told)
    again = open_book(tmp_path / "again", clock=there.clock)
    assert take_in(again, there.jonas, ANOTHER) == 201
    last = backups.last_backup(again)
    assert last.is_due
    assert last.sentence == "The book was restored from a backup, and no backup was made since."
    again.close()


def test_a_paper_of_the_lost_part_is_told_apart_from_an_altered_one(there, stick, tmp_path):
    before = papers.paper_path(there.book, papers.issue(there.book, there.jonas, there.job, "evidence"))
    written = backups.write(there.book, there.imke, stick, with_key=True)
    left = papers.paper_path(there.book, papers.issue(there.book, there.jonas, there.job, "evidence"))
    lost = Path(shutil.copy(left, tmp_path))
    restore(there, written.file, tmp_path / "again")
    place = str(tmp_path / "again")
    assert verify_file(before, place).sentences[-1] != verify_file(lost, place).sentences[-1]
    answer = verify_file(lost, place)
    assert (answer.word, answer.status, answer.lost) == ("consistent", 0, True)
    size = written.manifest.head.size
    assert f"issued in the lost part after entry {size} of epoch 1" in answer.sentences[-1]
    assert not verify_file(before, place).lost
    spoilt = bytearray(lost.read_bytes())
    spoilt[len(spoilt) // 2] ^= 1
    (tmp_path / "spoilt.pdf").write_bytes(spoilt)
    assert verify_file(tmp_path / "spoilt.pdf", place).word == "altered"
    report = audit_book(place)
    assert (report.findings, report.epoch) == ((), 2)


def test_pictures_come_along_and_are_audited(there, stick, tmp_path):
    data = picture("red")
    files.add_files(there.book, there.bram, there.job, [files.of_bytes("front left.jpg", data)])
    written = backups.back_up(there.book, there.imke, stick, with_key=True)
    assert any(member.name.startswith("photos/") and member.size == len(data) for member in written.manifest.members)
    restore(there, written.file, tmp_path / "again")
    again = open_book(tmp_path / "again", clock=there.clock)
    (kept,) = files.files_of(again, there.job)
    assert files.content(again, kept.digest) == data
    again.close()
    assert audit_book(str(tmp_path / "again")).findings == ()


def test_nothing_known_of_the_lost_part_is_said_too(there, stick, tmp_path):
    backups.back_up(there.book, there.jonas, stick)
    (file,) = stick.iterdir()
    told = " ".join(restoring.sentences(restore(there, file, tmp_path / "again")))
    assert "how much that is nobody told" in told
    assert "erase it again" in told
    assert "Put your copy of the key back as" in told


def test_the_old_folder_tells_what_was_lost_and_what_was_erased(there, stick, tmp_path):
    backups.back_up(there.book, there.jonas, stick)
    take_in(there.book, there.jonas, ANOTHER)
    (file,) = stick.iterdir()
    witnesses = restoring.Witnesses(left=there.book.folder)
    restored = restore(there, file, tmp_path / "again", witnesses)
    with there.book.store.read() as reading:
        assert restored.restoration.last_entry == reading.journal.head().size
    assert "Nothing that could be read in the old folder had been erased" in " ".join(
        restoring.sentences(restored, witnesses)
    )


def test_an_entry_number_that_cannot_be_is_a_slip(there, stick, tmp_path):
    backups.back_up(there.book, there.jonas, stick)
    (file,) = stick.iterdir()
    with pytest.raises(Refused, match="far beyond what the backup holds"):
        restore(there, file, tmp_path / "again", restoring.Witnesses(5_000_000))
    assert not (tmp_path / "again").exists()


def test_a_named_paper_must_be_one_that_left_this_book(there, stick, tmp_path):
    backups.back_up(there.book, there.jonas, stick)
    (file,) = stick.iterdir()
    preview = papers.print_to(there.book, there.job, "handover", tmp_path)
    for paper in (preview, tmp_path / "none.pdf"):
        with pytest.raises(Refused, match="no unaltered paper that left this book"):
            restore(there, file, tmp_path / "again", restoring.Witnesses(papers=[paper]))
