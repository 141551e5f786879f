"""Nasty cases of the trade that live in the work: each test is one of them, named by what goes wrong in the bay.

The right behaviour is the trade's common practice (no standard prescribes it): part found wrong after dismantling, job
passed on half-way, one person on both checks, thread stripped, joint loosened again, bush clamped at droop, and a
vehicle that comes in flat.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.method import propose, read_method, steps_for
from jobbook.core.work.model import Act
from jobbook.core.work.rules import perform
from jobbook.core.work.state import START, State
from tests.core.work.building import (
    BRAM,
    BUILT,
    FORK,
    HEIGHTS,
    IMKE,
    KIT,
    LIFT,
    LIFTED,
    LOADED,
    LOWERED,
    NADIA,
    OFF,
    PERMITTED,
    SETTLED,
    STRIPPED,
    STRUT_JOB,
    STRUT_RENEWED,
    TOUCHING,
    WHEELS,
    begun,
    broken,
    check,
    done,
    fill,
    issue,
    loose,
    measure,
    replay,
    support,
    tighten,
    torque,
    vent,
    work,
)
from tests.core.work.playing import in_the_bay, prepared

FLAT = done("arrive", conditions={"support": "wheels", "air FL": "vented"})
YARD = "The lift is needed; the vehicle is pushed to the yard by hand, nobody in it."
BOLTS = done("start", "fork@FL", pieces=("bolt", "nut"))


def allow(rule: str) -> Act:
    return done("allow", by=IMKE, rule=rule, reason=YARD)


def stripped() -> State:
    return work(begun(*STRUT_JOB), *LIFTED, *STRIPPED)


def pushed_out() -> State:
    """The new strut was the wrong one: the old one goes back on, empty, and the vehicle is pushed out on it."""
    found = done("inspect", id="box", finding="found wrong", text="New strut is the right-hand one.")
    back = (done("put_on", "strut@FL", piece="same"), *KIT, BOLTS, done("plug_in", "plug@FL"))
    sealed = done("join", "line@FL", pieces=("O-ring",), plugs=2)
    state = work(stripped(), found, *back, sealed, done("start", "wheel@FL"))
    state = work(state, allow("weight-on-empty-spring"), TOUCHING, tighten("wheel@FL"), check("wheel@FL"))
    return work(state, allow("weight-on-empty-spring"), WHEELS)


def test_part_found_wrong_after_dismantling_the_vehicle_cannot_just_be_lowered() -> None:
    state = work(stripped(), done("inspect", id="box", finding="found wrong", text="New strut is the wrong side."))
    assert broken(state, TOUCHING) == {"weight-on-empty-spring", "half-built"}
    assert {"finding-open", "left-off", "joint-left-loose", "line-left-open", "left-out"} <= loose(state)


def test_part_found_wrong_the_vehicle_pushed_out_on_an_empty_spring_shows_everything_that_is_loose() -> None:
    state = pushed_out()
    ends = {(end.rule, end.on) for end in loose_ends(state)}
    assert ("joint-left-loose", "fork@FL") in ends
    assert ("left-off", "strut@FL") in ends
    assert {"line-left-open", "condition-left", "finding-open", "weight-on-empty-spring"} <= loose(state)
    assert broken(state, done("drive")) == {"not-fit-to-drive"}


def test_part_found_wrong_somebody_had_already_pushed_it_out_when_it_was_written_down() -> None:
    state = work(stripped(), done("put_on", "strut@FL", piece="same"), *KIT, BOLTS, done("start", "wheel@FL"))
    broke = tuple(sorted(broken(state, WHEELS)))
    assert broke == ("half-built", "weight-on-empty-spring")
    kept = done("set", what="support", to="wheels", kept_after=broke, reason=YARD, by=NADIA)
    state = perform(state, kept)
    assert set(broke) <= loose(state)
    assert broken(state, done("drive")) == {"not-fit-to-drive"}


def test_part_found_wrong_the_pieces_that_were_started_once_count_as_consumed() -> None:
    state = work(pushed_out(), OFF, LIFT)
    again = work(state, done("take_out", "fork@FL"))
    old = replay((BOLTS, fill(), WHEELS, HEIGHTS), again)
    assert broken(old, tighten("fork@FL")) == {"single-use-again"}
    assert broken(work(again, issue("fork@FL", "bolt", "nut")), BOLTS) == set()


def test_part_found_wrong_and_the_right_one_fitted_later_leaves_nothing_loose() -> None:
    again = [act for act in STRIPPED if act.do != "vent"]
    state = work(pushed_out(), LIFT, *again, *BUILT, *LOWERED, *LOADED)
    state = work(state, done("repaired", "box", reason="The right strut came."), *SETTLED)
    assert loose(state) == set()


def test_a_fork_bolt_started_by_one_and_tightened_by_another_is_fine_and_both_are_known() -> None:
    nadias = [act if act.do in ("second_check", "issue") else _by(act, NADIA) for act in (*LOWERED, *LOADED)]
    nadias = [_by(act, IMKE) if act.do == "second_check" else act for act in nadias]
    state = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *BUILT, *nadias)
    assert "joint-left-loose" not in loose(state)
    tightened = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *BUILT, *LOWERED, HEIGHTS, tighten("fork@FL", NADIA))
    assert broken(tightened, check("fork@FL", NADIA)) == {"same-person"}


def _by(act: Act, person: str) -> Act:
    return done(**{**_fields(act), "by": person})  # type: ignore[arg-type]


def _fields(act: Act) -> dict[str, object]:
    return {name: getattr(act, name) for name in act.__dataclass_fields__}


def test_a_joint_with_one_stage_by_one_person_and_the_next_by_another_is_checked_by_a_third() -> None:
    state = work(staged(), tighten("fork@FL", BRAM, stage=1), tighten("fork@FL", NADIA, stage=2))
    assert broken(state, check("fork@FL", BRAM)) == {"same-person"}
    assert broken(state, check("fork@FL", NADIA)) == {"same-person"}
    assert broken(state, check("fork@FL", IMKE)) == set()


def staged() -> State:
    """A fork bolt with two stages, started by hand, the vehicle at ride height."""
    fork = FORK.__class__("fork@FL", "Fork bolt", figure="f", safety=True, loaded=True, corner="FL")
    ready = (torque("f", "50 N*m", "120 N*m"), *LIFTED, done("take_out", "fork@FL"), done("start", "fork@FL"))
    return work(begun(fork), *ready, WHEELS, HEIGHTS)


def test_a_part_tightened_joint_shouts() -> None:
    loud = {end.on for end in loose_ends(work(staged(), tighten("fork@FL", stage=1))) if end.loud}
    assert loud == {"fork@FL"}
    assert not any(end.loud for end in loose_ends(work(staged(), tighten("fork@FL"))))


def test_stages_are_tightened_in_their_order() -> None:
    assert broken(staged(), tighten("fork@FL", stage=2)) == {"out-of-state"}
    assert broken(work(staged(), tighten("fork@FL", stage=1)), tighten("fork@FL", stage=3))


def test_the_same_person_makes_both_checks_and_is_refused() -> None:
    state = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *BUILT, TOUCHING, tighten("wheel@FL", BRAM))
    assert broken(state, check("wheel@FL", BRAM)) == {"same-person"}
    alone = check("wheel@FL", "", answer="not possible", reason="No second person on a Saturday.")
    assert "joint-left-loose" in loose(replay((alone,), state))


def test_a_thread_stripped_while_torquing_is_a_finding_and_the_joint_is_not_complete() -> None:
    stripped_thread = done("inspect", id="thread", finding="must not leave so", text="Thread of the fork stripped.")
    state = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *BUILT, *LOWERED, HEIGHTS, stripped_thread)
    assert {"joint-left-loose", "finding-open"} <= loose(state)
    again = work(state, LIFT, vent(), done("take_out", "fork@FL"))
    old = replay((done("start", "fork@FL"), fill(), WHEELS, HEIGHTS), again)
    assert broken(old, tighten("fork@FL")) == {"single-use-again"}
    mended = work(
        again, done("repaired", "thread", reason="Thread insert set."), KIT[0], BOLTS, fill(), WHEELS, *LOADED
    )
    assert not {"joint-left-loose", "finding-open"} & loose(mended)


def test_a_joint_loosened_again_after_its_torque_begins_a_new_cycle() -> None:
    state = work(begun(*STRUT_JOB), *STRUT_RENEWED, OFF, LIFT, vent(), done("loosen", "fork@FL"))
    assert "joint-left-loose" in loose(state)
    ready = work(state, done("start", "fork@FL"), fill(), WHEELS, HEIGHTS)
    assert broken(ready, tighten("fork@FL")) == {"single-use-again"}
    renewed = work(state, done("take_out", "fork@FL"), KIT[0], BOLTS, fill(), WHEELS, HEIGHTS, tighten("fork@FL"))
    assert {"joint-left-loose", "not-driven", "not-aligned", "codes-not-read"} <= loose(renewed)
    assert "joint-left-loose" not in loose(work(renewed, check("fork@FL")))


def test_a_bush_found_clamped_at_droop_is_marked_loosened_and_tightened_at_height_with_new_pieces() -> None:
    at_droop = tighten("fork@FL", kept_after=("tightened-hanging",), reason="Found at the final check.")
    state = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *BUILT, at_droop, *LOWERED)
    assert "tightened-hanging" in loose(state)
    again = (LIFT, vent(), done("take_out", "fork@FL"), KIT[0], BOLTS, fill(), WHEELS)
    state = work(state, *again, *LOADED, *SETTLED)
    assert loose(state) == set()


def lives(corner: str) -> Iterator[State]:
    """The states of a vehicle that came in flat at `corner`, while its air line is renewed by the method."""
    path = Path(__file__).parents[2] / "data" / "methods" / "air-line-one-corner.toml"
    method = read_method(path.read_bytes())
    options = {"liner": True}
    arrived = work(START, done("arrive", conditions={"support": "wheels", f"air {corner}": "vented"}))
    state = prepared(method, corner, options, arrived)
    for step in steps_for(method, corner, options):
        act = in_the_bay(propose(step, corner, state), state)
        state = perform(state, act)
        yield state


@pytest.mark.parametrize("corner", ["FL", "RR"])
def test_a_vehicle_that_comes_in_flat_is_lifted_mended_filled_and_leaves_nothing_loose(corner: str) -> None:
    states = list(lives(corner))
    assert len(states) == 29
    assert loose(states[-1]) == set()


def test_a_vehicle_that_comes_in_flat_stands_as_it_came_and_is_not_driven() -> None:
    flat = work(PERMITTED, FLAT)
    assert loose(flat) == {"condition-left"}
    assert broken(flat, done("drive")) == {"not-fit-to-drive"}
    assert broken(work(flat, OFF), LIFT) == set()
    assert broken(work(flat, OFF, LIFT), WHEELS) == {"weight-on-empty-spring"}


def test_a_vehicle_that_comes_in_flat_is_filled_while_its_tyres_touch() -> None:
    lifted = work(PERMITTED, FLAT, OFF, LIFT)
    touching = work(lifted, support("touching", fills=("FL",)))
    assert broken(touching, WHEELS) >= {"promise-to-fill"}
    assert broken(touching, vent("RL")) >= {"promise-to-fill"}
    assert broken(work(touching, fill()), WHEELS) == set()


def test_heights_on_arrival_can_be_not_possible_and_are_then_no_reading() -> None:
    stops = measure("heights", answer="not possible", reason="Down on its stops.")
    state = work(begun(*STRUT_JOB), FLAT, stops)
    assert not state.order.heights_fresh
    assert "heights-missing" not in loose(work(begun(*STRUT_JOB), stops, *STRUT_RENEWED[1:]))
