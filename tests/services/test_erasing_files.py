"""A picture shows somebody who asks to be forgotten: its bytes go for good, what was said of it stays."""

import json
import shutil
from contextlib import closing
from io import BytesIO

import pytest
from pypdf import PdfReader

from jobbook.core.errors import NotFound, Refused
from jobbook.db.audit import audit
from jobbook.db.disk.backing_up import erasings
from jobbook.services import files
from jobbook.services.clock import system_chance
from jobbook.services.house import backups, restoring
from jobbook.services.opened import open_book
from jobbook.services.papers import preview
from jobbook.services.vehicle.data_copies import copy_of_data
from tests.services.pictures_at_hand import picture
from tests.services.test_files import on_disk

WHY = "asked for by the person whom it shows"
FACE = picture("red", (320, 200), taken="2026:11:25 09:12:03")


@pytest.fixture
def there(at):
    return at("taken in")


def add(there, *more):
    sources = [files.of_bytes("Ansel at the counter.jpg", FACE), *more]
    return files.add_files(there.book, there.bram, there.job, sources)


def erase(there, entry):
    return files.erase(there.book, there.imke, there.job, [entry], WHY)


def test_the_bytes_the_small_picture_and_the_name_are_gone_and_the_facts_stay(there):
    (kept,) = add(there).kept
    files.small_picture(there.book, kept)
    assert "1 file erased for good" in erase(there, kept.entry).words
    assert on_disk(there) == []
    (shown,) = files.shown_files(there.book, there.job)
    assert shown.gone == "erased on 25 Nov 2026 by Imke Tolland"
    assert (shown.file.digest, shown.file.taken_at) == (kept.digest, kept.taken_at)
    assert (shown.file.name, shown.file.erased_why) == (None, WHY)
    report = audit(there.book.store)
    (told,) = report.files_erased
    assert (report.sound, told.entry) == (True, there.journal("erased/1")[-1].number)
    assert told.words.startswith(f"The file {kept.digest[:12]} was erased on 25 Nov 2026 by Imke Tolland, entry ")
    assert told.words.endswith(WHY)
    assert told.words in report.notes


def test_nothing_can_be_done_any_more_with_what_is_erased(there, tmp_path):
    (kept,) = add(there).kept
    files.choose(there.book, there.bram, there.job, [kept.entry], True)
    erase(there, kept.entry)
    (gone,) = files.files_of(there.book, there.job)
    assert (gone.chosen, files.small_picture(there.book, gone)) == (False, b"")
    for refused in (
        lambda: files.view(there.book, gone, 400),
        lambda: files.copies_out(there.book, there.job, [kept.entry], tmp_path),
        lambda: files.choose(there.book, there.bram, there.job, [kept.entry], True),
        lambda: files.set_marks(there.book, there.bram, there.job, kept.entry, ()),
    ):
        with pytest.raises(Refused):
            refused()
    with pytest.raises(NotFound, match="erased for good"):
        files.content(there.book, kept.digest)
    with pytest.raises(NotFound, match="bytes are still there"):
        erase(there, kept.entry)


def test_the_copy_of_ones_data_names_the_pictures_of_ones_jobs(there):
    (kept,) = add(there).kept

    def told():
        (visit,) = json.loads(copy_of_data(there.book, there.jonas, 1))["jobs"]
        return visit["pictures_and_files"]

    facts = {"name": "Ansel at the counter.jpg", "what": "picture", "taken": "2026-11-25T09:12:03"}
    assert told() == [facts | {"sha256": kept.digest, "state": "kept"}]
    erase(there, kept.entry)
    assert told()[0]["state"].startswith("erased 2026-11-25")
    assert told()[0]["name"] == f"picture {kept.entry}"


def test_it_needs_a_reason_and_somebody_who_keeps_the_shop(there):
    (kept,) = add(there).kept
    with pytest.raises(Refused, match="say why"):
        files.erase(there.book, there.imke, there.job, [kept.entry], " ")
    with pytest.raises(Refused, match="no permission"):
        files.erase(there.book, there.bram, there.job, [kept.entry], WHY)
    assert files.content(there.book, kept.digest) == FACE


def test_what_was_taken_away_before_can_be_erased_too(there):
    (kept,) = add(there).kept
    files.take_away(there.book, there.bram, there.job, [kept.entry], "shows a customer")
    (away,) = files.shelf_of(there.book, there.job).away
    assert away.file.digest == kept.digest
    erase(there, away.file.entry)
    assert on_disk(there) == []
    assert files.shelf_of(there.book, there.job).away[0].gone


def test_what_was_taken_away_by_mistake_is_brought_back_as_it_came(there):
    (kept,) = add(there).kept
    files.take_away(there.book, there.bram, there.job, [kept.entry], "of another car")
    with pytest.raises(Refused, match="say why"):
        files.bring_back(there.book, there.bram, there.job, [kept.entry], "")
    files.bring_back(there.book, there.jonas, there.job, [kept.entry], "it is this car after all")
    (back,) = files.files_of(there.book, there.job)
    assert (back.digest, back.name, back.by, back.taken_at) == (kept.digest, kept.name, kept.by, kept.taken_at)
    assert files.shelf_of(there.book, there.job).away == ()
    with pytest.raises(NotFound, match="there already"):
        files.bring_back(there.book, there.bram, there.job, [kept.entry], "once more")


def test_it_does_not_come_back_by_being_dropped_once_more(there):
    (kept,) = add(there).kept
    erase(there, kept.entry)
    again = add(there, files.of_bytes("other.jpg", picture("blue")))
    assert [one.size for one in again.kept] == [len(picture("blue"))]
    assert "erased on 25 Nov 2026 by Imke Tolland, and is not taken in again" in again.refused[0]
    assert kept.digest not in on_disk(there)


def test_one_that_was_laid_while_it_was_being_erased_is_not_kept(there):
    (kept,) = add(there).kept
    files.take_away(there.book, there.bram, there.job, [kept.entry], "shows a customer")
    ready = files.prepare(there.book, there.job, [files.of_bytes("once more.jpg", FACE)])
    erase(there, kept.entry)
    with pytest.raises(Refused, match="not taken in again"):
        files.keep_ready(there.book, there.bram, there.job, ready)
    assert on_disk(there) == []


def test_the_evidence_lists_it_as_erased(there):
    (kept,) = add(there).kept
    files.choose(there.book, there.bram, there.job, [kept.entry], True)
    erase(there, kept.entry)
    evidence = PdfReader(BytesIO(preview(there.book, there.job, "evidence")))
    words = " ".join(page.extract_text() for page in evidence.pages)
    assert "erased on 25 Nov 2026" in " ".join(words.split())
    assert kept.digest[:32] in words


# The power goes; a backup; a restoring


def test_where_the_power_went_before_the_bytes_were_gone_they_go_at_the_next_opening(there, tmp_path):
    (kept,) = add(there).kept
    before = tmp_path / "photos"
    shutil.copytree(there.book.folder / "photos", before)
    erase(there, kept.entry)
    folder = there.book.folder
    shutil.copytree(before, folder / "photos", dirs_exist_ok=True)
    report = audit(there.book.store)
    assert "was erased by entry" in report.findings[0]
    assert "still lie there" in report.findings[0]
    there.book.close()
    with closing(open_book(folder, clock=there.book.clock, chance=system_chance)) as book:
        assert audit(book.store).sound
        assert not (folder / "photos" / kept.digest).exists()


def test_a_backup_from_before_is_said_to_hold_it_and_restoring_erases_it_again(there, tmp_path):
    (kept,) = add(there).kept
    written = backups.write(there.book, there.imke, tmp_path / "a.zip", with_key=True)
    backups.note(there.book, there.imke, written)
    erase(there, kept.entry)
    assert "holds what was erased since" in backups.last_backup(there.book).sentence
    left = restoring.Witnesses(left=there.book.folder)
    restored = restoring.restore(written.file, tmp_path / "again", left, clock=there.book.clock)
    assert restored.erased == 2, "its name and its bytes"
    assert [path.name for path in (tmp_path / "again" / "photos").rglob("*") if path.is_file()] == []
    with closing(open_book(tmp_path / "again", clock=there.book.clock, chance=system_chance)) as book:
        assert files.files_of(book, there.job)[0].erased_why.startswith("erased before the book was restored")
        assert audit(book.store).sound


def test_a_backup_during_which_something_is_erased_is_none(there, tmp_path):
    (kept,) = add(there).kept
    told = []

    class Running:
        cancelled = False

        def report(self, done, total):
            if not told:
                told.append(done)
                erase(there, kept.entry)

    before = erasings(there.book.store.file)
    with pytest.raises(Refused, match="erased while the backup was made"):
        backups.write(there.book, there.imke, tmp_path / "a.zip", running=Running())
    assert erasings(there.book.store.file) == before + 1
    assert list(tmp_path.glob("a.zip*")) == []
