"""Tightening with an adapter: what is set, what is kept, what the tool and the limits are judged by."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import parse_stages
from jobbook.core.quantities import read_quantity
from jobbook.core.tools import Tool
from jobbook.services import work
from jobbook.services.house import shop
from jobbook.services.measured.adapters import accepted, adapter_of, worked_out
from jobbook.services.papers import joint_stories
from jobbook.services.papers.gathered import gather
from jobbook.services.sheet.sheets import WithAdapter
from tests.services.test_tightening import TOP, acts
from tests.services.workshop import TOOLS

CROWFOOT = {"lever": "400", "extension": "50", "angle": "0"}
TORQUE = read_quantity("110 N*m", "torque")
ASKED = WithAdapter(TORQUE, TOOLS, date(2026, 11, 25))


# Published worked examples (US Army TM 9-254 and TM 1-1500-204-23-9), and one computed from the published formula.
@pytest.mark.parametrize(
    ("torque", "lever", "extension", "angle", "setting"),
    [("70", "12", "2", "0", "60"), ("300", "10", "4", "0", "214.29"), ("110", "400", "50", "30", "99.255")],
)
def test_the_setting_is_that_of_the_handbooks_and_gives_the_torque_back(torque, lever, extension, angle, setting):
    adapter = adapter_of({"lever": lever, "extension": extension, "angle": angle})
    wanted = read_quantity(f"{torque} N*m", "torque")
    assert float(adapter.setting(wanted).in_unit("N*m")) == pytest.approx(float(setting), abs=0.005)
    assert abs(adapter.torque(adapter.setting(wanted)).in_unit("N*m") - wanted.in_unit("N*m")) < Fraction(1, 10**5)


def test_the_drag_of_a_hard_nut_is_added_before_the_adapter_takes_its_share():
    """FAA AC 43.13-1B, section 7-43: the drag is added to the torque."""
    adapter = adapter_of(CROWFOOT | {"drag": "8"})
    assert adapter.setting(TORQUE).in_unit("N*m") == pytest.approx(118 * 400 / 450, abs=1e-6)
    assert adapter_of({"drag": "8"}).setting(TORQUE).text() == "118\u202fN·m"
    assert adapter_of({"drag": "8"}).torque(read_quantity("118 N*m", "torque")).text() == "110\u202fN·m"


@pytest.mark.parametrize(
    ("told", "why"),
    [
        ({"lever": "400"}, "both its lever L and its extension E"),
        ({"extension": "50"}, "both its lever L and its extension E"),
        ({}, "measure lever L and extension E, or the drag"),
        ({"lever": "0", "extension": "50"}, "the lever is above nought"),
        ({"lever": "400", "extension": "-395"}, "reaches back to the grip"),
        ({"drag": "-8"}, "never negative|not below nought"),
        ({"lever": "400 N·m", "extension": "50"}, "400 N·m"),
    ],
)
def test_half_an_adapter_or_an_impossible_one_is_refused(told, why):
    with pytest.raises(Refused, match=why):
        adapter_of(told).setting(TORQUE)


def test_while_the_measures_are_typed_the_setting_stands_large_and_tools_are_judged_by_it():
    """110 N·m is too much for a wrench up to 100 N·m; with this adapter it is set to 97.8 N·m, which it can do."""
    assert worked_out(ASKED, {}).setting == ""
    assert worked_out(ASKED, {}).sentence == ""
    assert "both its lever" in worked_out(ASKED, {"lever": "400"}).sentence
    said = worked_out(ASKED, CROWFOOT)
    assert said.setting == "97.8\u202fN·m"
    assert said.unfit["TW-07"] == ""
    assert "above the tool's" in said.unfit["TW-04"]
    assert said.measures == {"lever": "400\u202fmm", "extension": "50\u202fmm", "angle": "0°"}


def test_a_small_setting_is_shown_to_a_hundredth():
    """Computed from the published formula: 4·180/208 = 3.4615."""
    asked = replace(ASKED, torque=read_quantity("4 N*m", "torque"))
    assert worked_out(asked, {"lever": "180", "extension": "28"}).setting == "3.46\u202fN·m"


def test_the_act_keeps_the_measures_the_setting_and_what_it_equals(at):
    there = at("top nuts")
    there.do("adapter", tool="TW-04", setting="31,1", **CROWFOOT)
    act = acts(there, "tighten", TOP)[-1]
    assert act["reached"] == (
        "clicked at 31.1\u202fN·m with adapter L\u202f400\u202fmm, E\u202f50\u202fmm, 0°, equals 34.99\u202fN·m"
    )
    assert dict(act["readings"]) == {
        "lever": "400\u202fmm",
        "extension": "50\u202fmm",
        "angle": "0°",
        "setting": "31.1\u202fN·m",
    }


def test_a_tool_that_shows_a_value_says_that_it_showed_it(at):
    there = at("top nuts")
    there.do("adapter", tool="EW-01", setting="31.1", **CROWFOOT)
    assert acts(there, "tighten", TOP)[-1]["reached"].startswith("showed 31.1")


def test_the_tool_is_judged_by_what_is_set_and_not_by_the_torque(at):
    """35 N·m lies in the range of a wrench from 32 to 100; the 31.1 that are set do not."""
    there = at("top nuts")
    shop.keep_tool(there.book, there.imke, replace(TOOLS[2], number="TW-77", low="32"))
    with pytest.raises(Refused, match="below the tool's 32"):
        there.do("adapter", tool="TW-77", setting="31.1", **CROWFOOT)
    assert acts(there, "tighten", TOP) == []


@pytest.mark.parametrize(("setting", "inside"), [("28", True), ("27.9", False), ("34.222222", True), ("34.3", False)])
def test_the_limits_are_judged_by_what_the_fastener_gets(at, setting, inside):
    """35 N·m ± 10 % is 31.5 to 38.5 at the fastener, which this adapter makes of 28 to 34.2222."""
    there = at("top nuts")
    if inside:
        there.do("adapter", tool="TW-04", setting=setting, **CROWFOOT, reason="")
        assert "reached" not in str(acts(there, "inspect"))
        return
    with pytest.raises(Refused, match=r"asked for 31\.5"):
        there.do("adapter", tool="TW-04", setting=setting, **CROWFOOT, reason="")
    there.do("adapter", tool="TW-04", setting=setting, **CROWFOOT, reason="the scale has no finer division")
    assert "equals" in acts(there, "inspect")[-1]["text"]


def test_without_a_tolerance_the_setting_may_differ_by_the_reading_of_a_scale():
    (stage,) = parse_stages("110 N*m")
    assert accepted(stage) == (Fraction("107.8"), Fraction("112.2"))


def test_a_second_check_through_the_adapter_is_made_by_another_person_and_says_so(at):
    there = at("top nuts")
    there.do("adapter", tool="TW-04", setting="31.1", **CROWFOOT)
    checked = there.step_of("second_check", "strut_top_nuts")
    there.do("adapter", step=checked, tool="TW-04", setting="31.1", **CROWFOOT)
    act = acts(there, "second_check", TOP)[-1]
    assert act["how"].startswith("clicked at 31.1")
    assert act["how"].endswith("did not move")


def test_a_wrong_measure_is_corrected_and_the_torque_follows(at):
    there = at("top nuts")
    step = there.card().step.number
    kept = there.do("adapter", tool="TW-04", setting="31.1", **CROWFOOT)
    (done,) = there.card(step).done
    assert {ask.name: ask.value for ask in done.asks}["lever"] == "400\u202fmm"
    work.correct(there.book, there.bram, kept.entry, {"lever": "500"}, "measured to the end of the grip")
    act = acts(there, "tighten", TOP)[-1]
    assert act["reached"].endswith("with adapter L\u202f500\u202fmm, E\u202f50\u202fmm, 0°, equals 34.21\u202fN·m")


def test_the_papers_print_how_it_was_set(at):
    there = at("top nuts")
    there.do("adapter", tool="TW-04", setting="31.1", **CROWFOOT)
    with there.book.store.read() as reading:
        facts = gather(reading, there.job)
    story = next(one for one in joint_stories.joint_stories(facts) if one.joint.name == TOP)
    row = joint_stories.sheet_row(facts, story, joint_stories.Sources(facts.names))
    assert "with adapter L\u202f400" in row.reached
    assert "equals 34.99" in row.reached


def test_an_angle_is_never_turned_through_an_adapter(at):
    there = at("lower bolt")
    there.do(tool="TW-07")
    assert "adapter" not in {choice.key for choice in there.card().choices}


def without_wrenches(there):
    for tool in TOOLS:
        if tool.kind.endswith("wrench"):
            shop.keep_tool(there.book, there.imke, replace(tool, status="quarantined"))


def test_the_tools_that_fit_stand_on_the_card(at):
    there = at("top nuts")
    said = there.card().sources[-1].replace("\u202f", " ")
    assert said.startswith("On the shelf for 35 N·m ± 10 %: ")
    assert "TW-04 (10 to 60 N·m)" in said
    assert "TW-09" not in said  # from 40 N·m


def test_where_no_tool_fits_the_card_says_so_and_how_to_add_one(at):
    there = at("top nuts")
    without_wrenches(there)
    card = there.card()
    assert not {"main", "shown"} & {choice.key for choice in card.choices}
    assert any("No tool on the shelf fits" in need and "“outside”" in need for need in card.needs)
    assert "wrong-tool" in card.blocked[0].may_allow


def test_an_outside_tool_without_a_certificate_is_used_with_a_permission_and_marked(at):
    there = at("top nuts")
    without_wrenches(there)
    shop.keep_tool(there.book, there.imke, Tool("B-1", "click wrench", "10", "60", status="outside"))
    assert "main" not in {choice.key for choice in there.card().choices}
    work.allow(there.book, there.imke, there.job, "wrong-tool", "borrowed from the shop next door")
    ask = next(ask for ask in there.choice().asks if ask.name == "tool")
    assert any(option.value == "B-1" and "No calibration of B-1" in option.label for option in ask.options)
    there.do(tool="B-1")
    act = acts(there, "tighten", TOP)[-1]
    assert act["tool"]["number"] == "B-1"
    assert "No calibration" in act["tool"]["unfit"]
