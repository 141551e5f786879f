"""Backing up from the window: how it stands, now, with a way to stop, and how often one is asked for."""

import pytest

from jobbook.services.house.backups import last_backup
from jobbook.services.house.shop import shop
from jobbook.services.sheet.sheets import Ask
from jobbook.ui.place_fields import PlaceField
from jobbook.ui.places import BACKUP, SHOP, Place
from jobbook.ui.shop.backup import BackupPage


@pytest.fixture
def stick(tmp_path):
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick"


@pytest.fixture
def page(qtbot, setting):
    made = BackupPage(setting)
    qtbot.addWidget(made)
    made.show()
    made.open()
    return made


def test_a_backup_is_written_away_from_the_window_and_noted(qtbot, page, book, stick):
    assert page.state.text().startswith("No backup was made yet")
    page.form.show_answers({"place": str(stick)})
    page.back_up.click()
    assert page.back_up.text() == "Backing up…"
    page.back_up.click()  # a second press begins no second one
    qtbot.waitUntil(lambda: bool(page.said.text()))
    (file,) = stick.iterdir()
    assert page.said.text().startswith(f"{file}: written and read back")
    assert "The book's key is not in it" in page.said.text()
    assert page.back_up.text() == "Back up now"
    assert page.state.text() == "The last backup is of today; nothing was kept since."
    assert str(stick) in page.where.text()
    assert last_backup(book).place == str(stick)


def test_where_the_last_one_went_is_offered_again(qtbot, page, setting, stick):
    page.form.show_answers({"place": str(stick), "with_key": "yes"})
    page.back_up.click()
    qtbot.waitUntil(lambda: bool(page.said.text()))
    assert "lock" in page.said.text()
    again = BackupPage(setting)
    qtbot.addWidget(again)
    again.open()
    assert again.form.answers() == {"place": str(stick), "with_key": "no"}


def test_a_stick_that_is_not_there_is_said_and_nothing_is_noted(qtbot, page, book, tmp_path):
    page.form.show_answers({"place": str(tmp_path / "stick" / "a.zip")})
    page.back_up.click()
    qtbot.waitUntil(lambda: bool(page.said.text()))
    assert "There is no folder" in page.said.text()
    assert last_backup(book).at == ""
    assert page.back_up.text() == "Back up now"


def test_a_backup_that_is_stopped_leaves_nothing(qtbot, page, lanes, book, stick):
    (book.folder / "photos" / "aa.jpg").write_bytes(bytes(30 << 20))
    lanes.begun.connect(lambda task: task.cancel())
    page.form.show_answers({"place": str(stick)})
    page.back_up.click()
    qtbot.waitUntil(lambda: bool(page.said.text()))
    assert "was stopped" in page.said.text()
    assert list(stick.iterdir()) == []
    assert page.back_up.text() == "Back up now"


def test_how_often_a_backup_is_asked_for_is_the_shops_own(qtbot, page, book):
    assert page.days.answers() == {"days": "7"}
    page.days.show_answers({"days": "often"})
    page.keep_days.click()
    qtbot.waitUntil(lambda: bool(page.days_said.text()))
    assert "no number of days" in page.days_said.text()
    page.days.show_answers({"days": "2"})
    page.keep_days.click()
    qtbot.waitUntil(lambda: page.days_said.text() == "Kept.")
    assert shop(book).backup_days == 2


def test_who_may_not_back_up_is_told(qtbot, page, duty, bram, stick):
    duty.come(bram)
    page.form.show_answers({"place": str(stick)})
    page.back_up.click()
    qtbot.waitUntil(lambda: bool(page.said.text()))
    assert "no permission" in page.said.text()
    duty.lock()
    page.back_up.click()
    assert "Nobody is on duty" in page.said.text()
    page.keep_days.click()
    assert "Nobody is on duty" in page.days_said.text()


def test_a_place_leads_to_the_backup(window):
    window.go(Place(SHOP, name=BACKUP))
    assert isinstance(window.rooms[SHOP].page("list").part(), BackupPage)


class Chosen(PlaceField):
    """As if somebody had chosen this in the system's own window, or had left it."""

    answer = ""

    def _ask_system(self):
        return self.answer


def test_a_folder_that_was_chosen_stands_in_the_line_and_leaving_changes_nothing(qtbot):
    field = Chosen(Ask("place", "Folder"))
    qtbot.addWidget(field)
    field.set_text("/mnt/stick")
    field.choose.click()
    assert field.text() == "/mnt/stick"
    field.answer = "/mnt/other"
    with qtbot.waitSignal(field.changed):
        field.choose.click()
    assert field.text() == "/mnt/other"
