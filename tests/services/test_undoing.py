"""Signing as a group, undoing what is not signed, correcting what is, keeping what was forgotten."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Conflict, Refused
from jobbook.core.work.model import Act, Joint
from jobbook.services import desk, people, stores, work
from jobbook.services.release import release
from jobbook.services.sheets import Choice
from tests.services.workshop import CORNER, METHOD, OPTIONS, usual

TOP, LOWER = "strut_top_nuts@FL", "strut_lower_bolt@FL"


def journal(there, kind):
    with there.book.store.read() as reading:
        return reading.journal.entries(job=there.job, kind=kind)


def heights_step(there):
    return there.step_of("measure", "")


def released(at):
    there = at("done")
    release(there.book, there.imke, there.job, "128 417", "km")
    return there


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
        lifted = [entry for entry in journal(there, "act/1") if entry.payload["act"].get("to") == "lift"]
        signed = [entry.payload["acts"] for entry in journal(there, "sign-off/1")]
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


def _state(there, serves):
    return next(piece.state for piece in stores.pieces(there.book, there.job) if piece.serves == serves)


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
    (entry,) = journal(there, "begun/1")
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
            work.undo(there.book, there.jonas, there.job, journal(there, kind)[0].act)


def test_a_method_is_begun_once_at_a_corner_and_kept_once_in_the_book(at):
    there = at("begun")
    with pytest.raises(Conflict, match="was begun at FL already"):
        work.begin_method(there.book, there.bram, there.job, METHOD, CORNER, OPTIONS)
    work.begin_method(there.book, there.bram, there.job, METHOD, "FR", OPTIONS)
    with there.book.store.read() as reading:
        assert len(reading.journal.entries(kind="method/1")) == 1
    assert [(one.begun, one.corner) for one in there.sheet().methods] == [(0, "FL"), (1, "FR")]


def test_a_correction_keeps_both_values_and_says_who_and_why(at):
    """Nasty case 29 of the trade notes."""
    there = at("top nuts")
    wrong = there.do("shown", tool="EW-01", reached="33 N·m")
    work.correct(there.book, there.bram, wrong.entry, {"reached": "35 N·m"}, "typing slip")
    (done,) = there.card(there.step_of("tighten", "strut_top_nuts")).done
    assert (done.words, done.corrected) == ("35\u202fN·m", "33\u202fN·m")
    assert done.signed
    entry = journal(there, "act/1")[-1]
    assert (entry.replaces, entry.facts["reason"], entry.facts["entered_by"]) == (wrong.entry, "typing slip", "bf")
    assert entry.payload["act"]["tool"]["number"] == "EW-01"


def test_a_correction_can_be_corrected_and_a_stale_one_is_refused(at):
    there = at("top nuts")
    wrong = there.do("shown", tool="EW-01", reached="33 N·m")
    second = work.correct(there.book, there.bram, wrong.entry, {"reached": "34 N·m"}, "typing slip")
    with pytest.raises(Refused, match="no act of the work that counts now"):
        work.correct(there.book, there.bram, wrong.entry, {"reached": "36 N·m"}, "late")
    work.correct(there.book, there.bram, second.entry, {"reached": "35 N·m"}, "another slip")
    assert there.card(there.step_of("tighten", "strut_top_nuts")).done[0].words == "35\u202fN·m"


def test_a_correction_needs_its_reason_and_ones_own_hand_or_the_permission(at):
    there = at("top nuts")
    wrong = there.do("shown", tool="EW-01", reached="33 N·m")
    with pytest.raises(Refused, match="needs its reason"):
        work.correct(there.book, there.bram, wrong.entry, {"reached": "35 N·m"}, " ")
    with pytest.raises(Refused, match="Nadia Oyelaran-Pike has no permission to allow"):
        work.correct(there.book, there.nadia, wrong.entry, {"reached": "35 N·m"}, "I saw it")
    work.correct(there.book, there.imke, wrong.entry, {"reached": "35 N·m"}, "read from the photo")
    assert journal(there, "act/1")[-1].facts["done_by"] == "bf"


def test_only_acts_of_the_work_are_corrected_so(at):
    there = at("kitted")
    for kind in ("permission/1", "begun/1", "sign-off/1"):
        with pytest.raises(Refused, match="is no act of the work"):
            work.correct(there.book, there.imke, journal(there, kind)[0].number, {"text": "x"}, "why not")


def test_a_reading_that_is_not_answered_anew_stays(at):
    there = at("lower bolt")
    step = heights_step(there)
    kept = there.do(step=step, **{"heights FL": "366", "temperature": "12 °C"})
    work.correct(there.book, there.bram, kept.entry, {"heights FL": "399"}, "read the other side of the rule")
    readings = dict(journal(there, "act/1")[-1].payload["act"]["readings"])
    assert (readings["FL"], readings["FR"]) == ("399", "400")
    assert readings["temperature"].startswith("12")


def test_a_correction_to_a_value_outside_the_limits_becomes_a_finding(at):
    there = at("top nuts")
    kept = there.do("shown", tool="EW-01", reached="35 N·m")
    work.correct(there.book, there.bram, kept.entry, {"reached": "53 N·m"}, "digits were swapped")
    (end,) = [end for end in there.sheet().still_to_do if end.rule == "finding-open"]
    assert "digits were swapped" in end.sentence


def test_what_was_corrected_before_it_was_signed_can_still_be_signed_or_undone(at):
    there = at("begun")
    there.do()
    kept = there.do()
    work.correct(there.book, there.bram, kept.entry, {"heights FL": "399"}, "read again")
    there.sign()
    assert there.sheet().unsigned == ()
    again = there.do(step=2)
    work.correct(there.book, there.bram, again.entry, {"heights FL": "398"}, "read again")
    (waiting,) = there.sheet().unsigned
    work.undo(there.book, there.bram, there.job, waiting.act_id)
    assert there.sheet().unsigned == ()


def test_a_correction_after_release_opens_the_job_again_and_says_so(at):
    there = released(at)
    assert there.sheet().stage == "released"
    done = there.card(there.step_of("drive", "")).done[0]
    work.correct(there.book, there.bram, done.entry, {"distance": "17 km"}, "one digit too few")
    sheet = there.sheet()
    assert sheet.stage == "in work"
    assert sheet.cry == "Open again after its release: one digit too few"
    release(there.book, there.imke, there.job, "128 417", "km")
    assert there.sheet().stage == "released"
    assert "Open again" not in there.sheet().cry


@pytest.mark.parametrize("deed", ["keep", "begin", "undo", "allow", "add"])
def test_a_released_job_takes_nothing_more(at, deed):
    there = released(at)
    book, bram, job = there.book, there.bram, there.job
    act = journal(there, "act/1")[-1].act
    drive = there.blocked(step=there.step_of("drive", ""))
    deeds = {
        "keep": lambda: work.keep(book, bram, job, drive, usual(drive)),
        "begin": lambda: work.begin_method(book, bram, job, METHOD, "FR", OPTIONS),
        "undo": lambda: work.undo(book, bram, job, act),
        "allow": lambda: work.allow(book, there.imke, job, "half-built", "to push it"),
        "add": lambda: work.add_thing(book, bram, job, Joint("bracket@FL", "Bracket", corner="FL")),
    }
    with pytest.raises(Refused, match="job 1 was released on 2026-11-25"):
        deeds[deed]()


def test_what_was_forgotten_is_kept_after_release_and_opens_the_job_again(at):
    """Nasty case 38 of the trade notes: the vehicle has gone."""
    there = released(at)
    assert there.card(there.step_of("drive", "")).choices == ()
    choice = there.blocked(step=there.step_of("drive", ""))
    work.keep_as_happened(there.book, there.bram, there.job, choice, usual(choice), "forgotten yesterday, from memory")
    assert there.sheet().stage == "in work"
    assert journal(there, "act/1")[-1].payload["act"]["reason"] == "forgotten yesterday, from memory"


def test_a_joint_that_no_method_names_is_a_loose_end_like_any_other(at):
    there = at("vent")
    joint = Joint("bracket@FL", "Hose bracket bolt", safety=True, corner="FL")
    work.add_thing(there.book, there.bram, there.job, joint)
    with pytest.raises(Refused, match="in this job already under that name"):
        work.add_thing(there.book, there.bram, there.job, replace(joint, safety=False))
    loosen = Choice("main", "Loosened", "Enter", Act("loosen", on="bracket@FL"))
    work.keep(there.book, there.bram, there.job, loosen, {})
    assert "bracket@FL" in [end.on for end in there.sheet().loose_now]


def test_who_lost_the_permission_meanwhile_corrects_nothing(at):
    there = at("top nuts")
    kept = there.do(tool="TW-04")
    people.change_person(there.book, there.imke, replace(there.bram, permissions=frozenset()))
    with pytest.raises(Refused, match="no permission to do and sign work"):
        work.correct(there.book, there.bram, kept.entry, {"tool": "TW-07"}, "took the other one")


def test_another_tool_is_judged_as_of_the_day_of_the_work(at):
    there = at("top nuts")
    kept = there.do(tool="TW-04")
    there.clock.now = there.clock.now.replace(year=2028)
    work.correct(there.book, there.bram, kept.entry, {"tool": "TW-07"}, "took the other one")
    tool = journal(there, "act/1")[-1].payload["act"]["tool"]
    assert (tool["number"], tool.get("unfit", "")) == ("TW-07", "")
