"""Prices in the shop: the country profile is chosen with its sources in sight."""

import pytest
from PySide6.QtWidgets import QLabel

from jobbook.core.desk.declined import BARRABLE
from jobbook.core.desk.profiles import CAUTION, TITLES
from jobbook.core.errors import Refused
from jobbook.services.house.prices import change_prices, told_words
from jobbook.services.house.profiles import profiles
from jobbook.services.house.shop import shop
from jobbook.ui.shop.prices import PricesPage


@pytest.fixture
def page(qtbot, at_once, dressed):
    made = PricesPage(at_once)
    qtbot.addWidget(made)
    made.show()
    made.open()
    return made


def words(page):
    return [label.text() for label in page.findChildren(QLabel)]


def test_a_profile_is_kept_with_tax_hour_and_what_no_vehicle_goes_without(page, book):
    page.form.show_answers(
        {"profile": "ontario", "tax_rate": "13", "labour_rate": "110", "no_release_without": "sensors,lamps"}
    )
    page.keep.click()
    facts = shop(book)
    assert (facts.profile, facts.tax_rate, facts.labour_rate) == ("ontario", "13", "110.00")
    assert facts.no_release_without == ("sensors", "lamps")
    assert "tolerance of its day" in page.said.text()


def test_what_a_profile_says_stands_with_its_source_before_it_is_kept(page, book):
    assert CAUTION in words(page)
    page.presenter.choose("florida")
    said = words(page)
    assert "or by this amount, whichever is more" in said
    assert any("559.909" in text and "read before" in text for text in said)
    assert shop(book).profile == "neutral"


@pytest.mark.parametrize(
    ("profile", "tax", "labour", "without", "said"),
    [
        ("atlantis", "", "", (), "country profiles"),
        ("neutral", "twenty", "", (), "cannot be read"),
        ("neutral", "", "1.100", (), "two ways"),
        ("neutral", "", "", ("tea",), "could wait for"),
    ],
)
def test_what_cannot_be_read_changes_nothing(book, imke, profile, tax, labour, without, said):
    with pytest.raises(Refused, match=said):
        change_prices(book, imke, profile, tax, labour, without)
    assert shop(book).labour_rate == ""


def test_every_value_of_every_profile_is_told_in_words():
    for profile in profiles().values():
        told = told_words(profile)
        assert [title for title, _, _ in told][: len(TITLES)] == list(TITLES.values())
        assert all(value and source for _, value, source in told)
    assert len(BARRABLE) == 6


def test_a_refusal_is_said_on_the_page(page, book):
    page.form.show_answers({"labour_rate": "1.100"})
    page.keep.click()
    assert "two ways" in page.said.text()
