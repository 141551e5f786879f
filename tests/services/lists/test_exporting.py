"""Lists written, and read again by the same program, by a spreadsheet's reader and by plain JSON."""

import csv
import json

import pytest
from openpyxl import load_workbook

from jobbook.core.errors import Refused
from jobbook.core.lists.columns import KINDS
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.parts import KnownPart
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.lists.exporting import export
from jobbook.services.office.intake import Arrival, take_in
from tests.services.lists.lists_book import planned, taken_in, written

STRANGE = "=HYPERLINK(1) Müller; \"Ö\", 'x'"


@pytest.fixture
def full(there, tmp_path):
    estate = Vehicle(0, "A09VH2AT4KB204117", "+KX-07", "Varnholt", "=estate", "2019", air="front")
    owner = Customer(0, STRANGE, "11 Ropewalk\nQuillhaven", "+46 (70) 123", "-x@example.org")
    take_in(there.book, there.jonas, Arrival(estate, owner, "128 410", ("It is down.",)))
    taken_in(there.book, there.jonas, "parts", written(tmp_path, "Part number,Title\n00815,@strut\n"))
    return there


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_what_was_written_is_read_again_as_nothing_new(full, tmp_path, kind, ending):
    written_list = export(full.book, full.jonas, kind, tmp_path / f"out.{ending}")
    assert written_list.rows == 1
    assert planned(full.book, kind, written_list.file).counts == {"same": 1}


def test_no_cell_of_a_written_list_is_taken_for_a_formula(full, tmp_path):
    with export(full.book, full.jonas, "customers", tmp_path / "out.csv").file.open(
        encoding="utf-8-sig", newline=""
    ) as f:
        (row,) = list(csv.reader(f))[1:]
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row)
    book = load_workbook(export(full.book, full.jonas, "customers", tmp_path / "out.xlsx").file)
    assert {cell.data_type for row in book.active.iter_rows() for cell in row} <= {"s", "inlineStr", "n"}
    assert [cell.value for cell in book.active[2]][1] == STRANGE


def test_a_written_workbook_keeps_leading_noughts(full, tmp_path):
    book = load_workbook(export(full.book, full.jonas, "parts", tmp_path / "out.xlsx").file)
    assert book.active["A2"].value == "00815"


def test_json_holds_each_row_by_the_names_of_its_facts(full, tmp_path):
    told = json.loads(export(full.book, full.jonas, "vehicles", tmp_path / "out.json").file.read_text("utf-8"))
    assert told["list"] == "vehicles"
    assert told["rows"][0] | {"vin": "A09VH2AT4KB204117", "owner": STRANGE, "air": "front"} == told["rows"][0]


def test_whoever_was_forgotten_is_left_out_and_counted(full, tmp_path):
    with full.book.store.write(full.imke.id) as tx:
        name = tx.journal.entries(kind="customer/1")[0].payload["name"]
        tx.keep(Draft("erased/1", "book", {"commitments": [name], "reason": "asked for"}, reason="asked for"))
    done = export(full.book, full.jonas, "customers", tmp_path / "out.json")
    assert (done.rows, done.erased) == (0, 1)
    told = json.loads(export(full.book, full.jonas, "vehicles", tmp_path / "vehicles.json").file.read_text("utf-8"))
    assert (told["rows"][0]["owner"], told["rows"][0]["owner_here"]) == ("", "")


@pytest.mark.parametrize(("name", "words"), [("out.pdf", "must end in .csv, .xlsx, .json"), ("out", "must end in")])
def test_a_form_that_there_is_none_of_is_refused(full, tmp_path, name, words):
    with pytest.raises(Refused, match=words):
        export(full.book, full.jonas, "parts", tmp_path / name)


def test_nothing_is_written_over_and_nothing_is_left_half_written(full, tmp_path):
    there = tmp_path / "out.csv"
    there.write_text("mine")
    with pytest.raises(Refused, match="is there already"):
        export(full.book, full.jonas, "parts", there)
    assert there.read_text() == "mine"

    class Stopped:
        cancelled = True

    with pytest.raises(Refused, match="stopped; no file was written"):
        export(full.book, full.jonas, "parts", tmp_path / "other.csv", Stopped())
    assert [file.name for file in tmp_path.glob("other*")] == []


def test_who_may_not_keep_the_desk_writes_no_list(full, tmp_path):
    with pytest.raises(Refused, match="no permission"):
        export(full.book, full.bram, "customers", tmp_path / "out.csv")
    assert not (tmp_path / "out.csv").exists()


def test_a_part_record_has_a_column_for_each_of_its_facts():
    assert {one.name for one in KINDS["parts"]} == set(vars(KnownPart(1, "", ""))) - {"id"}
