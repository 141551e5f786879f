"""Torque sign-off: stages, tools, values, second checks, new cycles."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused
from jobbook.core.tools import Tool
from jobbook.services import work
from jobbook.services.house import people, shop
from jobbook.services.job import stores
from tests.services.workshop import PIN, TOOLS, usual

TOP, LOWER = "strut_top_nuts@FL", "strut_lower_bolt@FL"


def acts(there, do="", on=""):
    with there.book.store.read() as reading:
        kept = [entry.payload["act"] for entry in reading.journal.entries(job=there.job, kind="act/1")]
    return [act for act in kept if do in ("", act["do"]) and on in ("", act.get("on", ""))]


def sign_offs(there):
    with there.book.store.read() as reading:
        return reading.journal.entries(job=there.job, kind="sign-off/1")


def sheet_row(there, do, key):
    return there.card(there.step_of(do, key)).joints[0]


def test_a_click_and_a_value_shown_are_kept_as_different_facts(at):
    there = at("top nuts")
    there.do(tool="TW-04")
    assert acts(there, "tighten", TOP)[-1]["reached"] == "clicked at 35\u202fN·m"


def test_a_value_that_the_tool_showed_is_kept_as_read(at):
    there = at("top nuts")
    there.do("shown", tool="EW-01", reached="35,4")
    act = acts(there, "tighten", TOP)[-1]
    assert act["reached"] == "35.4\u202fN·m"
    assert (act["tool"]["number"], act["tool"]["certificate"]) == ("EW-01", "QC-26-0310")


def test_a_joint_of_two_stages_is_signed_once_and_shouts_between_them(at):
    there = at("lower bolt")
    before = len(sign_offs(there))
    choice = there.choice()
    assert not choice.signs
    there.do(tool="TW-07")
    (loud,) = [end for end in there.sheet().loose_now if end.loud]
    assert (loud.rule, loud.on) == ("joint-left-loose", LOWER)
    assert there.sheet().card.step.mark == "half"
    assert len(sign_offs(there)) == before
    assert there.choice().signs
    there.do(tool="AG-01")
    signed = sign_offs(there)[-1].payload
    assert (signed["joint"], len(signed["acts"])) == (LOWER, 2)
    assert "not-signed" not in there.rules()


@pytest.mark.parametrize(
    ("tool", "said"),
    [
        (TOOLS[0], "is above the tool's 10"),
        (TOOLS[3], "is below the tool's 40"),
        (replace(TOOLS[1], due_on="2026-11-24"), "calibration of TW-04 ended on 24 Nov 2026"),
        (replace(TOOLS[1], due_on="", calibrated_on="2025-11-20"), "ended on 20 Nov 2026"),
        (replace(TOOLS[1], status="quarantined"), "TW-04 is quarantined"),
        (replace(TOOLS[1], due_on="", calibrated_on=""), "No calibration of TW-04 is recorded"),
        (Tool("OUT-1", "click wrench", "10", "60", status="outside"), "No calibration of OUT-1 is recorded"),
        (Tool("TW-99", "click wrench", calibrated_on="2026-06-02"), "no torque wrench with a range"),
    ],
)
def test_a_tool_that_does_not_fit_is_named_before_and_refused(at, tool, said):
    """Nasty cases 31 and 32 of the trade notes."""
    there = at("top nuts")
    shop.keep_tool(there.book, there.imke, tool)
    (unfit,) = [option.unfit for option in there.choice().asks[0].options if option.value == tool.number]
    assert said in unfit
    with pytest.raises(Refused, match=said) as refusal:
        there.do(tool=tool.number)
    assert refusal.value.rule == "wrong-tool"
    assert acts(there, "tighten", TOP) == []


def test_a_tool_due_today_is_still_in_calibration(at):
    there = at("top nuts")
    shop.keep_tool(there.book, there.imke, replace(TOOLS[1], due_on="2026-11-25"))
    there.do(tool="TW-04")
    assert "unfit" not in acts(there, "tighten", TOP)[-1]["tool"]


def test_a_tool_that_nobody_has_is_refused(at):
    with pytest.raises(Refused, match="There is no tool “TW-77” in the tool crib; nothing was kept"):
        at("top nuts").do(tool="TW-77")


def test_a_tool_out_of_calibration_is_allowed_once_with_a_reason_and_marked(at):
    there = at("top nuts")
    shop.keep_tool(there.book, there.imke, replace(TOOLS[1], due_on="2026-11-24"))
    with pytest.raises(Refused, match="Bram Ferro has no permission to allow beforehand"):
        work.allow(there.book, there.bram, there.job, "wrong-tool", "no other one in the house")
    with pytest.raises(Refused, match="Say why this is allowed"):
        work.allow(there.book, there.imke, there.job, "wrong-tool", " ")
    work.allow(there.book, there.imke, there.job, "wrong-tool", "no other one in the house")
    there.do(tool="TW-04")
    assert "ended on 24 Nov 2026" in acts(there, "tighten", TOP)[-1]["tool"]["unfit"]
    again = there.step_of("tighten", "strut_top_nuts")
    with pytest.raises(Refused, match="ended on 24 Nov 2026"):
        there.do(step=again, tool="TW-04")


@pytest.mark.parametrize(
    "rule", ["under-load", "under-pressure", "filled-while-open", "restraints-live", "not-fit-to-drive"]
)
def test_what_can_hurt_somebody_is_never_allowed_beforehand(at, rule):
    there = at("top nuts")
    with pytest.raises(Refused, match="Nobody may allow"):
        work.allow(there.book, there.imke, there.job, rule, "in a hurry")


def test_a_value_outside_the_limits_needs_its_reason_and_becomes_a_finding(at):
    there = at("top nuts")
    with pytest.raises(Refused, match=r"reached 50.*asked for 31.5.*to 38.5.*nothing was kept yet"):
        there.do("shown", tool="EW-01", reached="50 N·m")
    assert acts(there, "tighten", TOP) == []
    there.do("shown", tool="EW-01", reached="50 N·m", reason="slipped off the head")
    (end,) = [end for end in there.sheet().still_to_do if end.rule == "finding-open"]
    assert "slipped off the head" in end.sentence
    assert "not-signed" not in there.rules()
    work.end_finding(there.book, there.bram, there.job, end.on, "repaired")
    assert "finding-open" not in there.rules()


def test_a_slip_of_the_unit_is_named(at):
    """Nasty case 79 of the trade notes. 26 lbf·ft = 35.3 N·m, since 1 lbf·ft = 1.3558179483 N·m (NIST SP 811, B.8)."""
    with pytest.raises(Refused, match="26\u202flbf·ft would fit: look at the unit"):
        at("top nuts").do("shown", tool="EW-01", reached="26 N·m")


def test_a_value_in_another_unit_is_judged_in_the_figures_unit(at):
    there = at("top nuts")
    there.do("shown", tool="EW-01", reached="26 ft-lb")
    assert acts(there, "tighten", TOP)[-1]["reached"] == "26\u202flbf·ft"


@pytest.mark.parametrize("typed", ["soon", "35 bar", "35 Nm 40", "1.234 Nm"])
def test_a_value_that_cannot_be_read_for_certain_is_refused(at, typed):
    there = at("top nuts")
    with pytest.raises(Refused):
        there.do("shown", tool="EW-01", reached=typed)
    assert acts(there, "tighten", TOP) == []


def test_the_second_check_is_another_persons(at):
    """Nasty case 30 of the trade notes."""
    there = at("top nuts")
    there.do(tool="TW-04")
    with pytest.raises(Refused) as refusal:
        there.do(by=there.bram)
    assert refusal.value.rule == "same-person"
    there.do(by=there.nadia)
    assert sign_offs(there)[-1].payload["meaning"] == "checked"
    assert sign_offs(there)[-1].facts["done_by"] == there.nadia.id
    assert ("Check", "double", "N. Oyelaran-Pike") in sheet_row(there, "second_check", "strut_top_nuts").cells


def test_who_may_not_make_second_checks_does_not(at):
    there = at("top nuts")
    there.do(tool="TW-04")
    helper = people.add_person(there.book, there.imke, "Ned Ash", frozenset({"work"}), PIN)
    with pytest.raises(Refused, match="Ned Ash has no permission to make second checks"):
        there.do(by=helper)


def test_a_torque_is_not_kept_without_the_signature_of_who_did_it(at):
    there = at("top nuts")
    choice = there.choice()
    with pytest.raises(Refused, match="signed by the person who did it"):
        work.keep(there.book, there.bram, there.job, choice, usual(choice))


def test_what_is_asked_must_be_answered(at):
    there = at("top nuts")
    choice = there.choice()
    with pytest.raises(Refused, match="it still needs an answer to “Tool”"):
        work.keep(there.book, there.bram, there.job, choice, {"tool": " "}, signer=there.bram)


def test_who_signs_did_it_and_who_is_on_duty_entered_it(at):
    there = at("top nuts")
    choice = there.choice()
    work.keep(there.book, there.jonas, there.job, choice, usual(choice), signer=there.bram)
    facts = sign_offs(there)[-1].facts
    assert (facts["done_by"], facts["entered_by"]) == ("bf", "jw")


def test_a_failed_thread_holds_the_release_until_it_is_repaired(at):
    """Nasty case 35 of the trade notes."""
    there = at("top nuts")
    there.do("failed", text="pulled out of the body at 20 N·m")
    (end,) = [end for end in there.sheet().still_to_do if end.rule == "finding-open"]
    assert end.sentence.startswith("Must not leave so: pulled out of the body")
    with pytest.raises(Refused, match=r"must not leave so|Must not leave so"):
        work.end_finding(there.book, there.bram, there.job, end.on, "declined", "customer wants it so")
    work.end_finding(there.book, there.bram, there.job, end.on, "repaired")
    assert "finding-open" not in there.rules()


def test_a_finding_ends_in_a_known_way_and_what_is_declined_has_its_reason(at):
    there = at("top nuts")
    with pytest.raises(Refused, match="a finding ends repaired, declined, referred"):
        work.end_finding(there.book, there.bram, there.job, "x", "permit")
    with pytest.raises(Refused, match="“referred” needs its reason"):
        work.end_finding(there.book, there.bram, there.job, "x", "referred")
    with pytest.raises(Refused, match="no such finding"):
        work.end_finding(there.book, there.bram, there.job, "x", "repaired")


def test_a_joint_loosened_again_wants_new_pieces_a_new_sign_off_and_a_new_check(at):
    """Nasty case 36 of the trade notes."""
    there = at("join")
    row = sheet_row(there, "second_check", "strut_top_nuts")
    assert ("Check", "double", "N. Oyelaran-Pike") in row.cells
    there.do(step=there.step_of("take_out", "strut_top_nuts"))
    there.do(step=there.step_of("start", "strut_top_nuts"))
    assert "single-use-again" in there.rules_against("tighten", TOP)
    nuts = next(need for need in stores.needed(there.book, there.job) if need.serves == TOP)
    assert (nuts.needed, nuts.issued, nuts.short) == (6, 3, 3)
    stores.issue(there.book, there.bram, there.job, TOP, 3, batch="26-12")
    there.do(step=there.step_of("take_out", "strut_top_nuts"))
    there.do(step=there.step_of("start", "strut_top_nuts"))
    there.do(step=there.step_of("tighten", "strut_top_nuts"), tool="TW-04")
    assert ("Check", "ring", "") in sheet_row(there, "second_check", "strut_top_nuts").cells
    there.do(step=there.step_of("second_check", "strut_top_nuts"))
    assert len(acts(there, "tighten", TOP)) == 2


def test_what_was_tightened_hanging_is_kept_as_it_happened_until_it_is_loosened(at):
    """Nasty case 37 of the trade notes."""
    there = at("top nuts")
    step = there.step_of("tighten", "strut_lower_bolt")
    assert "tightened-hanging" in there.bars(step)
    choice = there.blocked(step=step)
    with pytest.raises(Refused, match="say how it came to be done"):
        work.keep_as_happened(there.book, there.bram, there.job, choice, usual(choice), " ")
    work.keep_as_happened(there.book, there.bram, there.job, choice, usual(choice), "done from habit")
    (end,) = [end for end in there.sheet().still_to_do if end.rule == "tightened-hanging"]
    assert "done from habit" in end.sentence
    assert acts(there, "tighten", LOWER)[-1]["kept_after"] == ["tightened-hanging"]
    there.do(step=there.step_of("take_out", "strut_lower_bolt"))
    assert "tightened-hanging" not in there.rules()


def test_what_happened_keeps_its_reason_although_no_rule_speaks_against_it(at):
    there = at("top nuts")
    choice = there.choice("shown")
    answers = {"tool": "EW-01", "reached": "50 N·m", "reason": "slipped"}
    work.keep_as_happened(
        there.book, there.bram, there.job, choice, answers, "written on a card first", signer=there.bram
    )
    act = acts(there, "tighten", TOP)[-1]
    assert act["reason"] == "slipped; written on a card first"
    assert "kept_after" not in act


def test_each_person_signs_the_stages_that_they_did(at):
    """Nasty case 27 of the trade notes: a job goes on in other hands."""
    there = at("lower bolt")
    there.do(tool="TW-07", by=there.bram)
    there.do(tool="AG-01", by=there.nadia)
    assert [one.by for one in there.sheet().unsigned] == ["Bram Ferro"]
    with pytest.raises(Refused, match="none of these acts is Nadia Oyelaran-Pike's, and nobody signs for another"):
        work.sign(there.book, there.nadia, there.job, [there.sheet().unsigned[0].act_id])
    work.sign(there.book, there.bram, there.job, [there.sheet().unsigned[0].act_id])
    assert sign_offs(there)[-1].payload["joint"] == LOWER
    with pytest.raises(Refused) as refusal:
        there.do(by=there.nadia)
    assert refusal.value.rule == "same-person"
