"""Headings guessed and told, cells read, and a sentence for every row that cannot be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.lists.columns import CUSTOMERS, KINDS, PARTS, VEHICLES
from jobbook.core.lists.mapping import folded, guess, look_at_mapping, said
from jobbook.core.lists.rows import Row, doubled, guarded, read_row, unguarded

HEADINGS = ("VIN", "Plate", "Year", "Owner")


def read(cells, kind=VEHICLES, headings=HEADINGS):
    return read_row(kind, headings, guess(kind, headings), 7, cells)


def sentences(cells, kind=VEHICLES, headings=HEADINGS):
    row, found = read(cells, kind, headings)
    assert row is None
    return [finding.sentence for finding in found]


@pytest.mark.parametrize(
    ("kind", "headings", "mapped"),
    [
        (VEHICLES, ("FIN", "amtl. Kennzeichen", "Baujahr", "Farbe"), ("vin", "plate", "year", "")),
        (VEHICLES, ("Chassis number", "Registration", "Customer"), ("vin", "plate", "owner")),
        (CUSTOMERS, ("Vorname", "Nachname", "Straße", "PLZ", "Ort"), ("name", "name", *["address"] * 3)),
        (CUSTOMERS, ("Name", "E-Mail", "Mail"), ("name", "email", "")),
        (CUSTOMERS, ("Customer number", "Name"), ("elsewhere", "name")),
        (PARTS, ("Part no.", "Description", "Supplier's term"), ("number", "title", "warranty_months")),
    ],
)
def test_headings_are_guessed_and_numbers_of_other_books_are_not_taken_for_ours(kind, headings, mapped):
    assert guess(kind, headings) == mapped


@pytest.mark.parametrize("kind", KINDS)
def test_our_own_headings_mean_just_what_they_say(kind):
    for titles in ([one.title for one in KINDS[kind]], [one.name for one in KINDS[kind]]):
        assert guess(kind, titles) == tuple(one.name for one in KINDS[kind])


def test_somebody_may_say_what_a_column_holds_and_leave_one_out():
    start = guess(VEHICLES, HEADINGS)
    assert said(VEHICLES, HEADINGS, start, {"owner": "model", "year": "-"}) == ("vin", "plate", "", "model")
    assert said(VEHICLES, HEADINGS, start, {"YEAR": "Make"}) == ("vin", "plate", "make", "owner")


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"Colour": "model"}, "no column “Colour”"),
        ({"Year": "colour"}, "“colour” is nothing that vehicles have"),
        ({"Year": "plate"}, "“Plate”, “Year” cannot both be “Plate”"),
    ],
)
def test_what_cannot_be_meant_is_refused_by_name(told, words):
    with pytest.raises(Refused, match=words):
        said(VEHICLES, HEADINGS, guess(VEHICLES, HEADINGS), told)


def test_a_list_without_a_needed_column_says_which_one():
    with pytest.raises(Refused, match="no column of the list is taken for “Name”"):
        look_at_mapping(CUSTOMERS, ("phone",), ("Tel",))


def test_a_row_is_read_into_the_facts_that_are_filled_in():
    row, found = read(("a09-vh2at4kb204117", " kx 07  ald ", "2019", ""))
    assert found == []
    assert row == Row(7, {"vin": "A09VH2AT4KB204117", "plate": "kx 07 ald", "year": "2019"})


def test_columns_that_hold_one_fact_together_are_joined():
    row, _ = read(("Ottilie", "Brandvold", "Quay 4", "", "Quillhaven"), CUSTOMERS, ("First name", "Surname", *"A"))
    assert row is None
    headings = ("First name", "Surname", "Street", "Zip", "Town")
    row, _ = read(("Ottilie", "Brandvold", "Quay 4", "", "Quillhaven"), CUSTOMERS, headings)
    assert row.facts == {"name": "Ottilie Brandvold", "address": "Quay 4, Quillhaven"}


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        (("1,2345E+16", "", "", ""), "Row 7, “VIN”: “1,2345E+16” is a VIN that a spreadsheet took for a number"),
        (("XX0VRNHLT001234567", "", "", ""), "is no VIN"),
        (("A09VH2AT4KBO04117", "", "", ""), "is no VIN: character 12 is the letter O, which no VIN holds"),
        (("", "KX-1", "19", ""), "Row 7, “Year”: “19” is no year; write four digits."),
        (("", "KX-1", "٢٠١٩", ""), "is no year"),
        (("", "x" * 300, "", ""), "Row 7, “Plate”: is longer than 200 signs; shorten it."),
        (("", "", "2019", "Brandvold"), "Row 7: a vehicle needs its VIN or its plate"),
        (("", "KX-1", "", "", "left over"), "has 5 cells for 4 headings"),
    ],
)
def test_a_bad_row_says_where_what_and_what_to_do(cells, words):
    assert words in sentences(cells)[0]


def test_everything_that_is_wrong_with_a_row_is_said_at_once():
    assert len(sentences(("1E+5", "x" * 201, "x", ""))) == 3


@pytest.mark.parametrize(
    ("heading", "cell", "words"),
    [
        ("kind", "engine", "none of part, piece, seal"),
        ("warranty_months", "2 years", "no number of months"),
        ("warranty_months", "999", "no number of months"),
    ],
)
def test_a_part_says_its_kind_and_term_in_words_that_are_known(heading, cell, words):
    assert words in sentences(("A-1", "Strut", cell), PARTS, ("number", "title", heading))[0]


def test_rows_that_name_the_same_with_other_facts_stop_and_with_the_same_facts_do_not():
    one, two = {"vin": "A09VH2AT4KB204117"}, {"vin": "A09VH2AT4KB204117", "plate": "KX-1"}
    assert doubled(VEHICLES, [Row(2, one), Row(3, one)]) == []
    (found,) = doubled(VEHICLES, [Row(2, one), Row(3, two), Row(4, {"plate": "KX-2"})])
    assert found.sentence.startswith("Row 3: the VIN A09VH2AT4KB204117 stands in row 2 too")


@pytest.mark.parametrize("cell", ["=1+1", "+46 70", "-3", "@SUM(A1)", "\t=1"])
def test_no_written_cell_begins_like_a_formula_and_it_reads_back_as_it_was(cell):
    """Common practice against formulas in spreadsheets: a sign before the first one (the list is from memory)."""
    assert guarded(cell)[0] == "'"
    assert unguarded(guarded(cell)) == cell


@given(st.text())
def test_guarding_loses_nothing(cell):
    if not cell.startswith("'"):
        assert unguarded(guarded(cell)) == cell


@given(st.lists(st.text(), max_size=6), st.sampled_from(sorted(KINDS)))
def test_no_row_breaks_the_reading(cells, kind):
    headings = tuple(one.title for one in KINDS[kind])[:4]
    row, found = read_row(kind, headings, guess(kind, headings), 1, cells)
    assert (row is None) == bool(found)


def test_folding_leaves_letters_and_digits():
    assert folded("Straße-Nr. (Übung)") == "strassenruebung"
