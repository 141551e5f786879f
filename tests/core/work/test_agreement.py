"""The checker and the bay judge alike: a random method, checked as a file and worked through act by act."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobbook.core.work.checker import check
from jobbook.core.work.effects import effect
from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.method import propose, read_method, steps_for
from jobbook.core.work.rules import apply, refusals
from tests.core.work.building import issue
from tests.core.work.playing import in_the_bay, pieces_of, prepared
from tests.core.work.test_flawed import ACT_RULES, END_RULES

STEADY = settings(derandomize=True, deadline=None, max_examples=80, suppress_health_check=[HealthCheck.too_slow])
HEAD = """
format = "jobbook-method"
version = 1
[method]
title = "Random work"
corners = ["FL"]
[[figure]]
key = "fork_torque"
kind = "torque"
[[joint]]
key = "wheel"
name = "Wheel bolts"
wheel = true
safety = true
[[joint]]
key = "fork"
name = "Fork bolt"
figure = "fork_torque"
single_use = ["bolt", "nut"]
loaded = true
safety = true
[[joint]]
key = "lock"
name = "Lock nut"
free = true
[[line]]
key = "line"
name = "Air line"
at = "here"
seal = "O-ring"
[[line]]
key = "supply"
name = "Supply line"
at = "reservoir"
[[part]]
key = "strut"
name = "Strut"
renewed = true
at = "here"
held_by = ["fork", "line", "plug"]
sets_height = true
[[part]]
key = "trim"
name = "Trim"
free = true
near_restraints = true
[[connector]]
key = "plug"
name = "Connector"
[[aid]]
key = "strap"
name = "Strap"
"""
WORDS = {
    "joint": (("wheel", "fork", "lock"), ("loosen", "take_out", "start", "tighten", "second_check")),
    "line": (("line", "supply"), ("open", "plug", "join", "prove")),
    "part": (("strut", "trim"), ("take_off", "put_on")),
    "connector": (("plug",), ("unplug", "plug_in")),
    "aid": (("strap",), ("place", "clear")),
}
ON_THINGS = tuple(
    f'do = "{do}"\n{table} = "{key}"' for table, (keys, words) in WORDS.items() for key in keys for do in words
)
SETTING = (
    *(f'do = "set"\nsupport = "{to}"' for to in ("wheels", "touching", "propped", "lift")),
    'do = "set"\nsupport = "touching"\nfills = "here"',
    *(f'do = "set"\nlevelling = "{to}"' for to in ("active", "off")),
    *('do = "set"\nignition = "off"', 'do = "set"\nbattery = "disconnected"', 'do = "set"\nbattery = "connected"'),
    *('do = "set"\nrestraints = "isolated"', 'do = "set"\nrestraints = "live"', 'do = "wait"\nminutes = 10'),
)
REST = (
    *(f'do = "{do}"\nat = "{at}"' for do in ("vent", "fill") for at in ("here", "axle", "all", "reservoir")),
    *(f'do = "measure"\nwhat = "{what}"' for what in ("heights", "fault_codes")),
    *(f'do = "calibrate"\nwhat = "{what}"' for what in ("heights", "headlamps", "driver_assistance")),
    *('do = "align"', 'do = "drive"'),
)
STEPS = st.lists(st.sampled_from((*ON_THINGS, *SETTING, *REST)), max_size=35)


def written(steps: list[str]) -> bytes:
    return (HEAD + "".join(f'[[step]]\n{step}\ncaution = "Take care."\n' for step in steps)).encode()


def judged_in_the_bay(raw: bytes) -> set[tuple[int | str, str]]:
    """Step and rule of every refusal; what was refused then takes its effect, and pieces are always at hand."""
    method = read_method(raw)
    state, found = prepared(method, "FL", {}), set()
    for step in steps_for(method, "FL", {}):
        act = propose(step, "FL", state)
        pieces = pieces_of(state.things.get(act.on))
        if act.do in ("start", "join") and pieces and not state.issued.get(act.on):
            state = apply(state, issue(act.on, *pieces))
        act = in_the_bay(propose(step, "FL", state), state)
        found |= {(step.number, refusal.rule) for refusal in refusals(state, act)}
        state = effect(state, act)
    return found | {("end", end.rule) for end in loose_ends(state) if end.rule in END_RULES}


@STEADY
@given(STEPS)
def test_checker_and_bay_refuse_the_same_steps_by_the_same_rules(steps: list[str]) -> None:
    raw = written(steps)
    found = {(finding.step, finding.rule) for finding in check(raw) if finding.rule in (*ACT_RULES, *END_RULES)}
    assert found == judged_in_the_bay(raw)


def test_the_comparison_is_not_empty() -> None:
    raw = written(
        ['do = "set"\nsupport = "lift"', 'do = "set"\nsupport = "wheels"', 'do = "unplug"\nconnector = "plug"']
    )
    ends = {("end", "left-out"), ("end", "left-off")}  # the strut of this method is to be renewed and never was
    assert judged_in_the_bay(raw) == {(1, "lift-with-levelling-active"), *ends}
