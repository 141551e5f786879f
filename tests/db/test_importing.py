"""Rows that wait to be kept, and parts known by number, the same on both databases."""

from datetime import UTC, datetime

import pytest

from jobbook.core.errors import NotFound
from jobbook.core.record.journal import Draft
from jobbook.db import importing
from jobbook.db.audit import audit
from jobbook.services.clock import Pace, system_chance
from jobbook.services.lists.importing import keep
from jobbook.services.lists.planning import headings_of, plan
from jobbook.services.opened import OpenBook
from tests.db.building import PERSON, one_job, shop

NAME = "2026-11-25T08:00:00+00:00 ab"


def test_rows_wait_in_the_order_of_their_file_until_they_are_kept(either):
    with either.write(PERSON) as tx:
        importing.lay_down(tx, NAME, [(9, {"vin": "Ö9"}), (3, {"vin": "A3"}), (5, {})])
        importing.lay_down(tx, "another", [(1, {})])
    with either.read() as reading:
        assert importing.waiting(reading, NAME, 2) == [(3, {"vin": "A3"}), (5, {})]
        assert importing.count(reading, NAME) == 3
        assert importing.names(reading) == (NAME, "another")
    with either.write(PERSON) as tx:
        importing.done_up_to(tx, NAME, 5)
        assert importing.waiting(tx, NAME, 2) == [(9, {"vin": "Ö9"})]
        assert importing.drop(tx, NAME, 10) == 0
        assert not importing.is_left(tx, NAME)
        assert importing.is_left(tx, "another")


def test_waiting_rows_are_no_part_of_the_record(either):
    one_job(either)
    with either.write(PERSON) as tx:
        importing.lay_down(tx, NAME, [(2, {"name": "Ottilie"})])
    assert audit(either).findings == ()


def part(tx, number, title, **more):
    facts = {
        "part": tx.next_entry,
        "number": number,
        "title": title,
        "supplier": "Quillhaven",
        "kind": "part",
    } | more
    return tx.keep(Draft("part/1", f"part/{facts['part']}", facts)).number


def test_a_part_is_found_by_number_title_and_supplier_and_by_its_last_word(either):
    with either.write(PERSON) as tx:
        shop(tx)
        strut = part(tx, "AS-44.201", "Luftfederbein Größe 2")
        part(tx, "DR-1", "Dryer")
        part(tx, "AS-44.201", "Air strut", part=strut, warranty_months="24")
    with either.read() as reading:
        assert reading.parts.numbered("as 44 201").title == "Air strut"
        assert reading.parts.numbered("as 44") is None
        assert [one.number for one in reading.parts.page(text="quill")] == ["DR-1", "AS-44.201"]
        assert reading.parts.page(text="groesse") == []
        assert [one.id for one in reading.parts.page(after=strut + 1)] == [strut]
        assert reading.parts.get(strut).warranty_months == "24"
        with pytest.raises(NotFound):
            reading.parts.get(999)
    assert audit(either).findings == ()


def test_a_list_is_taken_in_on_both_databases(either, tmp_path):
    with either.write(PERSON) as tx:
        shop(tx)
    file = tmp_path / "list.csv"
    file.write_text("FIN;Kennzeichen;Halter\nA09VH2AT4KB204117;KX-1;Jörg Müller\nXX0KSTLLE00654321;ML-1;\n", "utf-8")
    book = OpenBook(either, lambda: datetime(2026, 11, 25, 8, tzinfo=UTC), system_chance)
    planned = plan(book, "vehicles", *headings_of(book, "vehicles", file))
    assert keep(book, None, planned, pace=Pace(pause=lambda _: None)).new == 2
    assert plan(book, "vehicles", *headings_of(book, "vehicles", file)).counts == {"same": 2}
    assert audit(either).findings == ()
