"""Reading a method, beginning it at a corner, and what its steps say and suggest."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work import language
from jobbook.core.work.method import begin, propose, read_method, steps_for, title_of
from jobbook.core.work.model import Act, Figure, Joint, Line, Part
from jobbook.core.work.rules import apply, perform
from jobbook.core.work.state import START, State, conditions, step_status

TEXT = """
format = "jobbook-method"
version = 1
[method]
title = "Rear bellows, renew one corner"
corners = ["RL", "RR"]
[options]
side_tank = "Is the reservoir in the way?"
[[figure]]
key = "lower_bolt_torque"
kind = "torque"
[[joint]]
key = "lower_bolt"
name = "Bellows lower bolt"
figure = "lower_bolt_torque"
single_use = "variant"
safety = true
[[joint]]
key = "tank_bolt"
name = "Reservoir bolt"
when = "side_tank"
[[line]]
key = "air_line"
name = "Air line at the bellows"
at = "axle"
[[part]]
key = "bellows"
name = "Air bellows"
renewed = true
at = "here"
held_by = ["lower_bolt", "tank_bolt", "air_line"]
[[step]]
do = "tighten"
joint = "lower_bolt"
[[step]]
do = "take_out"
joint = "tank_bolt"
when = "side_tank"
[[step]]
do = "set"
support = "touching"
fills = "axle"
[[step]]
do = "wait"
minutes = 2.5
"""
METHOD = read_method(TEXT)


def begun(corner: str = "RL", side_tank: bool = False) -> State:
    return perform(START, begin(METHOD, corner, {"side_tank": side_tank}))


def test_things_are_named_with_their_corner_and_know_their_places() -> None:
    joint, line, part = begin(METHOD, "RR", {"side_tank": False}).things
    assert isinstance(joint, Joint)
    assert isinstance(line, Line)
    assert isinstance(part, Part)
    assert (joint.name, joint.corner, joint.single_use, joint.by_variant) == ("lower_bolt@RR", "RR", True, True)
    assert line.places == ("RL", "RR")
    assert part.places == ("RR",)


def test_what_is_not_there_holds_nothing() -> None:
    without = begun(side_tank=False).things["bellows@RL"]
    with_it = begun(side_tank=True).things["bellows@RL"]
    assert isinstance(without, Part)
    assert isinstance(with_it, Part)
    assert without.held_by == ("lower_bolt@RL", "air_line@RL")
    assert with_it.held_by == ("lower_bolt@RL", "tank_bolt@RL", "air_line@RL")


def test_steps_keep_their_numbers_when_an_answer_leaves_some_out() -> None:
    assert [step.number for step in steps_for(METHOD, "RL", {"side_tank": False})] == [1, 3, 4]
    assert [step.number for step in steps_for(METHOD, "RL", {"side_tank": True})] == [1, 2, 3, 4]


@pytest.mark.parametrize(
    ("corner", "options"), [("FL", {"side_tank": True}), ("RL", {}), ("RL", {"side_tank": True, "x": True})]
)
def test_a_method_begins_only_at_its_corners_with_every_question_answered(
    corner: str, options: dict[str, bool]
) -> None:
    with pytest.raises(Refused, match="othing was begun"):
        begin(METHOD, corner, options)


def test_a_step_suggests_the_act_with_its_places_and_its_next_stage() -> None:
    figure = Figure("lower_bolt_torque", "torque", "50 N*m +90 deg", ("50 N*m", "+90 deg"), document="sheet")
    state = perform(begun(), Act("figure", figure=figure))
    tighten, lower, wait = steps_for(METHOD, "RL", {"side_tank": False})
    first = propose(tighten, "RL", state)
    assert (first.on, first.stage, first.step, first.method_key) == ("lower_bolt@RL", 1, 1, METHOD.key)
    assert propose(tighten, "RL", apply(state, first)).stage == 2
    assert propose(lower, "RL", state).fills == ("RL", "RR")
    assert propose(wait, "RL", state).minutes == "2.5"


def test_a_step_of_two_stages_is_done_with_the_second() -> None:
    figure = Figure("lower_bolt_torque", "torque", "50 N*m +90 deg", ("50 N*m", "+90 deg"), document="sheet")
    state = perform(begun(), Act("figure", figure=figure))
    step = METHOD.steps[0]
    state = apply(state, replace(propose(step, "RL", state), by="A", at="10:00"))
    assert step_status(state, METHOD.key, 1) == ""
    assert (state.joints["lower_bolt@RL"].word, state.joints["lower_bolt@RL"].stage) == ("part-tightened", 1)
    state = apply(state, replace(propose(step, "RL", state), by="B", at="10:05"))
    assert step_status(state, METHOD.key, 1) == "done"
    assert [(stage, who) for stage, who, _ in state.joints["lower_bolt@RL"].done_by] == [(1, "A"), (2, "B")]


def test_two_corners_of_one_method_keep_their_steps_apart() -> None:
    state = perform(begun("RL"), begin(METHOD, "RR", {"side_tank": False}))
    state = apply(state, propose(METHOD.steps[0], "RL", state))
    assert step_status(state, METHOD.key, 1, "RL") == "done"
    assert step_status(state, METHOD.key, 1, "RR") == step_status(state, METHOD.key, 1) == ""


def test_a_thing_known_to_two_methods_keeps_the_stricter_word() -> None:
    plain = Act(
        "begin", method_key="other", corner="RL", things=(Joint("lower_bolt@RL", "Bolt", free=True, corner="RL"),)
    )
    joint = perform(begun(), plain).things["lower_bolt@RL"]
    assert isinstance(joint, Joint)
    assert (joint.safety, joint.single_use, joint.free, joint.title) == (True, True, False, "Bolt")


def test_what_the_variant_decides_is_answered_by_declaring_the_thing_again() -> None:
    state = begun()
    joint = state.things["lower_bolt@RL"]
    assert isinstance(joint, Joint)
    told = perform(state, Act("declare", things=(replace(joint, single_use=False, by_variant=False, pieces=()),)))
    after = told.things["lower_bolt@RL"]
    assert isinstance(after, Joint)
    assert not after.single_use


def test_a_step_without_text_says_itself() -> None:
    things = begin(METHOD, "RL", {"side_tank": True}).things
    said = [title_of(step, things) for step in METHOD.steps]
    assert said == [
        "Tighten bellows lower bolt.",
        "Take out reservoir bolt.",
        "Set support to touching.",
        "Wait 2.5 minutes.",
    ]


def test_conditions_are_said_in_words() -> None:
    state = perform(begun(), Act("arrive", conditions={"air FL": "vented", "air FR": "none", "support": "lift"}))
    said = dict(conditions(state))
    assert (said["support"], said["air FL"], said["air FR"]) == ("on the lift", "FL vented", "no air at FR")


@pytest.mark.parametrize(
    "thread", ["M12x1.5", "M12", "M12x1.50", "M10x1", "M9x1", "M28x1.5", "1/2-20", "1/2-20 UNF", "G1/8"]
)
def test_a_standard_thread_is_known(thread: str) -> None:
    assert language.thread(thread) == ""


@pytest.mark.parametrize("thread", ["M13x1.5", "M12x9", "M20x10", "M12x", "12x1.5", "1/2-21", "1/3-20", "G1/7", "", 12])
def test_a_thread_of_no_standard_is_not(thread: object) -> None:
    assert language.thread(thread)
