"""The shelf of pictures: chosen several at once, leafed through, brought back and erased, and the folder beside it."""

import os

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest

from jobbook.services import files
from jobbook.ui.jobs.pictures.sheet import AWAY, FOLDER_SETTING, PicturesSheet
from tests.services.pictures_at_hand import picture
from tests.ui.jobs.pictured import kept, put, with_three


@pytest.fixture
def shown(page, tmp_path, qtbot):
    return with_three(page(), tmp_path, qtbot)


def test_shift_chooses_all_on_the_way_by_key_and_by_click(shown):
    shelf = shown.pictures.shelf
    shelf.setCurrentRow(0)
    shelf.clearSelection()
    for _ in range(2):
        QTest.keyClick(shelf, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert len(shelf.chosen()) == 3
    shelf.clearSelection()
    shelf.setCurrentRow(0, shelf.selectionModel().SelectionFlag.NoUpdate)
    third = shelf.visualItemRect(shelf.item(2)).center()
    QTest.mouseClick(shelf.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ShiftModifier, third)
    assert len(shelf.chosen()) == 3


def test_one_leafs_through_the_pictures_without_going_back_to_the_shelf(shown):
    pictures = shown.pictures
    pictures.shelf.setCurrentRow(0)
    pictures.presenter.look_at(pictures.shelf.file_at_hand())
    first = pictures.viewer._title.accessibleName()
    pictures.viewer.next.click()
    assert pictures.viewer._title.accessibleName() != first
    pictures.viewer.before.click()
    pictures.viewer.before.click()
    assert pictures.viewer._title.accessibleName() == first


def test_what_was_taken_away_is_brought_back_or_erased_for_good(shown, there):
    pictures = shown.pictures
    here = kept(there)
    files.take_away(there.book, there.bram, there.job, [one.entry for one in here[:2]], "of another car")
    pictures.presenter.refresh()
    pictures.part.setCurrentIndex(pictures.part.findData(AWAY))
    pictures.part.activated.emit(0)
    assert pictures.shelf.count() == 2
    pictures.shelf.item(0).setSelected(True)
    assert not pictures.acts.assign.isEnabled()
    answer(pictures, "back", "it is this car after all")
    assert len(kept(there)) == 2
    pictures.shelf.item(0).setSelected(True)
    answer(pictures, "erase", "asked for by the person whom it shows")
    assert pictures.shelf.item(0).text().splitlines()[1].startswith("erased 12 Mar 2026")
    pictures.presenter.look_at(pictures.shelf.file_at_hand())
    assert "was erased on 12 Mar 2026: asked for" in pictures._refusal.text()


def answer(pictures, key, reason):
    pictures._ask_act(key)
    pictures._form.form.fields["reason"].set_text(reason)
    pictures._form.form.hand_in()


def test_new_files_of_a_watched_folder_are_offered_and_taken_in_when_somebody_says_so(qtbot, dressed, there, tmp_path):
    settings = QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)
    sheet = PicturesSheet(there.setting(), settings)
    qtbot.addWidget(sheet)
    sheet.show()
    sheet.open_job(there.job)
    put(tmp_path / "camera", 2)
    sheet.watched.click()
    sheet._form.form.fields["folder"].set_text(str(tmp_path / "camera"))
    sheet._form.form.hand_in()
    assert settings.value(FOLDER_SETTING) == str(tmp_path / "camera")
    assert sheet.take_waiting.text() == "Take in 2 new from camera"
    assert kept(there) == (), "nothing is taken in by itself"
    coming = tmp_path / "camera" / "IMG_0009.jpg"
    coming.write_bytes(picture("blue"))
    os.utime(coming, (there.book.clock().timestamp(),) * 2)
    sheet.presenter.look_into_folder()
    assert "2 new" in sheet.take_waiting.text(), "the third may be written still"
    assert sheet._look_again.isActive()
    os.utime(coming)
    sheet._look_again.timeout.emit()
    assert "3 new" in sheet.take_waiting.text()
    sheet.take_waiting.click()
    assert len(kept(there)) == 3
    assert sheet.take_waiting.isHidden()
    assert len(list((tmp_path / "camera").iterdir())) == 3, "what lies there stays there"
    sheet.presenter.watch(str(tmp_path / "gone"))
    assert "cannot be read" in sheet._refusal.text()
    sheet.presenter.watch("")
    assert sheet.watched.text() == "Watch a folder…"


def test_an_assignment_is_undone_by_a_key_and_each_file_goes_back_where_it_was(shown, there):
    pictures = shown.pictures
    assert pictures.acts.undo.isHidden()
    files.assign(there.book, there.bram, there.job, [kept(there)[0].entry], "codes/before")
    pictures.presenter.refresh()
    pictures.part.setCurrentIndex(1)
    pictures.part.activated.emit(1)
    QTest.keyClick(pictures.shelf, Qt.Key.Key_L)
    pictures.presenter.assign(pictures.shelf.chosen(), "arrival")
    assert [one.to for one in kept(there)] == ["arrival"] * 3
    QTest.keyClick(pictures.shelf, Qt.Key.Key_U)
    assert [one.to for one in kept(there)] == ["codes/before", "", ""]
    assert pictures.acts.undo.isHidden()
