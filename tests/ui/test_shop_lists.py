"""Import and export in the shop: seen before it is kept, mapped by hand, refused by row, gone on with."""

import pytest
from PySide6.QtCore import Qt

from jobbook.services.lists.importing import Pace, keep, unfinished
from jobbook.services.lists.planning import headings_of, plan
from jobbook.services.office.finding import find
from jobbook.services.vehicle.vehicles import vehicles
from jobbook.ui.places import SHOP, Place
from jobbook.ui.shop.lists import ListsPage
from jobbook.ui.shop.lists_presenter import go_on_with_imports

GOOD = "FIN;Kennzeichen;Halter\nA09VH2AT4KB204117;KX-1;Jörg Weißenfels\nXX0KSTLLE00654321;ML-1;\n"
BAD = GOOD + "1.2E+16;Z-1;\n;;Nobody\n"


@pytest.fixture
def page(qtbot, dressed, at_once):
    made = ListsPage(at_once)
    qtbot.addWidget(made)
    made.resize(1200, 640)
    made.show()
    made.open()
    return made


def chosen(page, tmp_path, text, kind="Vehicles"):
    file = tmp_path / "list.csv"
    file.write_text(text, encoding="utf-8")
    page.ask_for_file = lambda: str(file)
    next(one for one in page.kinds.buttons() if one.text() == kind).click()
    page.choose.click()


def test_an_empty_page_says_what_will_stand_there(page):
    assert page.empty.isVisible()
    assert page.summary.text() == "No list is open."
    assert not page.take.isVisible()


def test_a_list_is_seen_before_it_is_kept_and_then_kept(qtbot, page, book, tmp_path):
    chosen(page, tmp_path, GOOD)
    assert page.how.text() == "list.csv: UTF-8, separated by semicolons, 2 rows"
    assert [box.currentText() for box in page.columns] == ["VIN", "Plate", "Owner's name"]
    assert page.summary.text() == "It would be 2 new, 0 changed, 0 as they were."
    assert vehicles(book).rows == ()
    page.take.click()
    assert page.said.text() == "list.csv is taken in: 2 new, 0 changed, 0 as they were."
    assert [one.plate for one in vehicles(book).rows] == ["ML-1", "KX-1"]
    assert page.empty.isVisible()


def test_a_list_with_bad_rows_names_them_and_takes_in_the_others_only_when_asked(page, book, tmp_path):
    chosen(page, tmp_path, BAD)
    assert page.summary.text().startswith("Something is wrong with 2 rows.")
    assert not page.take.isVisible()
    assert page.whole.text().startswith("Row 4, “FIN”: “1.2E+16” is a VIN that a spreadsheet took for a number")
    assert vehicles(book).rows == ()
    page.take_good.click()
    assert len(vehicles(book).rows) == 2
    assert page.said.text().endswith("2 new, 0 changed, 0 as they were, 2 left out.")


def test_what_a_column_holds_is_said_by_hand_and_then_everything_is_looked_at_anew(page, book, tmp_path):
    chosen(page, tmp_path, "Wer,Telefon\nOttilie Brandvold,0700 12\n", "Customers")
    assert "no column of the list is taken for “Name”" in page.summary.text()
    box = page.columns[0]
    box.setCurrentIndex(box.findData("name"))
    box.activated.emit(box.currentIndex())
    assert page.summary.text() == "It would be 1 new, 0 changed, 0 as they were."
    page.take.click()
    assert [one.name for one in find(book, "0700").customers] == ["Ottilie Brandvold"]


def test_a_fact_for_one_column_alone_leaves_the_column_that_held_it(page, tmp_path):
    chosen(page, tmp_path, GOOD)
    page.presenter.hold(2, "plate")
    assert [box.currentData() for box in page.columns] == ["vin", "", "plate"]


def test_another_kind_looks_at_the_same_file_as_such(page, tmp_path):
    chosen(page, tmp_path, "Name,Telefon\nOttilie,0700\n")
    next(one for one in page.kinds.buttons() if one.text() == "Customers").click()
    assert page.summary.text() == "It would be 1 new, 0 changed, 0 as they were."


def test_a_file_that_is_no_list_is_said_and_nothing_stays_open(page, tmp_path):
    chosen(page, tmp_path, "")
    assert "holds no row" in page.said.text()
    assert page.empty.isVisible()


def test_a_list_is_written_and_never_over_another(page, book, tmp_path):
    chosen(page, tmp_path, GOOD)
    page.take.click()
    page.ask_where_to = lambda: str(tmp_path / "out.csv")
    page.write.click()
    assert page.said.text() == f"{tmp_path / 'out.csv'}: 2 rows."
    page.write.click()
    assert "is there already" in page.said.text()


def test_nothing_is_kept_or_written_while_the_window_is_locked(page, duty, book, tmp_path):
    chosen(page, tmp_path, GOOD)
    duty.lock()
    page.take.click()
    assert "Nobody is on duty" in page.said.text()
    page.ask_where_to = lambda: str(tmp_path / "out.csv")
    page.write.click()
    assert vehicles(book).rows == ()
    assert not (tmp_path / "out.csv").exists()


def test_the_whole_way_in_the_window_by_keys(qtbot, window, book, tmp_path):
    window.go(Place(SHOP))
    shop = window.pages.currentWidget().currentWidget()
    word = next(one for one in shop.words.buttons() if one.text() == "Import and export")
    qtbot.keyClick(word, Qt.Key.Key_Space)
    page = shop.part()
    assert page.choose.hasFocus()
    chosen(page, tmp_path, GOOD)
    qtbot.waitUntil(lambda: page.take.isEnabled())
    qtbot.keyClick(page.take, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "is taken in" in page.said.text())
    assert len(vehicles(book).rows) == 2


def test_an_import_that_broke_off_goes_on_when_the_book_is_opened(qtbot, book, imke, setting, lanes, tmp_path):
    file = tmp_path / "list.csv"
    file.write_text("VIN\n" + "".join(f"XX0KSTLLE{number:08}\n" for number in range(30)))

    def broken(_seconds):
        if unfinished(book):  # the first pause comes while the rows are laid down
            raise KeyboardInterrupt

    planned = plan(book, "vehicles", *headings_of(book, "vehicles", file))
    with pytest.raises(KeyboardInterrupt):
        keep(book, imke, planned, pace=Pace(pause=broken))
    stops = []
    lanes.begun.connect(lambda task: task.held.connect(lambda: stops.append(task.title)))
    go_on_with_imports(setting)
    qtbot.waitUntil(lambda: unfinished(book) == ())
    qtbot.waitUntil(lambda: len(lanes.tasks) == 0)
    assert len(vehicles(book, limit=100).rows) == 30
    assert stops == ["Going on with list.csv"]


def test_the_rows_that_something_is_wrong_with_are_written_to_a_file_to_be_mended(page, tmp_path):
    chosen(page, tmp_path, GOOD)
    assert not page.write_bad.isVisible()
    chosen(page, tmp_path, BAD)
    page.ask_where_to = lambda forms: str(tmp_path / "bad.csv")
    page.write_bad.click()
    assert page.said.text() == f"{tmp_path / 'bad.csv'}: 2 rows, each with what is wrong with it."
    assert len((tmp_path / "bad.csv").read_text(encoding="utf-8-sig").splitlines()) == 3
