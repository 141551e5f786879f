"""Old paper jobs keyed in (nasty case 86 of the trade notes): marked so; what is missing is unknown, never nought."""

from dataclasses import replace
from datetime import date

import pytest

from jobbook.core.errors import Refused
from jobbook.core.record.old_papers import read_day
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.audit import audit
from jobbook.services.jobs import jobs
from jobbook.services.office import desk
from jobbook.services.office.paper_jobs import PaperJob, customer_words, key_in, known_vehicle
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.vehicle.customers import customers
from jobbook.services.vehicle.vehicles import vehicle
from tests.services.workshop import VIN

TODAY = date(2026, 11, 25)
OLD = PaperJob(
    day="14.05.2019",
    vehicle=Vehicle(0, "", "OD-31-RYE", "Ondry", "van"),
    customer=Customer(0, "Pell Marrow"),
    concern="Rear goes down over the weekend",
    number="1188",
    odometer="61 200",
    correction="Bellows RL renewed",
)
BARE = replace(OLD, customer=Customer(0, ""), number="", odometer="", correction="", day="2019")


def keyed(there, paper, who=None):
    key_in(there.book, who or there.jonas, paper)
    return jobs(there.book, text="OD-31-RYE").rows[0].number


def test_an_old_job_stands_on_its_day_released_and_says_that_it_comes_from_paper(at):
    there = at("shop")
    number = keyed(there, replace(OLD, done_by=there.bram.id))
    job = desk.get_job(there.book, number)
    assert (job.stage, job.opened_at[:10], job.released_at[:10]) == ("released", "2019-05-14", "2019-05-14")
    assert job.from_paper == "number 1188, 14 May 2019"
    sheet = job_sheet(there.book, number)
    assert sheet.cry == "Taken from paper, number 1188, 14 May 2019: what the paper does not say is unknown."
    assert sheet.stage_words == "from paper, number 1188, 14 May 2019"
    assert sheet.held == ""


def test_the_page_of_an_old_job_claims_nothing_that_nobody_wrote_down(at):
    there = at("shop")
    sheet = job_sheet(there.book, keyed(there, OLD))
    assert [word.text for word in sheet.state] == ["not known: taken from paper"]
    marks = {tab.key: tab.mark for tab in sheet.tabs}
    assert {marks[key] for key in ("permission", "parts", "work")} == {"query"}
    assert sheet.from_paper == "number 1188, 14 May 2019"


def test_done_by_and_entered_by_and_both_times_stay_apart_in_every_entry(at):
    there = at("shop")
    there.job = keyed(there, replace(OLD, done_by=there.bram.id))
    with there.book.store.read() as reading:
        entries = reading.journal.entries(job=there.job)
    assert {entry.kind for entry in entries} == {"job-opened/1", "concern/1", "odometer/1", "released/1"}
    assert {(entry.done_by, entry.entered_by) for entry in entries} == {(there.bram.id, there.jonas.id)}
    assert {(entry.done_at[:10], entry.entered_at[:10]) for entry in entries} == {("2019-05-14", "2026-11-25")}
    assert {entry.payload["noted"] for entry in entries} == {"paper"}
    assert {entry.facts["meaning"] for entry in entries} == {""}  # nobody signed anything


def test_what_the_paper_does_not_say_is_unknown_and_never_nought(at):
    there = at("shop")
    there.job = keyed(there, BARE)
    job = desk.get_job(there.book, there.job)
    assert (job.arrival, job.payer, job.parts_back, job.customer_id) == ("unknown", "unknown", "unknown", 0)
    assert (job.concerns[0].cause, job.concerns[0].confidence) == ("", "")
    assert job.opened_by == "unknown"
    shown = vehicle(there.book, job.vehicle_id)
    assert shown.odometers == ()
    assert there.journal("odometer-unknown/1")[0].payload["why"] == "not on the paper"
    assert job.from_paper == "2019"
    assert job.opened_at[:10] == "2019-12-31"  # the last day that it can mean; the words say no more than the paper
    facts = {fact.label: fact for fact in job_sheet(there.book, there.job).facts}
    assert facts["Odometer"].value == "not read yet in"


def test_a_known_vehicle_is_found_and_nothing_of_it_changes(at):
    there = at("taken in")
    before = vehicle(there.book, 1)
    by_vin = replace(OLD, vehicle=Vehicle(0, VIN.lower(), "OLD-1", "Other", "name"))
    by_plate = replace(OLD, vehicle=Vehicle(0, "", "kx07ald"), number="1201")
    for paper in (by_vin, by_plate):
        key_in(there.book, there.jonas, paper)
    after = vehicle(there.book, 1)
    assert after.vehicle == before.vehicle
    assert len(after.jobs) == 3
    assert after.odometers[0].value == 128410  # the newest reading is still the newest


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"day": "soon"}, "is no day of a paper"),
        ({"day": "31.02.2019"}, "There is no day"),
        ({"day": "2031"}, "cannot be the day"),
        ({"day": "1019"}, "cannot be the day"),
        ({"vehicle": Vehicle(0, "", " ")}, "the VIN or the plate"),
        ({"concern": " ", "correction": ""}, "what it was about"),
        ({"odometer": "many"}, "is not a whole number"),
    ],
)
def test_a_paper_that_says_too_little_or_cannot_be_read_is_not_kept(at, changed, said):
    there = at("shop")
    with pytest.raises(Refused, match=said):
        key_in(there.book, there.jonas, replace(OLD, **changed))
    assert jobs(there.book).rows == ()


def test_a_technician_without_the_desk_keys_no_papers_in(at):
    there = at("shop")
    with pytest.raises(Refused, match="has no permission"):
        key_in(there.book, there.bram, OLD)


def test_the_same_attempt_is_kept_once(at):
    there = at("shop")
    first = key_in(there.book, there.jonas, OLD, attempt="a-1")
    again = key_in(there.book, there.jonas, OLD, attempt="a-1")
    assert again.entry == first.entry
    assert len(jobs(there.book).rows) == 1


def test_a_book_with_papers_keyed_in_is_sound(at):
    there = at("shop")
    keyed(there, OLD)
    keyed(there, BARE)
    assert audit(there.book.store).findings == ()


@pytest.mark.parametrize(
    ("typed", "latest", "words"),
    [
        ("2019-05-14", date(2019, 5, 14), "14 May 2019"),
        ("4.5.2019", date(2019, 5, 4), "4 May 2019"),
        ("02.2020", date(2020, 2, 29), "Feb 2020"),
        ("2019-12", date(2019, 12, 31), "Dec 2019"),
        ("2019", date(2019, 12, 31), "2019"),
        ("2026", TODAY, "2026"),
    ],
)
def test_a_day_is_read_as_far_as_the_paper_has_it(typed, latest, words):
    found = read_day(typed, TODAY)
    assert (found.latest, found.words) == (latest, words)


def test_an_owner_who_is_named_on_a_paper_is_not_made_twice(at):
    there = at("taken in")
    known = PaperJob("2019", Vehicle(0, "", "KX-07-ALD"), Customer(0, "ansel  HARROW"), "Hangs on the left")
    before = len(customers(there.book))
    key_in(there.book, there.jonas, known)
    assert len(customers(there.book)) == before
    old = next(row for row in jobs(there.book, text="harrow").rows if row.stage == "released")
    assert old.customer == "Ansel Harrow"


def test_a_name_that_the_book_knows_is_said_before_another_is_made(at):
    there = at("taken in")
    car = known_vehicle(there.book, "", "kx 07 ald")
    assert car.id == known_vehicle(there.book, VIN, "").id
    assert known_vehicle(there.book, "", "") is None
    assert "one more visit of theirs" in customer_words(there.book, "Ansel Harrow", car)
    assert "bring them together" in customer_words(there.book, "Ansel Harrow", None)
    assert customer_words(there.book, "Ansel", car) == customer_words(there.book, " ", car) == ""
