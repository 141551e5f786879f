"""Corrections: both values stay readable, with who and why."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.house import people


def heights_step(there):
    return there.step_of("measure", "")


def test_a_correction_keeps_both_values_and_says_who_and_why(at):
    """Nasty case 29 of the trade notes."""
    there = at("top nuts")
    wrong = there.do("shown", tool="EW-01", reached="33 N·m")
    work.correct(there.book, there.bram, wrong.entry, {"reached": "35 N·m"}, "typing slip")
    (done,) = there.card(there.step_of("tighten", "strut_top_nuts")).done
    assert (done.words, done.corrected) == ("35\u202fN·m", "33\u202fN·m")
    assert done.signed
    entry = there.journal("act/1")[-1]
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
    assert there.journal("act/1")[-1].facts["done_by"] == "bf"


def test_only_acts_of_the_work_are_corrected_so(at):
    there = at("kitted")
    for kind in ("permission/1", "begun/1", "sign-off/1"):
        with pytest.raises(Refused, match="is no act of the work"):
            work.correct(there.book, there.imke, there.journal(kind)[0].number, {"text": "x"}, "why not")


def test_a_reading_that_is_not_answered_anew_stays(at):
    there = at("lower bolt")
    step = heights_step(there)
    kept = there.do(step=step, **{"heights FL": "366", "temperature": "12 °C"})
    work.correct(there.book, there.bram, kept.entry, {"heights FL": "399"}, "read the other side of the rule")
    readings = dict(there.journal("act/1")[-1].payload["act"]["readings"])
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
    tool = there.journal("act/1")[-1].payload["act"]["tool"]
    assert (tool["number"], tool.get("unfit", "")) == ("TW-07", "")
