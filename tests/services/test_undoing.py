"""Signing as a group, and undoing what is not signed."""

import pytest

from jobbook.core.errors import Conflict, Refused
from jobbook.services import work
from jobbook.services.job import stores
from jobbook.services.office import desk
from tests.services.workshop import CORNER, METHOD, OPTIONS, usual

TOP, LOWER = "strut_top_nuts@FL", "strut_lower_bolt@FL"


def heights_step(there):
    return there.step_of("measure", "")


def _state(there, serves):
    return next(piece.state for piece in stores.pieces(there.book, there.job) if piece.serves == serves)


def test_strip_down_acts_are_signed_as_a_group(at):
    there = at("vent")
    there.play(("unplug", "damper_plug"))
    there.do()
    there.do()
    waiting = [one for one in there.sheet().unsigned if one.grouped]
    assert [one.by for one in waiting] == ["Bram Ferro", "Bram Ferro"]
    assert work.sign(there.book, there.bram, there.job, [one.act_id for one in waiting]).words == "2 acts signed"
    assert there.sheet().unsigned == ()


def test_a_group_never_covers_a_torque(at):
    there = at("lower bolt")
    there.do(tool="TW-07")
    there.do(step=heights_step(there))
    ids = [one.act_id for one in there.sheet().unsigned]
    assert len(ids) == 2
    with pytest.raises(Refused, match="air, support and torques are signed one by one"):
        work.sign(there.book, there.bram, there.job, ids)


@pytest.mark.parametrize("place", [("vent", ""), ("open", "strut_line"), ("fill", ""), ("set", "")])
def test_air_and_support_are_signed_at_once_and_alone(at, place):
    there = at("begun" if place[0] == "set" else "kitted")
    there.play(place)
    choice = there.choice()
    if place == ("set", ""):
        there.play(("take_out", "wheel_bolts"))
        lifted = [entry for entry in there.journal("act/1") if entry.payload["act"].get("to") == "lift"]
        signed = [entry.payload["acts"] for entry in there.journal("sign-off/1")]
        assert [lifted[0].act] in signed
    else:
        assert choice.signs
        with pytest.raises(Refused, match="signed by the person who did it"):
            work.keep(there.book, there.bram, there.job, choice, usual(choice))


def test_what_is_not_signed_is_undone_by_who_did_it_and_its_pieces_come_back(at):
    there = at("put on")
    there.play(("start", "strut_top_nuts"))
    there.do()
    (waiting,) = there.sheet().unsigned
    with pytest.raises(Refused, match="only the person who did it"):
        work.undo(there.book, there.nadia, there.job, waiting.act_id)
    assert _state(there, TOP) == "fitted"
    work.undo(there.book, there.bram, there.job, waiting.act_id)
    assert _state(there, TOP) == "issued"
    assert there.sheet().card.step.number == there.step_of("start", "strut_top_nuts")
    with pytest.raises(Refused, match="not there any more"):
        work.undo(there.book, there.bram, there.job, waiting.act_id)
    there.do()
    assert _state(there, TOP) == "fitted"


def test_a_part_put_on_by_mistake_comes_back_too(at):
    there = at("put on")
    there.do()
    assert _state(there, "strut@FL") == "fitted"
    (waiting,) = there.sheet().unsigned
    work.undo(there.book, there.bram, there.job, waiting.act_id)
    assert _state(there, "strut@FL") == "issued"


def test_a_signed_act_is_not_undone(at):
    there = at("vent")
    done = there.card(1).done[0]
    with pytest.raises(Refused, match="a signed act is not undone"):
        work.undo(there.book, there.bram, there.job, done.act_id)


def test_a_fault_code_goes_with_the_reading_that_is_undone(at):
    there = at("begun")
    there.play(("set", ""))
    before = desk.fault_codes(there.book, there.job)
    step = next(row.number for row in there.sheet().steps if "fault codes" in row.title)
    there.do(step=step, module="Level control", code="C1A2B")
    assert len(desk.fault_codes(there.book, there.job)) == len(before) + 1
    (waiting,) = there.sheet().unsigned
    work.undo(there.book, there.bram, there.job, waiting.act_id)
    assert desk.fault_codes(there.book, there.job) == before


def test_a_finding_goes_with_the_stage_that_is_undone(at):
    there = at("lower bolt")
    there.do("shown", tool="EW-01", reached="90", reason="slipped")
    assert "finding-open" in there.rules()
    stage = next(one for one in there.sheet().unsigned if not one.grouped)
    work.undo(there.book, there.bram, there.job, stage.act_id)
    assert "finding-open" not in there.rules()
    assert there.sheet().unsigned == ()


def test_the_signature_of_the_last_stage_covers_what_was_found_in_the_first(at):
    there = at("lower bolt")
    there.do("shown", tool="EW-01", reached="90", reason="slipped")
    there.do(tool="AG-01")
    assert there.sheet().unsigned == ()


def test_a_method_is_undone_only_while_nothing_of_it_is_kept(at):
    there = at("begun")
    (entry,) = there.journal("begun/1")
    there.do()
    with pytest.raises(Refused, match="steps of this method are kept already"):
        work.undo(there.book, there.bram, there.job, entry.act)
    (waiting,) = there.sheet().unsigned
    work.undo(there.book, there.bram, there.job, waiting.act_id)
    work.undo(there.book, there.bram, there.job, entry.act)
    assert there.sheet().methods == ()
    assert there.sheet().card is None


def test_permissions_and_issues_are_not_undone_as_acts(at):
    there = at("kitted")
    for kind in ("permission/1", "issued/1"):
        with pytest.raises(Refused, match="not there any more"):
            work.undo(there.book, there.jonas, there.job, there.journal(kind)[0].act)


def test_a_method_is_begun_once_at_a_corner_and_kept_once_in_the_book(at):
    there = at("begun")
    with pytest.raises(Conflict, match="was begun at FL already"):
        work.begin_method(there.book, there.bram, there.job, METHOD, CORNER, OPTIONS)
    work.begin_method(there.book, there.bram, there.job, METHOD, "FR", OPTIONS)
    with there.book.store.read() as reading:
        assert len(reading.journal.entries(kind="method/1")) == 1
    assert [(one.begun, one.corner) for one in there.sheet().methods] == [(0, "FL"), (1, "FR")]
