"""Finding by what was typed, the same on both databases."""

import pytest

from jobbook.core.record.journal import Draft
from jobbook.db.audit import audit
from jobbook.db.rows import Rows
from jobbook.db.search import fold, forget, vehicle_words, words
from tests.db.building import PERSON, customer, fact, job, shop, vehicle


def filled(store):
    with store.write(PERSON) as tx:
        shop(tx)
        for name, vin, plate, said in (
            ("Jörg Weißenfels", "XX0VRNHLT00123456", "AB-12 CD", "Hangs at the front left"),
            ("Maud Ångström", "XX0KSTLLE00654321", "Ö-77 ß", "Compressor runs and runs"),
            ("Ottilie Weber", "XX0VRNHLT00777777", "", "Rear is low; 100% sure"),
        ):
            owner = customer(tx, name, phone="+46 (70) 123-45")
            job(tx, vehicle(tx, owner, vin=vin, plate=plate), owner, words=said)
    return store


@pytest.fixture(scope="module")
def three(shared):
    return filled(shared)


@pytest.mark.parametrize(
    ("typed", "numbers"),
    [
        ("", [3, 2, 1]),
        ("  ,;  ", [3, 2, 1]),
        ("weissen", [1]),
        ("WEIß", [1]),
        ("jorg", [1]),
        ("angstrom", [2]),
        ("we", [3, 1]),
        ("we ott", [3]),
        ("xx0vrnhlt00123456", [1]),
        ("00123456", [1]),
        ("123456", [1]),
        ("ab12cd", [1]),
        ("AB-12 CD", [1]),
        ("oe77", [2]),
        ("joerg", [1]),
        ("JÖRG", [1]),
        ("aangström", [2]),
        ("weissenfels joerg", [1]),
        ("o77ss", [2]),
        ("compr", [2]),
        ("2", [2]),
        ("varnholt", [3, 2, 1]),
        ("100%", [3]),
        ("%", [3, 2, 1]),
        ("_", [3, 2, 1]),
        ("' OR 1=1 --", []),
        ('"weber" NOT', []),
        ("nobody", []),
        ("\U0010ffff", [3, 2, 1]),
    ],
)
def test_jobs_are_found_by_every_typed_word(typed, numbers, three):
    with three.read() as reading:
        assert [row.number for row in reading.jobs.page(text=typed)] == numbers


def test_vehicles_are_found_by_their_own_words_and_their_customers(three):
    with three.read() as reading:
        assert [v.id for v in reading.vehicles.page(text="777777")] == [3]
        assert [v.id for v in reading.vehicles.page(text="jörg")] == [1]


def test_customers_are_found_by_name_and_telephone(three):
    with three.read() as reading:
        assert [c.name for c in reading.customers.page(text="ott")] == ["Ottilie Weber"]
        assert len(reading.customers.page(text="4670123")) == 3


def test_a_name_kept_with_two_letters_is_found_by_the_umlaut(either):
    with either.write(PERSON) as tx:
        shop(tx)
        customer(tx, "Joerg Mueller")
    with either.read() as reading:
        assert [c.name for c in reading.customers.page(text="Jörg Müller")] == ["Joerg Mueller"]
        assert reading.customers.page(text="Jürg Müller") == []


def test_a_piece_is_found_by_part_number_serial_and_batch_until_a_correction_says_otherwise(either):
    with either.write(PERSON) as tx:
        shop(tx)
        owner = customer(tx)
        number = job(tx, vehicle(tx, owner), owner)
        told = {
            "serves": "strut@FL",
            "title": "Air strut",
            "number": "AS-44.201",
            "serial": "SN 00817",
            "batch": "Ö7-B",
        }
        first = fact(tx, "issued/1", number, told)
        fact(tx, "issued/1", number, told | {"number": "AS-44.300", "serial": "", "batch": ""})
    with either.read() as reading:
        assert [piece.serial for piece in reading.pieces.page("as44201")] == ["SN 00817"]
        assert [piece.serial for piece in reading.pieces.page("AS-44.2")] == ["SN 00817"]
        assert [piece.number for piece in reading.pieces.page("as-44")] == ["AS-44.300", "AS-44.201"]
        assert [piece.serial for piece in reading.pieces.numbered("sn-00817")] == ["SN 00817"]
        assert [piece.serial for piece in reading.pieces.page("oe7b")] == ["SN 00817"]
        assert reading.pieces.numbered("SN-0081") == []
    with either.write(PERSON) as tx:
        fact(tx, "issued/1", number, told | {"serial": "SN 00871"}, replaces=first.number, reason="digits swapped")
    with either.read() as reading:
        assert reading.pieces.page("00817") == []
        assert [piece.id for piece in reading.pieces.page("00871")] == [str(first.number)]
    assert audit(either).findings == ()


def test_a_plate_that_changed_still_leads_to_the_vehicle_that_bore_it(either):
    filled(either)
    with either.write(PERSON) as tx:
        facts = {"vehicle": 1, "vin": "XX0VRNHLT00123456", "plate": "ZZ 9", "make": "Varnholt", "model": "estate"}
        tx.keep(Draft("vehicle/1", "vehicle/1", facts | {"customer": 1}))
    with either.read() as reading:
        assert [row.number for row in reading.jobs.page(text="ab12cd")] == [1]
        assert [row.number for row in reading.jobs.page(text="zz9")] == [1]


@pytest.mark.parametrize(
    ("text", "folded"),
    [("Straße", "strasse"), ("ÅNGSTRÖM", "angstrom"), ("Øre", "ore"), ("ﬁx", "fix"), ("İ", "i"), ("ŁÓDŹ", "lodz")],
)
def test_folding_takes_accents_away(text, folded):
    assert fold(text) == folded


def test_words_are_letters_and_digits_each_once():
    assert words("low, low - 100% LÖW") == ["low", "100"]


def test_a_vehicle_without_vin_or_plate_has_no_empty_word():
    assert vehicle_words("", "", "Ondry", "") == {"ondry"}


def test_a_vehicle_is_forgotten_by_its_own_words_and_not_by_reading_those_of_all(book, monkeypatch):
    """With ten thousands of vehicles, reading the words of all of them took each one longer than everything else."""
    said = []
    monkeypatch.setattr(Rows, "run", lambda rows, sql, **values: said.append((sql, values)))
    with book.read() as reading:
        forget(reading.rows, "vehicle", 7, "")
        forget(reading.rows, "vehicle", 7)
        for sql, values in said:
            plan = reading.rows.all(f"EXPLAIN QUERY PLAN {sql}", **values)
            assert all("subject=?" in row["detail"] for row in plan if row["detail"].startswith("SEARCH"))
