"""Every sequence of accepted acts on one corner with one joint, one line and one part: none of them is unsafe.

The search is exhaustive over the acts below: from each state that is reached, each act that the rules accept is done.
Whether what came about is unsafe is judged on a second account of the corner (`shadow`), not on what the rules read.
Two ways to the same state are joined; what only the end rules read is left out of that comparison in the first search
and is searched by the second.
"""

from collections import deque
from collections.abc import Callable, Hashable
from dataclasses import replace

import pytest

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Joint, Line, Part
from jobbook.core.work.rules import apply, refusals
from jobbook.core.work.state import State
from tests.core.work.building import (
    ACTIVE,
    CODES,
    HEIGHTS,
    LIFT,
    NADIA,
    OFF,
    PROPPED,
    TOUCHING,
    WHEELS,
    begun,
    calibrate,
    check,
    done,
    fill,
    issue,
    support,
    tighten,
    vent,
)
from tests.core.work.shadow import Owed, Shadow, after, nothing_owed, owed_after

JOINT = Joint("joint@FL", "Strut bolt", safety=True, corner="FL")
LINE = Line("line@FL", "Air line", places=("FL",), seal="O-ring", corner="FL")
PART = Part("part@FL", "Strut", True, places=("FL",), held_by=("joint@FL", "line@FL"), sets_height=True, corner="FL")
KINDS = {
    "single-use, in rubber": replace(JOINT, single_use=True, pieces=("bolt",), loaded=True),
    "single-use": replace(JOINT, single_use=True, pieces=("bolt",)),
    "in rubber": replace(JOINT, loaded=True),
    "of a wheel": replace(JOINT, wheel=True),
}
FEWEST = {"single-use, in rubber": 3_000, "single-use": 3_000, "in rubber": 1_500, "of a wheel": 1_500}
CHECK = check("joint@FL", NADIA)
ON_JOINT = ("loosen", "take_out", "start")
ACTS = (
    *(LIFT, PROPPED, TOUCHING, WHEELS, support("touching", fills=("FL",)), OFF, ACTIVE, vent(), fill(), HEIGHTS),
    *(done(do, "joint@FL") for do in ON_JOINT),
    *(done("start", "joint@FL", pieces=("bolt",)), tighten("joint@FL"), CHECK),
    *(done("open", "line@FL"), done("plug", "line@FL", plugs=1), done("join", "line@FL", plugs=1)),
    *(done("join", "line@FL", plugs=1, pieces=("O-ring",)), done("prove", "line@FL", ends="tight")),
    *(done("take_off", "part@FL"), done("put_on", "part@FL", piece="same")),
    *(done("put_on", "part@FL", piece="another"), done("drive")),
    *(issue("joint@FL", "bolt"), issue("line@FL", "O-ring")),
)
OPENED = ("open", "plugged")
BY_HAND = ("loosened", "out", "started")
STANDS = ("wheels", "propped")
Step = tuple[Shadow, Act, Shadow]
Judge = Callable[[Step, State | None], None]


def weight_on_an_empty_spring(step: Step) -> bool:
    now = step[2]
    return now.air == "vented" and (now.support in STANDS or (now.support == "touching" and not now.promised))


def an_open_line_under_pressure(step: Step) -> bool:
    return step[2].line in OPENED and step[2].air == "charged"


def a_used_piece_tightened(step: Step) -> bool:
    before, act, now = step
    return (act.do == "tighten" and before.used) or (act.do == "join" and now.old_seal)


def on_its_wheels_with_a_joint_out(step: Step) -> bool:
    now = step[2]
    return now.support == "wheels" and (now.joint == "out" or now.part == "off")


def a_road_test_with_a_joint_by_hand(step: Step) -> bool:
    before, act, _ = step
    return act.do == "drive" and (before.joint in BY_HAND or before.line in OPENED or before.air == "vented")


UNSAFE: dict[str, Callable[[Step], bool]] = {
    "weight on an empty spring": weight_on_an_empty_spring,
    "an open line under pressure": an_open_line_under_pressure,
    "a used single-use piece tightened": a_used_piece_tightened,
    "on its wheels with a joint out": on_its_wheels_with_a_joint_out,
    "a road test with a joint by hand": a_road_test_with_a_joint_by_hand,
}


def unsafe_in(step: Step) -> list[str]:
    return [name for name, unsafe in UNSAFE.items() if unsafe(step)]


LOOSE: dict[tuple[str, str], Callable[[Shadow], bool]] = {
    ("joint-left-loose", "joint@FL"): lambda now: now.joint not in ("untouched", "checked"),
    ("line-left-open", "line@FL"): lambda now: now.line not in ("connected", "proved"),
    ("left-off", "part@FL"): lambda now: now.part != "renewed",
    ("condition-left", "levelling"): lambda now: now.levelling != "active",
    ("condition-left", "support"): lambda now: now.support != "wheels",
    ("condition-left", "air FL"): lambda now: now.air != "charged",
}


def loose_at(now: Shadow) -> set[tuple[str, str]]:
    """Rule and name of everything that holds the release; empty where the corner is whole again with its new part."""
    return {end for end, is_loose in LOOSE.items() if is_loose(now)}


def told_loose(state: State) -> set[tuple[str, str]]:
    return {(end.rule, end.on) for end in loose_ends(state)} & LOOSE.keys()


def read_by_act_rules(state: State) -> Hashable:
    """What the act rules can read of the state; persons count, times and the count of pieces thrown away do not."""
    joints = tuple(
        (name, joint.word, joint.stage, joint.touched, joint.used, frozenset(by for _, by, _ in joint.done_by))
        for name, joint in state.joints.items()
    )
    lines = tuple((name, line.word, line.leaks, line.excused) for name, line in state.lines.items())
    order = (state.order.heights_fresh, state.order.waited)
    known = (
        tuple(state.conditions.items()),
        tuple(state.parts.items()),
        tuple(sorted(filter(all, state.issued.items()))),
    )
    rest = (state.propped_at, state.promised, tuple(state.stood_empty), tuple(state.allowances), tuple(state.broken))
    return joints, lines, order, known, rest


def offered(shadow: Shadow, act: Act) -> bool:
    """One spare set and one spare seal at a time, and a set only where one is needed: else the store has no end."""
    if act.do == "issue" and act.on == "joint@FL":
        return shadow.single_use and shadow.bolts == 0
    return act.do != "issue" or shadow.seals == 0


def search(kind: str, judge: Judge, ignored: str = "") -> int:
    """Do every act that the rules accept from every state that is reached; return how many states there are.

    `judge` sees every act, and the state that it leads to where that is new. One rule may be left out of the rules.
    """
    start, shadow = begun(KINDS[kind], LINE, PART), Shadow(single_use=KINDS[kind].single_use)
    seen = {(read_by_act_rules(start), shadow)}
    queue = deque([(start, shadow)])
    while queue:
        state, before = queue.popleft()
        for act in ACTS:
            if not offered(before, act) or any(refusal.rule != ignored for refusal in refusals(state, act)):
                continue
            following, now = apply(state, act), after(before, act)
            key = (read_by_act_rules(following), now)
            judge((before, act, now), None if key in seen else following)
            if key not in seen:
                seen.add(key)
                queue.append((following, now))
    return len(seen)


@pytest.mark.parametrize("kind", KINDS)
def test_no_sequence_of_accepted_acts_on_one_corner_is_unsafe(kind: str) -> None:
    reached = dict.fromkeys(("vented", "part off", "joint out", "checked", "proved", "driven", "whole again"), 0)

    def judge(step: Step, new: State | None) -> None:
        now = step[2]
        assert unsafe_in(step) == []
        assert new is None or told_loose(new) == loose_at(now), ("release with a loose end", step)
        reached["vented"] += now.air == "vented"
        reached["part off"] += now.part == "off"
        reached["joint out"] += now.joint == "out"
        reached["checked"] += now.joint == "checked"
        reached["proved"] += now.line == "proved"
        reached["driven"] += step[1].do == "drive"
        reached["whole again"] += not loose_at(now)

    assert search(kind, judge) > FEWEST[kind]
    assert all(reached.values()), reached


@pytest.mark.parametrize(
    ("rule", "danger"),
    [
        ("weight-on-empty-spring", "weight on an empty spring"),
        ("under-pressure", "an open line under pressure"),
        ("filled-while-open", "an open line under pressure"),
        ("single-use-again", "a used single-use piece tightened"),
        ("half-built", "on its wheels with a joint out"),
        ("not-fit-to-drive", "a road test with a joint by hand"),
    ],
)
def test_the_search_finds_the_danger_as_soon_as_the_rule_against_it_is_left_out(rule: str, danger: str) -> None:
    class Found(Exception):
        pass

    def judge(step: Step, new: State | None) -> None:
        if danger in unsafe_in(step):
            raise Found

    with pytest.raises(Found):
        search("single-use, in rubber", judge, ignored=rule)


FREE_JOINT = Joint("joint@FL", "Track rod lock nut", safety=True, free=True, corner="FL")
FREE_PART = Part("part@FL", "Height sensor", free=True, sets_height=True, corner="FL")
READ = (OFF, ACTIVE, HEIGHTS, CODES, done("align"), done("drive"))
CALIBRATE = tuple(calibrate(what) for what in ("heights", "headlamps", "driver_assistance"))
OWING = {
    "a joint": (FREE_JOINT, (*READ, LIFT, WHEELS, done("loosen", "joint@FL"), tighten("joint@FL"), CHECK)),
    "a part": (FREE_PART, (*READ, *CALIBRATE, done("take_off", "part@FL"), done("put_on", "part@FL", piece="same"))),
}


@pytest.mark.parametrize("kind", OWING)
def test_no_sequence_of_accepted_acts_ends_with_nothing_loose_while_something_is_still_owed(kind: str) -> None:
    """Heights, codes, calibration, geometry and road test, on what is free, so that all of them can be met."""
    thing, acts = OWING[kind]
    first = (begun(thing), Shadow(), Owed())
    seen: set[Hashable] = {(*owing(first[0]), *first[1:])}
    queue, released = deque([first]), 0
    while queue:
        state, before, owed = queue.popleft()
        for act in acts:
            if refusals(state, act):
                continue
            now = (apply(state, act), after(before, act), owed_after(owed, act))
            key = (*owing(now[0]), *now[1:])
            if key in seen:
                continue
            seen.add(key)
            queue.append(now)
            ends = loose_ends(now[0])
            assert ends or (nothing_owed(now[2]) and at_rest(now[1])), (act, now[1:])
            released += not ends and now[2].worked
    assert len(seen) > 1_000
    assert released > 0


def at_rest(now: Shadow) -> bool:
    back = now.joint in ("untouched", "checked") and now.part != "off"
    return back and (now.support, now.levelling) == ("wheels", "active")


def owing(state: State) -> tuple[Hashable, ...]:
    return read_by_act_rules(state), state.order
