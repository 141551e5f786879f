"""`jobbook import` and `jobbook export`: the contract of names, exit statuses and sentences."""

import json
from shutil import copytree

import pytest

from jobbook.core.people import Shop
from jobbook.services.opened import open_book, start_book
from tests.cli.test_commands import jobbook, refused

GOOD = "VIN,Plate,Owner\nA09VH2AT4KB204117,KX-1,Berit Ångström\nXX0KSTLLE00654321,ML-1,\n"
BAD = GOOD + ",,Nobody\n1.2E+16,Z-1,\n"


@pytest.fixture(scope="module")
def begun(tmp_path_factory):
    place = tmp_path_factory.mktemp("lists") / "book"
    book, _ = start_book(place, Shop("Saltmarsh Lane Suspension"), "Imke Tolland", "2468")
    book.close()
    return place


@pytest.fixture
def book(begun, tmp_path):
    return copytree(begun, tmp_path / "book")


def listed(tmp_path, text):
    file = tmp_path / "list.csv"
    file.write_text(text, encoding="utf-8")
    return file


def entries(book):
    opened = open_book(book)
    with opened.store.read() as reading:
        size = reading.journal.head().size
    opened.close()
    return size


def test_a_list_is_taken_in_and_told_of(book, tmp_path):
    done = jobbook("import", book, "vehicles", listed(tmp_path, GOOD))
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.splitlines()[-1] == "Kept: 2 new, 0 changed, 0 as they were."
    assert "“VIN” is VIN" in done.stdout
    again = jobbook("import", book, "vehicles", listed(tmp_path, GOOD), "--json")
    told = json.loads(again.stdout)
    assert (told["new"], told["changed"], told["same"], told["findings"], told["kept"]) == (0, 0, 2, [], True)


def test_a_dry_run_keeps_nothing(book, tmp_path):
    before = entries(book)
    done = jobbook("import", book, "vehicles", listed(tmp_path, GOOD), "--dry-run")
    assert done.exit_code == 0
    assert "Nothing was kept, as asked. It would be 2 new" in done.stdout
    assert entries(book) == before


def test_every_bad_row_is_named_and_nothing_is_half_done(book, tmp_path):
    before = entries(book)
    done = jobbook("import", book, "vehicles", listed(tmp_path, BAD))
    assert done.exit_code == 1
    assert "Row 4: a vehicle needs its VIN or its plate" in done.stdout
    assert "Row 5, “VIN”: “1.2E+16” is a VIN that a spreadsheet took for a number" in done.stdout
    assert done.stdout.splitlines()[-1].startswith("Nothing was kept, because of 2 rows.")
    assert entries(book) == before
    told = json.loads(jobbook("import", book, "vehicles", listed(tmp_path, BAD), "--json").stdout)
    assert [finding["row"] for finding in told["findings"]] == [4, 5]
    assert told["kept"] is False


def test_good_rows_alone_are_taken_in_where_that_is_said(book, tmp_path):
    done = jobbook("import", book, "vehicles", listed(tmp_path, BAD), "--good-rows", "--by", "it")
    assert done.exit_code == 0
    assert done.stdout.splitlines()[-1] == "Kept: 2 new, 0 changed, 0 as they were, 2 left out."


def test_a_column_may_be_named_by_hand(book, tmp_path):
    file = listed(tmp_path, "Who,Ring\nOttilie Brandvold,0700 12\n")
    assert "no column of the list is taken for “Name”" in refused("import", book, "customers", file)
    assert jobbook("import", book, "customers", file, "--map", "Who=name", "--map", "Ring=phone").exit_code == 0
    told = json.loads(jobbook("import", book, "customers", file, "--json").stdout)
    assert told["columns"] == {"Who": "name", "Ring": "phone"}


@pytest.mark.parametrize("kind", ["customers", "vehicles", "parts"])
@pytest.mark.parametrize("ending", ["csv", "xlsx", "json"])
def test_each_list_is_written_in_each_form(book, tmp_path, kind, ending):
    jobbook("import", book, "vehicles", listed(tmp_path, GOOD))
    out = tmp_path / f"out.{ending}"
    done = jobbook("export", book, kind, out, "--json")
    assert done.exit_code == 0
    assert json.loads(done.stdout)["rows"] == {"customers": 1, "vehicles": 2, "parts": 0}[kind]
    assert out.stat().st_size > 0


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("import", "engines", "list.csv"), "There is no list of “engines”"),
        (("import", "vehicles", "none.csv"), "is no file that can be read"),
        (("export", "engines", "out.csv"), "There is no list of “engines”"),
        (("export", "vehicles", "out.pdf"), "must end in"),
        (("export", "vehicles", "no/such/out.csv"), "no/such"),
    ],
)
def test_what_cannot_be_done_is_one_sentence(book, tmp_path, words, sentence):
    listed(tmp_path, GOOD)
    command, kind, file = words
    assert sentence in refused(command, book, kind, tmp_path / file)


def test_a_mapping_without_a_sign_of_equality_is_a_mistake_of_use(book, tmp_path):
    done = jobbook("import", book, "vehicles", listed(tmp_path, GOOD), "--map", "VIN")
    assert done.exit_code == 2
    assert "HEADING=FACT" in done.stderr
