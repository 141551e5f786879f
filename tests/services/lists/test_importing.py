"""Lists taken in: a plan that keeps nothing, all or nothing, the same file twice, and an import that breaks off."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db import importing as waiting
from jobbook.db.audit import audit
from jobbook.services.lists import importing
from jobbook.services.lists.importing import Done, go_on, keep, unfinished
from jobbook.services.lists.leaving_out import write_left_out
from jobbook.services.lists.loading import every
from jobbook.services.office.finding import find
from jobbook.services.office.intake import Arrival, take_in
from tests.services.lists.lists_book import HASTE, VEHICLES, planned, taken_in, written


def named(one):
    return one.plate or one.vin if isinstance(one, Vehicle) else one.name


def records(book, kind):
    with book.store.read() as reading:
        return {named(one): one for one in every(reading, kind)}


def entries(book):
    with book.store.read() as reading:
        return reading.journal.head().size


class Stopping:
    """Somebody who presses Cancel when so much was reported."""

    def __init__(self, after=0):
        self.reports, self._after = [], after

    @property
    def cancelled(self):
        return len(self.reports) >= self._after

    def report(self, done, total):
        self.reports.append((done, total))

    def hold(self):
        self.held = True


def test_a_plan_says_what_would_become_of_each_row_and_keeps_nothing(there, tmp_path):
    before = entries(there.book)
    made = planned(there.book, "vehicles", written(tmp_path, VEHICLES))
    assert (made.counts, made.findings, len(made.rows)) == ({"new": 3}, (), 3)
    assert entries(there.book) == before


def test_vehicles_are_taken_in_with_their_owners_each_once(there, tmp_path):
    done = taken_in(there.book, there.jonas, "vehicles", written(tmp_path, VEHICLES, encoding="cp1252"))
    assert done == Done("list.csv", new=3)
    vehicles, customers = records(there.book, "vehicles"), records(there.book, "customers")
    assert set(customers) == {"Jörg Weißenfels", "Berit Ångström"}
    assert vehicles["ON-1"].customer_id == vehicles["KX-07-ALD"].customer_id == customers["Jörg Weißenfels"].id
    assert [one.plate for one in find(there.book, "654321").vehicles] == ["ML-44-TOR"]
    assert audit(there.book.store).findings == ()


def test_the_same_file_twice_changes_nothing(there, tmp_path):
    file = written(tmp_path, VEHICLES)
    taken_in(there.book, there.jonas, "vehicles", file)
    before = entries(there.book)
    assert taken_in(there.book, there.jonas, "vehicles", file) == Done("list.csv", same=3)
    assert entries(there.book) == before


def test_what_is_there_already_is_brought_up_to_date_and_not_doubled(there, tmp_path):
    estate = Vehicle(0, "A09VH2AT4KB204117", "KX-07-ALD", "Varnholt", "estate", "2019")
    take_in(there.book, there.jonas, Arrival(estate, Customer(0, "Jörg Weißenfels"), "128 410", ("It is down.",)))
    file = written(tmp_path, "VIN,Plate,Model,Year\nA09VH2AT4KB204117,NEW-1,,2020\n")
    assert taken_in(there.book, there.jonas, "vehicles", file) == Done("list.csv", changed=1)
    (kept,) = records(there.book, "vehicles").values()
    assert (kept.plate, kept.model, kept.year) == ("NEW-1", "estate", "2020")


def test_with_one_bad_row_nothing_is_kept_and_each_bad_row_is_named(there, tmp_path):
    file = written(tmp_path, VEHICLES + ";;;Nobody;\nXX0KSTLLE00000001;X-1;;;\nXX0KSTLLE00000001;X-2;;;\n")
    before, made = entries(there.book), planned(there.book, "vehicles", file)
    assert [finding.row for finding in made.findings] == [5, 7]
    with pytest.raises(Refused, match="something is wrong with 2 rows"):
        keep(there.book, there.jonas, made, pace=HASTE)
    assert entries(there.book) == before
    with there.book.store.read() as reading:
        assert waiting.names(reading) == ()


def test_whoever_says_so_leaves_the_bad_rows_out(there, tmp_path):
    file = written(tmp_path, VEHICLES + ";;;Nobody;\n")
    assert taken_in(there.book, there.jonas, "vehicles", file, good_rows=True) == Done("list.csv", new=3)
    with there.book.store.read() as reading:
        (begun,) = reading.journal.entries(kind="import-begun/1")
    assert begun.payload["left_out"] == 1


def test_who_may_not_keep_the_desk_takes_nothing_in(there, tmp_path):
    with pytest.raises(Refused, match="no permission to take in"):
        taken_in(there.book, there.bram, "vehicles", written(tmp_path, VEHICLES))
    assert records(there.book, "vehicles") == {}


def test_parts_are_known_by_their_numbers_afterwards(there, tmp_path):
    file = written(tmp_path, "Part number;Bezeichnung;Lieferant;Garantie\nAS-44.201;Luftfederbein;Quillhaven;24\n")
    taken_in(there.book, there.jonas, "parts", file)
    with there.book.store.read() as reading:
        strut = reading.parts.numbered("as44201")
        assert (strut.title, strut.supplier, strut.warranty_months) == ("Luftfederbein", "Quillhaven", "24")
        assert [part.id for part in reading.parts.page(text="luftf")] == [strut.id]
    assert audit(there.book.store).findings == ()


def test_how_columns_were_taken_is_remembered_for_the_same_headings(there, tmp_path):
    file = written(tmp_path, "VIN,Rufname\nXX0KSTLLE00000001,Camper\n")
    made = planned(there.book, "vehicles", file, Rufname="model")
    keep(there.book, there.jonas, made, pace=HASTE)
    assert planned(there.book, "vehicles", written(tmp_path, "VIN,Rufname\nX1,Van\n")).mapped == ("vin", "model")
    assert planned(there.book, "vehicles", written(tmp_path, "VIN,Rufname,x\nX1,Van,\n")).mapped == ("vin", "", "")


def test_others_get_their_turn_after_every_write_of_an_import(there, tmp_path, monkeypatch):
    monkeypatch.setattr(importing, "LAID_AT_ONCE", 20)
    rows = "VIN\n" + "".join(f"XX0KSTLLE{number:08}\n" for number in range(60))
    waits = []

    def a_turn(_seconds) -> None:
        with there.book.store.write(there.jonas.id) as tx:  # would wait in vain if the import still held the book
            (name,) = waiting.names(tx)
            waits.append(waiting.count(tx, name))

    keep(
        there.book, there.jonas, planned(there.book, "vehicles", written(tmp_path, rows)),
        pace=importing.Pace(pause=a_turn),
    )  # fmt: skip
    assert waits[:3] == [20, 40, 60]  # laid down
    assert waits[3:] == sorted(waits[3:], reverse=True)  # and taken in
    assert 0 < waits[-1] < waits[3] < 60


def test_an_import_that_broke_off_is_found_and_gone_on_with(there, tmp_path, monkeypatch):
    rows = "VIN,Owner\n" + "".join(f"XX0KSTLLE{number:08},Owner {number}\n" for number in range(60))

    pauses = []

    def broken(seconds) -> None:
        pauses.append(seconds)
        if len(pauses) > 1:  # the first one comes while the rows are laid down
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        keep(
            there.book, there.jonas, planned(there.book, "vehicles", written(tmp_path, rows)),
            pace=importing.Pace(pause=broken),
        )  # fmt: skip
    there.open_again()
    (left,) = unfinished(there.book)
    assert (left.file, left.rows, left.person) == ("list.csv", 60, there.jonas.id)
    assert 0 < left.waits < 60
    done = go_on(there.book, left, pace=HASTE)
    assert done.new == left.waits
    assert unfinished(there.book) == ()
    assert len(records(there.book, "vehicles")) == len(records(there.book, "customers")) == 60
    assert audit(there.book.store).findings == ()


def test_an_import_that_is_stopped_before_it_begins_leaves_nothing_to_go_on_with(there, tmp_path):
    made = planned(there.book, "vehicles", written(tmp_path, VEHICLES))
    before = entries(there.book)
    with pytest.raises(Refused, match="stopped before anything of it was kept"):
        keep(there.book, there.jonas, made, pace=HASTE, running=Stopping())
    assert (entries(there.book), unfinished(there.book)) == (before, ())


def test_rows_that_an_earlier_day_left_behind_are_cleared_away(there, tmp_path):
    with there.book.store.write("") as tx:
        waiting.lay_down(tx, "2020-01-01T08:00:00+00:00 aa", [(2, {"vin": "XX0"})])
    taken_in(there.book, there.jonas, "vehicles", written(tmp_path, VEHICLES))
    with there.book.store.read() as reading:
        assert waiting.names(reading) == ()


def test_what_others_kept_meanwhile_is_seen_by_the_rows_that_follow(there, tmp_path):
    made = planned(there.book, "vehicles", written(tmp_path, VEHICLES))
    estate = Vehicle(0, "A09VH2AT4KB204117", "KX-07-ALD", "Varnholt", "estate", "2019")
    other = there.another()
    take_in(other, there.jonas, Arrival(estate, Customer(0, "Jörg Weißenfels", phone="0170 1"), "1", ("Down.",)))
    assert keep(there.book, there.jonas, made, pace=HASTE) == Done("list.csv", new=2, same=1)
    assert len(records(there.book, "customers")) == 2


def test_how_far_it_is_is_reported_to_the_end(there, tmp_path):
    running = Stopping(after=10_000)
    rows = "VIN\n" + "".join(f"XX0KSTLLE{number:08}\n" for number in range(30))
    keep(there.book, there.jonas, planned(there.book, "vehicles", written(tmp_path, rows)), pace=HASTE, running=running)
    assert (10, 30) in running.reports
    assert running.held


def test_where_the_program_ends_meanwhile_the_import_rests_and_goes_on_later(there, tmp_path):
    rows = "VIN\n" + "".join(f"XX0KSTLLE{number:08}\n" for number in range(30))
    made = planned(there.book, "vehicles", written(tmp_path, rows))
    with pytest.raises(Refused, match="rests, and goes on when the book is opened next"):
        keep(there.book, there.jonas, made, pace=HASTE, running=Stopping(after=2))
    (left,) = unfinished(there.book)
    assert left.waits == 20
    assert go_on(there.book, left, pace=HASTE).new == 20


def test_a_kind_that_there_is_no_list_of_is_refused(there, tmp_path):
    with pytest.raises(Refused, match="There are customers, vehicles, parts"):
        planned(there.book, "engines", written(tmp_path, VEHICLES))


def test_bad_rows_go_to_a_file_where_they_are_mended_and_taken_in_with_their_columns_as_before(there, tmp_path):
    book, bad = there.book, tmp_path / "bad.csv"
    text = "Nr;Halter;FIN\n1;=Anna;A09VH2AT4KB204117\n2;Berit;1.2E+16\n3;Odo;\n"
    told = {"Nr": "plate", "FIN": "vin"}
    made = planned(book, "vehicles", written(tmp_path, text), **told)
    assert (len(made.rows), write_left_out(made, bad)) == (2, 1)
    keep(book, there.jonas, made, good_rows=True, pace=HASTE)
    with pytest.raises(Refused, match="is there already"):
        write_left_out(made, bad)
    lines = bad.read_text(encoding="utf-8-sig").splitlines()
    assert lines[0] == "Nr,Halter,FIN,What is wrong"
    assert lines[1].startswith("2,Berit,1.2E+16,FIN: “1.2E+16” is a VIN that a spreadsheet")
    bad.write_text(bad.read_text(encoding="utf-8-sig").replace("1.2E+16,", "XX0KSTLLE00654321,"), encoding="utf-8")
    mended = planned(book, "vehicles", bad)
    assert (mended.mapped, mended.counts, mended.findings) == (("plate", "owner", "vin", ""), {"new": 1}, ())
