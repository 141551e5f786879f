"""Pictures and files beside the job, in a real page: brought in, assigned, marked, and what is said of bad ones."""

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtGui import QDragEnterEvent, QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QListWidget, QPushButton

from jobbook.core.record.files import Mark
from jobbook.services import files
from jobbook.ui.jobs.pictures.acts import ACTS
from jobbook.ui.jobs.pictures.arriving import sources_of
from tests.ui.jobs import strut_book
from tests.ui.jobs.pictured import PLAIN, drop, kept, named, put, with_three


@pytest.fixture
def shown(page, tmp_path, qtbot):
    return with_three(page(), tmp_path, qtbot)


def test_files_dropped_on_the_job_lie_in_the_tray_and_are_counted_in_its_head(shown, there):
    assert [file.to for file in kept(there)] == ["", "", ""]
    assert shown.head.files.text() == "Pictures and files · 3"
    assert shown.pictures.part.currentText() == "Not assigned yet (3)"
    assert shown.pictures.shelf.count() == 3
    assert "no camera time" in shown.pictures.shelf.item(0).text()


def test_a_folder_that_is_dropped_gives_its_files_and_what_names_no_file_is_not_taken(page, there, tmp_path):
    made = page()
    put(tmp_path / "in", 2)
    drop(made, named(tmp_path / "in"))
    assert len(kept(there)) == 2
    words = QMimeData()
    words.setText("only words")
    entering = QDragEnterEvent(QPoint(4, 4), Qt.DropAction.CopyAction, words, Qt.MouseButton.LeftButton, PLAIN)
    entering.ignore()
    made.dragEnterEvent(entering)
    assert not entering.isAccepted()


def test_what_is_dropped_on_the_open_step_belongs_to_it(page, there, tmp_path):
    strut_book.begun(there)
    made = page()
    card = made.work.card
    drop(made, named(*put(tmp_path / "in", 1)), made.mapFromGlobal(card.mapToGlobal(card.rect().center())).toTuple())
    (file,) = kept(there)
    assert file.to == made.presenter.step_at_hand() != ""
    assert made.beside.shows_job(), "the work goes on where it was"


def test_a_picture_in_the_clipboard_is_pasted_on_the_job(page, there, qtbot):
    made = page()
    image = QImage(40, 30, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.darkGreen)
    QGuiApplication.clipboard().setImage(image)
    QTest.keyClick(made, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: len(kept(there)) == 1)
    (file,) = kept(there)
    assert (file.media, file.width, file.height) == ("image/png", 40, 30)
    QGuiApplication.clipboard().clear()
    made.pictures.paste.click()
    assert "no picture and no file in the clipboard" in made.pictures._refusal.text()
    assert sources_of(QMimeData()) == ()


def test_several_are_chosen_by_keys_and_assigned_at_once(shown, there):
    pictures = shown.pictures
    QTest.keyClick(pictures.shelf, Qt.Key.Key_Space)
    QTest.keyClick(pictures.shelf, Qt.Key.Key_Right)
    QTest.keyClick(pictures.shelf, Qt.Key.Key_Space)
    assert pictures.acts._count.text() == "2 chosen"
    pictures.acts.place.setCurrentIndex(pictures.acts.place.findData("codes/before"))
    QTest.keyClick(pictures.shelf, Qt.Key.Key_S)
    assert [file.to for file in kept(there)] == ["codes/before", "codes/before", ""]
    assert pictures.shelf.count() == 1, "what is assigned leaves the tray"
    pictures.part.setCurrentIndex(pictures.part.findData("Fault codes before the work"))
    pictures.part.activated.emit(0)
    assert pictures.shelf.count() == 2


def test_chosen_pictures_are_shown_in_the_evidence_and_not_any_more(shown, there):
    pictures = shown.pictures
    QTest.keyClick(pictures.shelf, Qt.Key.Key_L)
    QTest.keyClick(pictures.shelf, Qt.Key.Key_V)
    assert all(file.chosen for file in kept(there))
    assert pictures.acts.show_in_evidence.text() == "Not in the evidence"
    QTest.keyClick(pictures.shelf, Qt.Key.Key_V)
    assert not any(file.chosen for file in kept(there))


def test_without_a_choice_nothing_can_be_done_and_it_is_said_what_to_do(shown):
    pictures = shown.pictures
    assert not pictures.acts.assign.isEnabled()
    assert not pictures.acts.press("S")
    pictures.presenter.assign((), "arrival")
    assert "Choose files first" in pictures._refusal.text()


def test_enter_shows_a_picture_large_and_marks_are_drawn_by_mouse_and_by_keys(shown, there, qtbot):
    pictures = shown.pictures
    QTest.keyClick(pictures.shelf, Qt.Key.Key_Return)
    assert pictures.inside.currentWidget() is pictures.viewer
    canvas = pictures.viewer.picture
    place = canvas.place()
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, PLAIN, place.topLeft())
    QTest.mouseRelease(canvas, Qt.MouseButton.LeftButton, PLAIN, place.center())
    (ring,) = kept(there)[0].marks
    assert (ring.shape, ring.x1, ring.y1) == ("ring", 0, 0)
    assert 4900 < ring.x2 < 5100
    QTest.keyClick(canvas, Qt.Key.Key_C)
    for key in (Qt.Key.Key_Space, Qt.Key.Key_Right, Qt.Key.Key_Down, Qt.Key.Key_Space):
        QTest.keyClick(canvas, key)
    assert [mark.shape for mark in kept(there)[0].marks] == ["ring", "cover"]
    pictures.viewer.undo.click()
    assert kept(there)[0].marks == (ring,)
    canvas.grab()
    QTest.mouseClick(canvas, Qt.MouseButton.LeftButton, PLAIN, place.center())
    assert kept(there)[0].marks == (ring,), "a mere click is no mark"
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert pictures.inside.currentIndex() == 0
    QTest.keyClick(pictures.shelf, Qt.Key.Key_Escape)
    assert shown.beside.shows_job()


def test_a_file_that_is_no_picture_opens_as_a_copy_in_its_own_program(shown, there, tmp_path):
    (tmp_path / "scan.pdf").write_bytes(b"%PDF-1.4 a report")
    drop(shown, named(tmp_path / "scan.pdf"))
    opened = []
    shown.pictures.open_copy = lambda name, content: opened.append((name, content))
    shown.pictures.presenter.look_at(kept(there)[-1])
    assert opened == [("scan.pdf", b"%PDF-1.4 a report")]


def test_the_same_picture_again_and_a_bad_one_are_said_in_one_notice(shown, there, tmp_path):
    (tmp_path / "empty.jpg").write_bytes(b"")
    drop(shown, named(tmp_path / "empty.jpg", tmp_path / "in" / "IMG_0000.jpg"))
    said = shown.pictures._notice.text()
    assert "0 bytes" in said
    assert "1 file is here already; it was not kept twice." in said
    assert len(kept(there)) == 3


def test_a_picture_that_lies_on_another_job_is_moved_here_with_a_reason(shown, there, tmp_path):
    other = strut_book.another(there)
    shown.pictures.open_job(other)
    shown.pictures.presenter.take_in(sources_of(named(tmp_path / "in" / "IMG_0001.jpg")))
    assert f"A picture lies on job {there.job} already" in shown.pictures._notice.text()
    shown.pictures.move_here.click()
    shown.pictures._form.form.fields["reason"].set_text("the wrong job was open")
    shown.pictures._form.form.hand_in()
    assert len(files.files_of(there.book, other)) == 1
    assert len(kept(there)) == 2


@pytest.mark.parametrize("key", ["move", "away", "copy"])
def test_what_needs_a_word_first_asks_for_it_in_place(shown, there, tmp_path, key):
    pictures = shown.pictures
    pictures.shelf.item(0).setSelected(True)
    label = ACTS[key].label
    next(one for one in pictures.acts.findChildren(QPushButton) if one.text() == label).click()
    other = strut_book.another(there)
    given = {"reason": "of another car", "to": str(other), "folder": str(tmp_path / "out")}
    for name, field in pictures._form.form.fields.items():
        field.set_text(given[name])
    pictures._form.form.hand_in()
    assert not pictures.is_asking()
    assert len(kept(there)) == (3 if key == "copy" else 2)
    assert (tmp_path / "out").exists() == (key == "copy")
    said = f"1 file was copied into {tmp_path / 'out'}." if key == "copy" else ""
    assert pictures._notice.text() == said


def test_a_refusal_stands_in_the_form_and_what_was_typed_stays(shown, there):
    pictures = shown.pictures
    pictures.shelf.item(0).setSelected(True)
    pictures._ask_act("move")
    pictures._form.form.fields["to"].set_text(str(there.job))
    pictures._form.form.fields["reason"].set_text("mistake")
    pictures._form.form.hand_in()
    assert "this is job" in pictures._form._refusal.text()
    assert pictures._form.form.fields["reason"].text() == "mistake"
    pictures.close_form()
    pictures.shelf.clearSelection()
    pictures._ask_act("away")
    assert not pictures.is_asking()


def test_while_nobody_is_on_duty_nothing_is_taken_in(page, there, tmp_path):
    made = page()
    made.open_pictures()
    made.pictures.presenter._setting.duty.person = None
    drop(made, named(*put(tmp_path / "in", 1)))
    assert "Nobody is on duty" in made.pictures._refusal.text()
    made.pictures.presenter.mark(1, (Mark("ring", 0, 0, 9, 9),))
    assert kept(there) == ()


def test_every_control_of_the_sheet_has_a_name(shown):
    named_by = [*shown.pictures.findChildren(QComboBox), *shown.pictures.findChildren(QListWidget)]
    assert all(control.accessibleName() for control in named_by)
    buttons = [one for one in shown.pictures.findChildren(QAbstractButton) if not one.objectName().startswith("qt_")]
    assert all(one.accessibleName() or one.text() for one in buttons)
