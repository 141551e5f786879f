"""A job passed from one technician to another half-way: what is open goes along, and is read before the first act."""

import pytest

from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.job.release import release
from jobbook.services.sheet.jobsheet import job_sheet

NOTE = "Strut hangs in, both joints by hand. New link lies on the bench."


@pytest.fixture
def at_hand_tight(at):
    """The strut is in, its joints started by hand, nothing tightened yet."""
    return at("lower bolt")


def passing(there):
    return job_sheet(there.book, there.job).passing


def test_what_is_loose_goes_along_and_the_note_is_demanded(at_hand_tight):
    there = at_hand_tight
    with pytest.raises(Refused, match="what the next person must know"):
        work.pass_on(there.book, there.bram, there.job, " ", there.nadia.id)
    work.pass_on(there.book, there.bram, there.job, NOTE, there.nadia.id)
    told = passing(there)
    assert (told.by, told.to, told.note) == (there.bram.name, there.nadia.name, NOTE)
    assert told.open == tuple(end.sentence for end in there.sheet().loose_now)
    assert any("hand" in sentence for sentence in told.open)


def test_nobody_works_past_a_note_that_nobody_has_read(at_hand_tight):
    there = at_hand_tight
    work.pass_on(there.book, there.bram, there.job, NOTE, there.nadia.id)
    with pytest.raises(Refused, match="nobody has taken it on yet"):
        there.do(by=there.nadia)
    with pytest.raises(Refused, match="nobody has taken it on yet"):
        release(there.book, there.imke, there.job, "128 420", "km", let_go_reason="It must go")
    work.take_on(there.book, there.nadia, there.job)
    assert passing(there) is None
    there.do(by=there.nadia)


def test_a_joint_begun_by_one_and_tightened_by_the_other_shows_both(at_hand_tight):
    there = at_hand_tight
    work.pass_on(there.book, there.bram, there.job, NOTE)
    work.take_on(there.book, there.nadia, there.job)
    there.do(by=there.nadia)
    doers = {
        (act["do"], act.get("on")): entry.facts["done_by"]
        for entry in there.journal("act/1")
        for act in [entry.payload["act"]]
    }
    assert doers["start", "strut_lower_bolt@FL"] == there.bram.id
    assert doers["tighten", "strut_lower_bolt@FL"] == there.nadia.id


def test_a_job_is_passed_only_to_somebody_else_who_works_on_vehicles(at_hand_tight):
    there = at_hand_tight
    with pytest.raises(Refused, match="does not do work"):
        work.pass_on(there.book, there.bram, there.job, NOTE, there.jonas.id)
    with pytest.raises(Refused, match="another person"):
        work.pass_on(there.book, there.bram, there.job, NOTE, there.bram.id)
    assert passing(there) is None


def test_it_is_passed_on_once_and_taken_on_once(at_hand_tight):
    there = at_hand_tight
    work.pass_on(there.book, there.bram, there.job, NOTE)
    with pytest.raises(Refused, match="nobody has taken it on yet"):
        work.pass_on(there.book, there.bram, there.job, NOTE)
    work.take_on(there.book, there.bram, there.job)  # nobody came: whoever passed it on takes it back
    with pytest.raises(Refused, match="taken on already"):
        work.take_on(there.book, there.nadia, there.job)
    assert len(there.journal("passed-on/1")) == len(there.journal("accepted/1")) == 1
