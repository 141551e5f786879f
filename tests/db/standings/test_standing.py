"""Where things stand after each kind of entry, and what a correction or an undoing makes of it; on both databases."""

import pytest

from jobbook.core.errors import NotFound
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.parts import Piece
from jobbook.db.standings.standing import KINDS
from tests.db.building import PERSON, concern, customer, fact, one_job, shop, vehicle, whole_job


def test_a_whole_job_reads_back_as_it_was_kept(either):
    number = whole_job(either)
    with either.read() as reading:
        job = reading.jobs.get(number)
    assert (job.vehicle_id, job.customer_id, job.arrival, job.payer, job.promised) == (
        1, 1, "driven", "customer", "2026-11-28",
    )  # fmt: skip
    assert (job.condition, job.brought_by, job.opened_by) == ("Scratch at the rear", "", PERSON)
    assert [(c.number, c.words) for c in job.concerns] == [(1, "Hangs at the front left after a night")]


def test_every_kind_of_entry_has_been_kept_by_the_whole_job(book):
    whole_job(book)
    with book.read() as reading:
        assert {entry.kind for entry in reading.journal.entries()} == set(KINDS)


def test_stages_follow_the_work(either):
    number = one_job(either)

    def stage_after(kind, payload, **more):
        with either.write(PERSON) as tx:
            fact(tx, kind, number, payload, **more)
        with either.read() as reading:
            assert [row.number for row in reading.jobs.page(stage=reading.jobs.get(number).stage)] == [number]
            return reading.jobs.get(number).stage

    begin = {"method": "abc", "corner": "FL", "options": {}, "key": "k"}
    assert stage_after("begun/1", begin, act="b1") == "in work"
    assert stage_after("undone/1", {"act": "b1"}) == "arrived"
    assert stage_after("begun/1", begin, act="b2") == "in work"
    assert stage_after("released/1", {"restriction": "no motorway", "parts_back": "taken"}) == "released"
    with either.read() as reading:
        job, row = reading.jobs.get(number), reading.jobs.page()[0]
    assert (job.released_by, job.restriction, job.parts_back) == (PERSON, "no motorway", "taken")
    assert job.released_at == row.released_at != ""
    assert stage_after("reopened/1", {}) == "in work"


def test_a_corrected_release_speaks_in_its_place(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        wrong = fact(tx, "released/1", number, {"restriction": "", "parts_back": ""})
        fact(tx, "released/1", number, {"restriction": "no trailer"}, replaces=wrong.number, reason="left out")
    with either.read() as reading:
        assert reading.jobs.get(number).restriction == "no trailer"


def test_a_corrected_arrival_changes_what_was_said_and_never_the_stage(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        fact(tx, "begun/1", number, {"method": "abc", "corner": "FL", "options": {}, "key": "k"})
        facts = {"vehicle": 1, "customer": 1, "arrival": "recovered", "promised": "2026-11-30", "condition": ""}
        fact(tx, "job-opened/1", number, facts, replaces=5, reason="it came on a truck")
    with either.read() as reading:
        job = reading.jobs.get(number)
    assert (job.stage, job.arrival, job.promised) == ("in work", "recovered", "2026-11-30")


def test_a_concern_takes_its_cause_and_keeps_the_customers_words(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        concern(tx, number, cause="sleeve cracked", confidence="proved", correction="strut renewed")
    with either.read() as reading:
        only = reading.jobs.get(number).concerns[0]
    assert (only.words, only.cause) == ("Hangs at the front left after a night", "sleeve cracked")
    assert (only.confidence, only.correction) == ("proved", "strut renewed")


def test_a_correction_of_an_entry_that_no_longer_speaks_changes_nothing_that_stands(either):
    one_job(either)
    with either.write(PERSON) as tx:
        facts = {"vehicle": 1, "vin": "V", "plate": "NEW 1", "make": "Varnholt", "model": "estate", "customer": 1}
        tx.keep(Draft("vehicle/1", "vehicle/1", facts))
        tx.keep(Draft("vehicle/1", "vehicle/1", facts | {"plate": "OLD 1"}, replaces=4, reason="misread then"))
    with either.read() as reading:
        assert reading.vehicles.get(1).plate == "NEW 1"


def test_a_correction_of_the_entry_that_speaks_is_what_stands(either):
    one_job(either)
    with either.write(PERSON) as tx:
        facts = {"vehicle": 1, "vin": "V", "plate": "AB-12 OD", "make": "Varnholt", "model": "estate", "customer": 1}
        tx.keep(Draft("vehicle/1", "vehicle/1", facts, replaces=4, reason="misread"))
    with either.read() as reading:
        assert reading.vehicles.get(1).plate == "AB-12 OD"
        assert [v.id for v in reading.vehicles.by_plate("AB-12 OD")] == [1]
        assert reading.vehicles.by_plate("AB-12 CD") == []


def test_a_piece_keeps_its_name_and_state_when_its_issue_is_corrected(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        wrong = fact(tx, "issued/1", number, {"serves": "strut@FL", "title": "Strut", "serial": "S1", "kind": "part"})
        fact(tx, "piece-state/1", number, {"piece": str(wrong.number), "state": "fitted", "reason": ""})
        facts = {"serves": "strut@FL", "title": "Strut", "serial": "S7", "kind": "part"}
        right = fact(tx, "issued/1", number, facts, replaces=wrong.number, reason="misread")
    with either.read() as reading:
        assert reading.pieces.of_job(number) == [
            Piece(
                id=str(wrong.number), job=number, serves="strut@FL", title="Strut", serial="S7", kind="part",
                state="fitted", issued_at=right.done_at, issued_by=PERSON, entry=right.number,
            )
        ]  # fmt: skip


def test_reminders_are_open_until_they_are_closed_with_an_outcome(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        later = fact(tx, "reminder/1", number, {"what": "battery", "due_on": "2027-01-31"})
        sooner = fact(tx, "reminder/1", number, {"what": "re-torque", "due_on": "2026-12-09", "due_at": "100 km"})
    with either.read() as reading:
        assert [(r.entry, r.what, r.due_at) for r in reading.reminders.open()] == [
            (sooner.number, "re-torque", "100 km"), (later.number, "battery", ""),
        ]  # fmt: skip
    with either.write(PERSON) as tx:
        fact(tx, "reminder-closed/1", number, {"reminder": sooner.number, "outcome": "came, all tight"})
    with either.read() as reading:
        assert [r.what for r in reading.reminders.open()] == ["battery"]
        assert [r.outcome for r in reading.reminders.of_job(number)] == ["", "came, all tight"]


def test_the_newest_figure_under_a_key_is_in_force(either):
    with either.write(PERSON) as tx:
        shop(tx)
        for edition in ("2019", "2024"):
            facts = {"specification": tx.next_entry, "variant": "v", "key": "bolt", "kind": "torque"}
            facts |= {"title": "Bolt", "text": "50 N·m, +90°", "stages": ["50 N·m", "+90°"], "edition": edition}
            tx.keep(Draft("specification/1", "variant/v", facts | {"document": "sheet 12"}))
    with either.read() as reading:
        (figure,) = reading.specifications.for_variant("v")
        assert reading.specifications.variants() == ["v"]
        assert reading.specifications.get(figure.id) == figure
    assert (figure.edition, figure.stages, figure.read_by) == ("2024", ("50 N·m", "+90°"), PERSON)


def test_tools_are_kept_for_ever_with_their_state(either):
    with either.write(PERSON) as tx:
        shop(tx)
        for status in ("in use", "scrapped"):
            tx.keep(
                Draft("tool/1", "tool/W1", {"number": "W1", "kind": "click wrench", "high": "200", "status": status})
            )
    with either.read() as reading:
        assert [tool.status for tool in reading.tools.all()] == ["scrapped"]
        assert reading.tools.get("W1").high == "200"


def test_people_have_permissions_and_ways_to_sign(either):
    with either.write(PERSON) as tx:
        shop(tx)
        tx.set_credential(PERSON, pin_hash="hash 1")
    with either.write(PERSON) as tx:
        tx.set_credential(PERSON, pin_hash="hash 2", badge_hash="badge 1")
    with either.read() as reading:
        person = reading.people.get(PERSON)
        assert (person.name, person.has_pin, person.has_badge) == ("Bram Ferro", True, True)
        assert person.may("work")
        assert not person.may("release")
        assert reading.credentials.pin_hash(PERSON) == "hash 2"
        assert reading.credentials.badge_hash(PERSON) == "badge 1"
        assert reading.credentials.by_badge("badge 1") == PERSON
        assert reading.credentials.by_badge("hash 2") is None
        assert all("hash" not in entry.body for entry in reading.journal.entries(kind="credential/1"))
        assert reading.rows.value("SELECT COUNT(*) FROM sealed WHERE value = 'hash 1'") == 0


def test_the_shop_is_as_it_was_last_said(either):
    with pytest.raises(NotFound, match="workshop"), either.read() as reading:
        reading.shop()
    with either.write(PERSON) as tx:
        shop(tx)
        tx.keep(Draft("shop/1", "shop", {"name": "Saltmarsh Lane Suspension", "address": "Saltmarsh Lane 1"}))
    with either.read() as reading:
        kept = reading.shop()
    assert (kept.name, kept.address, kept.phone, kept.book_id) == (
        "Saltmarsh Lane Suspension", "Saltmarsh Lane 1", "", either.book_id,
    )  # fmt: skip


def test_customers_are_read_with_what_was_sealed(either):
    with either.write(PERSON) as tx:
        number = customer(tx)
    with either.read() as reading:
        kept = reading.customers.get(number)
        assert (kept.name, kept.address, kept.phone, kept.email) == ("Ottilie Brandvold", "Quay 4", "0700 12 34", "")
        assert all("Ottilie" not in entry.body for entry in reading.journal.entries())


def test_numbers_are_dense(either):
    with either.write(PERSON) as tx:
        owner = customer(tx)
        assert [vehicle(tx, owner, vin=f"V{n}") for n in range(3)] == [1, 2, 3]
        assert (tx.next_customer_id(), tx.next_job_number()) == (2, 1)


@pytest.mark.parametrize("get", [
    lambda b: b.jobs.get(9), lambda b: b.vehicles.get(9), lambda b: b.customers.get(9), lambda b: b.people.get("x"),
    lambda b: b.tools.get("x"), lambda b: b.specifications.get(9), lambda b: b.methods.get("x"),
    lambda b: b.papers.get("x"), lambda b: b.papers.bytes("x"), lambda b: b.journal.get(9),
])  # fmt: skip
def test_what_is_not_there_is_said_to_be_not_there(get, either):
    with either.read() as reading, pytest.raises(NotFound):
        get(reading)
