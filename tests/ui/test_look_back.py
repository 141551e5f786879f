"""Looking back: the page over a real book of parts, and its presenter."""

import random
from shutil import copytree

import pytest

from jobbook.core.people import PERMISSIONS
from jobbook.core.record.journal import Draft
from jobbook.services.house.people import all_people
from jobbook.services.opened import open_book
from jobbook.ui.duty import Duty
from jobbook.ui.lookback.page import LookBackPage
from jobbook.ui.places import LOOKING_BACK, Place
from jobbook.ui.setting import Setting
from tests.db.building import PERSON
from tests.services.part_book import part_book


@pytest.fixture(scope="session")
def kept_parts(tmp_path_factory):
    """A closed book with struts of two suppliers in front and one part at the rear."""
    place = tmp_path_factory.mktemp("parts") / "book"
    there = part_book(place)
    chance = random.Random(3)
    for supplier, count in (("Quillhaven", 8), ("Brackwater", 6)):
        for one in range(count):
            piece = there.fit(there.visit(f"{supplier}{one}", 0, 10_000), 0, supplier=supplier)
            day = chance.randint(100, 1400)
            again = there.visit(f"{supplier}{one}", day, 10_000 + day * 30)
            if one % 2:
                there.off(again, day, piece, "failed")
    there.fit(there.visit("rear", 0), 0, "RL", supplier="")
    facts = {"person": PERSON, "name": "Bram Ferro", "permissions": list(PERMISSIONS), "active": True}
    with there.book.store.write(PERSON) as tx:
        tx.keep(Draft("person/1", f"person/{PERSON}", facts))
    there.book.close()
    return place


@pytest.fixture
def parts(kept_parts, tmp_path):
    book = open_book(copytree(kept_parts, tmp_path / "book"))
    yield book
    book.close()


@pytest.fixture
def page(qtbot, lanes, parts):
    made = LookBackPage(Setting(parts, Duty(all_people(parts)[0]), lanes))
    qtbot.addWidget(made)
    made.resize(1100, 700)
    made.show()
    made.arrive(Place(LOOKING_BACK))
    qtbot.waitUntil(lambda: "fitted" in made.words.text())
    return made


def names(page):
    model = page.table.model()
    return [model.index(row, 0).data() for row in range(model.rowCount())]


def choose_by(qtbot, page, place, first):
    page.by.buttons()[place].click()
    qtbot.waitUntil(lambda: names(page)[0] == first)
    qtbot.waitUntil(lambda: "fitted" in page.words.text())


def test_the_page_opens_with_the_most_frequent_kind_in_sight(page):
    assert names(page) == ["Air strut, front", "Air strut, rear"]
    assert page.title.text() == "Air strut, front"
    assert page.words.text().startswith("14 fitted, 7 failed, 7 still on when last seen.")
    assert page.plot.accessibleName().startswith("Share of parts that still work, years since fitting")


def test_two_suppliers_are_compared_by_holding_one_and_going_to_the_other(qtbot, page):
    choose_by(qtbot, page, 1, "Quillhaven · Air strut, front")
    page.hold.click()
    page.table.selectRow(1)
    qtbot.waitUntil(lambda: "Few parts:" in page.words.text())
    assert page.beside.accessibleName() == "beside Air strut, front · Brackwater"
    assert page.hold.text() == "Compare no longer"
    page.hold.click()
    qtbot.waitUntil(lambda: page.words.text().startswith("6 fitted"))
    assert not page.beside.isVisible()


def test_distance_takes_the_place_of_time(qtbot, page):
    page.measures.buttons()[1].click()
    qtbot.waitUntil(lambda: "thousand km" in page.plot.accessibleName())


def test_the_list_is_saved_where_it_is_wanted_and_what_the_disk_says_is_said(qtbot, page, tmp_path):
    page.presenter.export(str(tmp_path / "parts.csv"))
    qtbot.waitUntil(lambda: page.said.text().startswith("14 parts are in the file"))
    assert (tmp_path / "parts.csv").read_text("utf-8-sig").startswith("part,corner,number,supplier")
    page.presenter.export(str(tmp_path / "nowhere" / "parts.csv"))
    qtbot.waitUntil(lambda: "was not saved" in page.said.text())
    page.presenter.export("")
    assert "was not saved" in page.said.text()


def test_a_part_that_is_fitted_meanwhile_is_counted_at_once(qtbot, page, parts):
    with parts.store.write(PERSON) as tx:
        facts = {"serves": "strut@FL", "title": "Air strut", "count": 1, "number": "A-1", "kind": "part", "job": 1}
        piece = tx.keep(Draft("issued/1", "job/1", facts, job=1))
        state = {"job": 1, "piece": str(piece.number), "state": "fitted", "reason": ""}
        tx.keep(Draft("piece-state/1", "job/1", state, job=1))
    page.refresh({"piece-state/1"})
    qtbot.waitUntil(lambda: page.words.text().startswith("15 fitted"))


def test_an_empty_book_says_what_will_stand_here(qtbot, window):
    window.go(Place(LOOKING_BACK))
    page = window.rooms[LOOKING_BACK].page("list")
    qtbot.waitUntil(lambda: page.stack.currentWidget() is page.empty)
    assert not page.plot.isVisible()
