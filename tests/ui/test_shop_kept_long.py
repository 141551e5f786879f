"""Kept long, in the shop: each customer is forgotten or kept on by somebody's word; nothing goes by itself."""

from datetime import timedelta

import pytest

from jobbook.core.people import Shop
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.demonstration import MovedClock
from jobbook.services.office.intake import Arrival, take_in
from jobbook.services.opened import start_book
from jobbook.ui.places import KEPT_LONG, SHOP, Place
from jobbook.ui.setting import Setting
from jobbook.ui.shop.kept_long import KeptLongPage
from tests.services.workshop import MORNING, PIN
from tests.ui.conftest import AtOnce


class OnDuty:
    """Somebody who works at this window."""

    def __init__(self, person):
        self.person = person


@pytest.fixture
def page(qtbot, dressed, tmp_path):
    """Two customers of nine years ago, in a shop whose profile keeps for eight."""
    clock = MovedClock(MORNING)
    book, imke = start_book(
        tmp_path / "old", Shop("Saltmarsh Lane Suspension", profile="germany"), "Imke", PIN, clock=clock
    )
    for name in ("Ansel Harrow", "Orla Finchley"):
        arrival = Arrival(Vehicle(0, "", plate=name[:4]), Customer(0, name, "", "0147"), "128 410", ("Stands low.",))
        job = take_in(book, imke, arrival)
        with book.store.write(imke.id) as tx:
            facts = {"job": job, "restriction": "", "let_go": []}
            tx.keep(Draft("released/1", f"job/{job}", facts, job=job, meaning="released"))
    clock.now += timedelta(days=9 * 366)
    made = KeptLongPage(Setting(book, OnDuty(imke), AtOnce()))
    qtbot.addWidget(made)
    made.show()
    made.open()
    yield made
    book.close()


def listed(page):
    model = page.table.model()
    return [model.index(row, 0).data() for row in range(model.rowCount())]


def test_each_is_forgotten_or_kept_on_and_leaves_the_list(page):
    assert listed(page) == ["Ansel Harrow", "Orla Finchley"]
    assert "8 years" in page.rule.text()
    assert page.form.fields["until"].isHidden()
    page.form.show_answers({"outcome": "keep on", "reason": "A claim still runs."})
    page.form.changed.emit("outcome")
    assert not page.form.fields["until"].isHidden()
    page.keep.click()
    assert "day of the next look" in page.said.text()
    page.form.show_answers({"until": "2036-01-01"})
    page.keep.click()
    assert listed(page) == ["Orla Finchley"]
    assert page.name.text() == "Orla Finchley"
    page.form.show_answers({"outcome": "erase"})
    page.keep.click()
    assert listed(page) == []
    assert page.empty.isVisible()
    assert not page.card.isVisible()


def test_a_shop_whose_profile_names_no_years_is_told_where_to_choose_one(qtbot, window):
    window.go(Place(SHOP, name=KEPT_LONG))
    part = window.pages.currentWidget().currentWidget().part()
    assert isinstance(part, KeptLongPage)
    assert part.empty.isVisible()
    assert not part.rule.isVisible()
