"""Whole methods in the method language: the checker finds nothing in them, and they can be worked in the bay."""

from itertools import product
from pathlib import Path

import pytest

from jobbook.core.work.checker import check as findings_in
from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.method import Method, begin, propose, read_method, steps_for
from jobbook.core.work.model import Act
from jobbook.core.work.rules import apply, perform
from jobbook.core.work.state import START
from tests.core.work.playing import in_the_bay, prepared

FOLDER = Path(__file__).parents[2] / "data" / "methods"
METHODS = {path.stem: path for path in sorted(FOLDER.glob("*.toml"))}
STEPS = {
    "air-line-one-corner": 29,
    "axle-valve": 20,
    "bellows-wheel-on": 52,
    "compressor-luggage-space": 33,
    "rear-strut-top-inside": 58,
    "toe-on-wheels": 17,
    "valve-block": 44,
    "wheel-retorque": 10,
}


def ways(method: Method) -> list[tuple[str, dict[str, bool]]]:
    """Every corner with every combination of answers."""
    keys = list(method.options)
    answers = [dict(zip(keys, values, strict=True)) for values in product((False, True), repeat=len(keys))]
    return [(corner, answer) for corner in (method.corners or ("",)) for answer in answers]


@pytest.mark.parametrize("name", STEPS)
def test_the_checker_finds_nothing_in_a_sound_method(name: str) -> None:
    assert findings_in(METHODS[name].read_bytes()) == ()


@pytest.mark.parametrize("name", STEPS)
def test_a_method_is_read_with_all_its_steps(name: str) -> None:
    method = read_method(METHODS[name].read_bytes())
    assert len(method.steps) == STEPS[name]
    assert [step.number for step in method.steps] == list(range(1, STEPS[name] + 1))


@pytest.mark.parametrize("name", STEPS)
def test_a_sound_method_can_be_worked_through_in_the_bay_and_leaves_nothing_loose(name: str) -> None:
    method = read_method(METHODS[name].read_bytes())
    for corner, options in ways(method):
        state = prepared(method, corner, options)
        for step in steps_for(method, corner, options):
            state = perform(state, in_the_bay(propose(step, corner, state), state))
        assert loose_ends(state) == (), (corner, options)


@pytest.mark.parametrize("name", STEPS)
def test_in_every_sound_method_the_flaw_of_leaving_out_one_needed_step_is_found(name: str) -> None:
    """A sound method is sound because of its steps: without its last tightening, joining or waking it is not."""
    text = METHODS[name].read_text("utf-8")
    head, *steps = text.split("[[step]]")
    needed = [n for n, step in enumerate(steps) if any(word in step for word in ('"tighten"', '"join"', '"active"'))]
    assert needed
    for number in needed:
        shorter = "[[step]]".join([head, *steps[:number], *steps[number + 1 :]])
        assert findings_in(shorter.encode()), steps[number]


def test_two_methods_at_two_corners_run_over_one_state() -> None:
    method = read_method(METHODS["bellows-wheel-on"].read_bytes())
    options = {"tank_in_way": False, "sensor_lead": True}
    left, right = (begin(method, corner, options) for corner in ("RL", "RR"))
    assert {thing.name for thing in left.things}.isdisjoint(thing.name for thing in right.things)
    state = prepared(method, "RL", options)
    state = apply(state, right)
    names = {end.on for end in loose_ends(apply(state, Act("unplug", "1", on="sensor_plug@RR", by="Bram Ferro")))}
    assert any("sensor_plug@RR" in name for name in names)
    assert not any("sensor_plug@RL" in name for name in names)


def test_what_is_conditional_and_not_there_holds_nothing() -> None:
    method = read_method(METHODS["bellows-wheel-on"].read_bytes())
    act = begin(method, "RL", {"tank_in_way": False, "sensor_lead": False})
    bellows = next(thing for thing in act.things if thing.name == "bellows@RL")
    assert set(bellows.held_by) & {thing.name for thing in act.things} == {"arm_bolt@RL", "air_line@RL"}
    assert {thing.name for thing in act.things}.isdisjoint({"tank@RL", "tank_line@RL", "sensor_plug@RL"})


def test_places_are_resolved_for_the_corner_where_the_method_is_used() -> None:
    valve = read_method(METHODS["axle-valve"].read_bytes())
    steps = steps_for(valve, "RL", {})
    vents = [propose(step, "RL", START).places for step in steps if step.do == "vent"]
    assert [set(places) for places in vents] == [{"RL", "RR"}]
    block = read_method(METHODS["valve-block"].read_bytes())
    steps = steps_for(block, "", {"liner": False})
    vents = [set(propose(step, "", START).places) for step in steps if step.do == "vent"]
    assert vents == [{"FL", "FR", "RL", "RR"}, {"reservoir"}]
