"""Restoring from the first start, where no book lies yet."""

import pytest

from jobbook.services.house import backups
from jobbook.services.opened import needs_start
from jobbook.ui.start.first_start import FirstStart


@pytest.fixture
def backup(book, imke, tmp_path):
    return backups.back_up(book, imke, tmp_path / "a.zip", with_key=True).file


@pytest.fixture
def first(qtbot, lanes, tmp_path):
    made = FirstStart(str(tmp_path / "data" / "restored"), lanes)
    qtbot.addWidget(made)
    made.show()
    made.restore.click()
    return made


def test_a_backup_is_restored_told_and_opened(qtbot, first, backup, book):
    page = first.restoring
    assert first.currentWidget() is page
    page.form.show_answers({"file": str(backup), "last_entry": "2 041"})
    page.restore.click()
    qtbot.waitUntil(lambda: page.currentIndex() == 1)
    assert "to 2041 are missing" in page.told.text()
    assert "next come job" in page.told.text()
    with qtbot.waitSignal(first.created) as created:
        page.begin.click()
    again, person = created.args
    assert person is None
    assert again.store.book_id == book.store.book_id
    assert again.store.key_hex == book.store.key_hex
    again.close()


def test_what_is_left_of_the_old_folder_is_asked(qtbot, first, backup, book, strut_job):
    page = first.restoring
    page.form.show_answers({"file": str(backup), "left": str(book.folder)})
    page.restore.click()
    qtbot.waitUntil(lambda: page.currentIndex() == 1)
    assert "entries lost at least" in page.told.text()
    page.begin.click()
    first.restoring.presenter._book.close()


@pytest.mark.parametrize("last_entry", ["soon", "-3"])
def test_what_is_no_number_of_an_entry_is_said(first, backup, last_entry):
    page = first.restoring
    page.form.show_answers({"file": str(backup), "last_entry": last_entry})
    page.restore.click()
    assert "no number of an entry" in page.said.text()


def test_a_damaged_backup_restores_nothing_and_says_so(qtbot, first, backup, tmp_path):
    backup.write_bytes(backup.read_bytes()[:-1000])
    page = first.restoring
    page.form.show_answers({"file": str(backup)})
    page.restore.click()
    qtbot.waitUntil(lambda: bool(page.said.text()))
    assert "nothing was restored" in page.said.text()
    assert page.restore.isEnabled()
    assert needs_start(tmp_path / "data" / "restored")


def test_it_can_be_stopped_and_a_new_book_begun_after_all(qtbot, first, backup, lanes, tmp_path):
    page = first.restoring
    lanes.begun.connect(lambda _task: page.back.click())
    page.form.show_answers({"file": str(backup)})
    page.restore.click()
    qtbot.waitUntil(lambda: bool(page.said.text()))
    assert "was stopped" in page.said.text()
    assert list((tmp_path / "data").iterdir()) == []
    page.back.click()
    assert first.currentIndex() == 0
