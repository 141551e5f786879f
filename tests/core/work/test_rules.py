"""Act rules about the vehicle, a test for each, named by the rule; what each says stands in the table of rules."""

import pytest

from jobbook.core.work.model import Act, Joint, Line, Part
from jobbook.core.work.state import START, State
from tests.core.work.building import (
    ACTIVE,
    FORK,
    FREE,
    LIFT,
    LINE,
    OFF,
    PERMITTED,
    PLAIN,
    PLUG,
    PROPPED,
    STRAP,
    STRUT,
    STRUT_JOB,
    STRUT_RENEWED,
    TOUCHING,
    WHEEL,
    WHEELS,
    begun,
    broken,
    check,
    done,
    fill,
    issue,
    loose,
    put,
    replay,
    support,
    tighten,
    vent,
    work,
)

JOINT_ACTS = {
    "untouched": (),
    "loosened": (done("loosen", "plain@FL"),),
    "out": (done("take_out", "plain@FL"),),
    "started": (done("take_out", "plain@FL"), done("start", "plain@FL")),
    "tightened": (tighten("plain@FL"),),
    "checked": (tighten("plain@FL"), check("plain@FL")),
}
JOINT_MAY = {
    "loosen": {"untouched", "loosened", "started", "tightened", "checked"},
    "take_out": {"untouched", "loosened", "started", "tightened", "checked"},
    "start": {"loosened", "out"},
    "tighten": {"untouched", "loosened", "out", "started", "tightened"},
    "second_check": {"tightened"},
}
LINE_ACTS = {
    "connected": (),
    "open": (done("open", "line@FL"),),
    "plugged": (done("open", "line@FL"), done("plug", "line@FL", plugs=1)),
    "joined": (done("open", "line@FL"), done("join", "line@FL")),
    "proved": (done("prove", "line@FL", ends="tight"),),
}
LINE_MAY = {
    "open": {"connected", "joined", "proved"},
    "plug": {"open"},
    "join": {"open", "plugged"},
    "prove": {"connected", "joined", "proved"},
}


@pytest.mark.parametrize("was", JOINT_ACTS)
@pytest.mark.parametrize("do", JOINT_MAY)
def test_out_of_state_for_joints(was: str, do: str) -> None:
    state = replay((LIFT, *JOINT_ACTS[was]), begun(PLAIN))
    assert ("out-of-state" in broken(state, done(do, "plain@FL"))) == (was not in JOINT_MAY[do])


@pytest.mark.parametrize("was", LINE_ACTS)
@pytest.mark.parametrize("do", LINE_MAY)
def test_out_of_state_for_lines(was: str, do: str) -> None:
    state = replay((LIFT, *LINE_ACTS[was]), begun(LINE))
    assert ("out-of-state" in broken(state, done(do, "line@FL", ends="tight"))) == (was not in LINE_MAY[do])


@pytest.mark.parametrize(
    ("thing", "goes", "comes"),
    [(PLUG, "unplug", "plug_in"), (STRAP, "place", "clear"), (Part("p@FL", "Cover"), "take_off", "put_on")],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_out_of_state_for_what_goes_and_comes(thing: Part, goes: str, comes: str) -> None:
    fresh = replay((OFF, LIFT), begun(thing))
    gone = work(fresh, done(goes, thing.name))
    assert "out-of-state" in broken(fresh, done(comes, thing.name))
    assert "out-of-state" in broken(gone, done(goes, thing.name))
    assert broken(gone, done(comes, thing.name, piece="same")) == set()


def test_a_strut_renewed_in_good_order_breaks_no_rule_and_leaves_nothing_loose() -> None:
    assert loose(work(begun(*STRUT_JOB), *STRUT_RENEWED)) == set()


@pytest.mark.parametrize("to", ["lift", "propped"])
def test_lift_with_levelling_active(to: str) -> None:
    assert broken(START, support(to)) == {"lift-with-levelling-active"}
    assert broken(work(START, OFF), support(to)) == set()


@pytest.mark.parametrize("at", [LIFT, PROPPED, TOUCHING], ids=["lift", "propped", "touching"])
def test_levelling_woken(at: Act) -> None:
    assert broken(work(START, OFF, at), ACTIVE) == {"levelling-woken"}
    assert broken(work(START, OFF, at, WHEELS), ACTIVE) == set()


@pytest.mark.parametrize("at", ["wheels", "touching", "propped"])
def test_weight_on_empty_spring(at: str) -> None:
    assert broken(work(PERMITTED, OFF, support(at)), vent()) == {"weight-on-empty-spring"}
    vented = work(PERMITTED, OFF, LIFT, vent())
    assert broken(vented, support(at)) == {"weight-on-empty-spring"}
    assert broken(work(vented, fill()), support(at)) == set()


def test_weight_on_empty_spring_lets_the_reservoir_be_vented_on_the_wheels() -> None:
    assert broken(work(PERMITTED, OFF), vent("reservoir")) == set()
    assert broken(work(PERMITTED, OFF, vent("reservoir"), LIFT), WHEELS) == set()


def test_weight_on_empty_spring_asks_only_this_corner_of_a_propped_hub() -> None:
    vented = work(PERMITTED, OFF, LIFT, vent("RR"))
    assert broken(vented, support("propped", corner="FL")) == set()
    assert broken(vented, support("propped", corner="RR")) == {"weight-on-empty-spring"}


def test_weight_on_empty_spring_allows_a_touch_that_promises_to_fill_every_vented_corner() -> None:
    vented = work(PERMITTED, OFF, LIFT, vent("FL", "FR"))
    assert broken(vented, support("touching", fills=("FL",))) == {"weight-on-empty-spring"}
    assert broken(vented, support("touching", fills=("FL", "FR"))) == set()


@pytest.mark.parametrize(
    "act",
    [done("loosen", "wheel@FL"), tighten("wheel@FL"), vent("reservoir"), fill("reservoir"), done("prove", "line@FL")],
    ids=lambda act: act.do,
)
def test_promise_to_fill(act: Act) -> None:
    promised = work(begun(WHEEL, LINE), OFF, LIFT, vent("FL", "FR"), support("touching", fills=("FL", "FR")))
    assert "promise-to-fill" in broken(promised, act)
    assert "promise-to-fill" in broken(promised, WHEELS)
    assert "promise-to-fill" in broken(work(promised, fill("FL")), act)
    assert "promise-to-fill" not in broken(work(promised, fill("FL"), fill("FR")), act)


def test_promise_to_fill_lets_the_vehicle_be_lifted_again_instead() -> None:
    touching = support("touching", fills=("FL",))
    promised = work(begun(WHEEL), OFF, LIFT, vent(), touching)
    assert broken(promised, LIFT) == set()
    assert broken(work(promised, LIFT), done("loosen", "wheel@FL")) == set()
    assert broken(promised, put("ignition", "off")) == set()
    assert "promise-to-fill" in broken(work(promised, TOUCHING), done("loosen", "wheel@FL"))


def test_half_built_touching_wants_every_part_on_and_every_joint_at_least_by_hand() -> None:
    cover = Part("cover@FL", "Cover")
    lifted = work(begun(WHEEL, FORK, PLAIN, cover), OFF, LIFT)
    assert broken(work(lifted, done("take_off", "cover@FL")), TOUCHING) == {"half-built"}
    for joint in (WHEEL, FORK, PLAIN):
        assert broken(work(lifted, done("loosen", joint.name)), TOUCHING) == {"half-built"}
        assert broken(work(lifted, done("take_out", joint.name)), TOUCHING) == {"half-built"}


def test_half_built_wants_other_than_loaded_and_wheel_joints_tightened_before_the_tyres_touch() -> None:
    lifted = work(begun(WHEEL, FORK, PLAIN), OFF, LIFT)
    for joint, refused in ((WHEEL, set()), (FORK, set()), (PLAIN, {"half-built"})):
        started = work(lifted, done("loosen", joint.name), done("start", joint.name))
        assert broken(started, TOUCHING) == refused


def test_half_built_wants_wheel_joints_tightened_before_the_full_weight() -> None:
    started = work(begun(WHEEL), OFF, LIFT, done("take_out", "wheel@FL"), done("start", "wheel@FL"))
    assert broken(started, WHEELS) == {"half-built"}
    assert broken(work(started, TOUCHING), WHEELS) == {"half-built"}
    assert broken(work(started, TOUCHING, tighten("wheel@FL")), WHEELS) == set()


def test_half_built_leaves_out_what_is_free() -> None:
    trim = Part("trim@FL", "Trim", free=True)
    state = work(begun(FREE, trim), OFF, LIFT, done("take_off", "trim@FL"), done("take_out", "lock@FL"))
    assert broken(state, TOUCHING) == broken(state, WHEELS) == set()


@pytest.mark.parametrize("at", ["wheels", "touching"])
def test_under_load(at: str) -> None:
    cover = Part("cover@FL", "Cover")
    state = work(begun(WHEEL, PLAIN, cover), OFF, support(at))
    for act in (done("loosen", "plain@FL"), done("take_out", "plain@FL"), done("take_out", "wheel@FL")):
        assert broken(state, act) == {"under-load"}
    assert broken(state, done("take_off", "cover@FL")) == {"under-load"}
    assert "under-load" in broken(replay((vent(),), begun(LINE)), done("open", "line@FL"))
    off = replay((done("take_off", "cover@FL"),), state)
    assert broken(off, done("put_on", "cover@FL", piece="same")) == {"under-load"}


def test_under_load_lets_wheel_joints_be_loosened_anywhere() -> None:
    assert broken(begun(WHEEL), done("loosen", "wheel@FL")) == set()


def test_under_load_lets_what_is_free_be_worked_on_wherever_levelling_is_off() -> None:
    trim = Part("trim@FL", "Trim", free=True)
    state = begun(FREE, trim)
    for act in (done("loosen", "lock@FL"), done("take_out", "lock@FL"), done("take_off", "trim@FL")):
        assert broken(state, act) == {"under-load"}
        assert broken(work(state, OFF), act) == set()


@pytest.mark.parametrize(
    "act", [done("open", "line@FL"), done("take_off", "spring@FL"), done("take_out", "plain@FL")], ids=lambda a: a.do
)
def test_under_pressure(act: Act) -> None:
    spring = Part("spring@FL", "Spring", places=("FL",), held_by=())
    holder = Joint("plain@FL", "Spring bolt")
    held = Part("held@FL", "Strut", places=("FL",), held_by=("plain@FL",))
    state = work(begun(LINE, spring, holder, held), OFF, LIFT)
    assert broken(state, act) == {"under-pressure"}
    assert broken(work(state, vent("FR")), act) == {"under-pressure"}
    assert broken(work(state, vent("FL")), act) == set()


def test_under_pressure_for_a_joint_that_holds_a_line() -> None:
    line = Line("line@FL", "Air line", places=("FL",), held_by=("plain@FL",))
    state = work(begun(PLAIN, line), OFF, LIFT)
    assert broken(state, done("loosen", "plain@FL")) == {"under-pressure"}
    assert broken(work(state, vent()), done("loosen", "plain@FL")) == set()


def test_under_pressure_proves_a_line_only_with_air_behind_it() -> None:
    vented = work(begun(LINE), OFF, LIFT, vent())
    assert broken(vented, done("prove", "line@FL", ends="tight")) == {"under-pressure"}
    assert broken(work(vented, fill()), done("prove", "line@FL", ends="tight")) == set()


def test_under_pressure_wants_every_place_behind_a_line_vented() -> None:
    twin = Line("twin@RL", "Twin line", places=("RL", "RR"))
    state = work(begun(twin), OFF, LIFT, vent("RL"))
    assert broken(state, done("open", "twin@RL")) == {"under-pressure"}
    assert broken(work(state, vent("RR")), done("open", "twin@RL")) == set()


def test_open_line_left() -> None:
    second = Line("other@FL", "Other line", places=("FL",))
    cover = Part("cover@FL", "Cover")
    opened = work(begun(LINE, second, PLAIN, cover), OFF, LIFT, vent(), issue("line@FL", "O-ring"))
    opened = work(opened, done("open", "line@FL"))
    others = (done("loosen", "plain@FL"), done("open", "other@FL"), done("take_off", "cover@FL"))
    for act in others:
        assert broken(opened, act) == {"open-line-left"}
    for close in (done("plug", "line@FL", plugs=1), done("join", "line@FL", pieces=("O-ring",))):
        assert broken(opened, close) == set()
        assert all(broken(work(opened, close), act) == set() for act in others)


def test_open_line_left_also_bars_the_closing_of_another_line() -> None:
    second = Line("other@FL", "Other line", places=("FL",))
    state = work(begun(LINE, second), OFF, LIFT, vent(), done("open", "other@FL"), done("plug", "other@FL", plugs=1))
    opened = work(state, done("open", "line@FL"))
    assert broken(opened, done("join", "other@FL", plugs=1)) == {"open-line-left"}
    assert broken(state, done("join", "other@FL", plugs=1)) == set()


def test_filled_while_open() -> None:
    plugged = work(begun(LINE, STRUT), OFF, LIFT, vent(), done("open", "line@FL"), done("plug", "line@FL", plugs=1))
    assert broken(plugged, fill()) == {"filled-while-open"}
    assert broken(plugged, fill("FR")) == set()
    assert "filled-while-open" in broken(replay((WHEELS,), plugged), ACTIVE)
    assert "filled-while-open" in broken(begun_with_open_line(), fill())


def begun_with_open_line() -> State:
    return work(begun(LINE), OFF, LIFT, vent(), done("open", "line@FL"))
