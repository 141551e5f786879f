"""Entries kept on the wrong job: moved by a linked correction, shown by both jobs, judged by the rules of the other."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import NotFound, Refused
from jobbook.core.jobs import FaultCode
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.core.work.model import Act
from jobbook.db.audit import audit
from jobbook.services import work
from jobbook.services.job import moving
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.papers.gathered import gather
from jobbook.services.papers.shared import corrections
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.sheet.sheets import Choice
from tests.services.workshop import ARRIVAL, begin, taken_in

WHY = "The wrong vehicle was open on the shared screen."
OTHER = replace(ARRIVAL, vehicle=Vehicle(0, "", "MR-52-TEN", "Varnholt", "estate", air="front"), odometer="74 215")
OTHER = replace(OTHER, customer=Customer(0, "Wilma Teasel"), heights={})


@pytest.fixture
def two(tmp_path):
    """Two vehicles in the shop; heights, a test and a code of the second were kept on the first."""
    there = begin(tmp_path / "book")
    taken_in(there)
    there.other = take_in(there.book, there.jonas, OTHER)
    there.clock.on(timedelta(minutes=5))
    measure = Choice("main", "Kept", "Enter", Act("measure", what="heights", readings=(("FL", "381"),), how="SR-01"))
    work.keep(there.book, there.bram, there.job, measure, {})
    there.at = there.clock.now.isoformat()
    desk.add_test(there.book, there.bram, there.job, "Soap test at normal height", "done", "dry")
    desk.add_fault_code(
        there.book, there.bram, there.job, FaultCode("Level control", "C1A2B", "", "stored", "before", there.at)
    )
    there.clock.on(timedelta(minutes=5))
    yield there
    there.close()


def move_all(there, signer, to=None, reason=WHY):
    acts = [one.act for one in moving.moves(there.book, there.job)[0] if "arrive" not in one.words]
    return moving.move(there.book, signer, there.job, acts[:3], to or there.other, reason)


def test_they_count_in_the_other_job_with_their_doer_and_hour_and_here_no_more(two):
    move_all(two, two.bram)
    assert desk.tests(two.book, two.job) == () == desk.fault_codes(two.book, two.job)
    (test,) = desk.tests(two.book, two.other)
    assert (test.name, test.by) == ("Soap test at normal height", two.bram.id)
    assert desk.fault_codes(two.book, two.other)[0].code == "C1A2B"
    sheet = job_sheet(two.book, two.other, None, two.bram.id)
    assert [staff.before for staff in sheet.staffs if staff.corner == "FL"] == ["381"]
    (waits,) = sheet.unsigned
    assert (waits.by, waits.at) == (two.bram.name, two.at)
    work.sign(two.book, two.bram, two.other, [waits.act_id])
    assert audit(two.book.store).findings == ()


def test_both_jobs_and_their_papers_show_it(two):
    move_all(two, two.bram)
    here, there = moving.moves(two.book, two.job)[1], moving.moves(two.book, two.other)[1]
    assert [(m.here, m.other) for m in here] == [(False, two.other)] * 3
    assert [(m.here, m.other) for m in there] == [(True, two.job)] * 3
    assert {m.reason for m in (*here, *there)} == {WHY}
    with two.book.store.read() as reading:
        told = corrections(gather(reading, two.other))
    assert {(c.was, c.now) for c in told} == {(f"on job {two.job}", f"on job {two.other}")}


def test_another_persons_entries_are_moved_by_somebody_who_may_allow(two):
    with pytest.raises(Refused, match="no permission to allow"):
        move_all(two, two.nadia)
    move_all(two, two.imke)
    assert len(moving.moves(two.book, two.other)[1]) == 3
    assert desk.tests(two.book, two.other)[0].by == two.bram.id


@pytest.mark.parametrize(("to", "reason", "sentence"), [(0, " ", "say how it came there"), (1, WHY, "is job 1 itself")])
def test_a_move_needs_its_reason_and_another_job(two, to, reason, sentence):
    with pytest.raises(Refused, match=sentence):
        move_all(two, two.bram, to, reason)
    with pytest.raises(NotFound):
        move_all(two, two.bram, 99)
    assert moving.moves(two.book, two.job)[1] == ()


def test_nothing_is_moved_twice(two):
    acts = [one.act for one in moving.moves(two.book, two.job)[0]][:1]
    moving.move(two.book, two.bram, two.job, acts, two.other, WHY)
    with pytest.raises(Refused, match="not there any more"):
        moving.move(two.book, two.bram, two.job, acts, two.other, WHY)


def test_the_rules_of_the_other_job_judge_what_comes(at, tmp_path):
    there = at("put on")
    other = take_in(there.book, there.jonas, OTHER)
    acts = [one for one in moving.moves(there.book, there.job)[0] if one.words.startswith("loosen")]
    with pytest.raises(Refused, match=f"job {other} cannot take"):
        moving.move(there.book, there.bram, there.job, [acts[0].act], other, WHY)
    assert moving.moves(there.book, other)[1] == ()


def test_what_belongs_to_the_job_itself_and_what_holds_pieces_is_not_offered(at):
    there = at("done")
    words = [one.words for one in moving.moves(there.book, there.job)[0]]
    assert words
    assert not [one for one in words if one.startswith(("begin", "arrive", "start strut_lower_bolt"))]
