"""Act rules about parts and joints going back on, restraints and the road test, a test for each, named by the rule."""

import pytest

from jobbook.core.work.model import Connector, Joint, Line, Part
from jobbook.core.work.state import START
from tests.core.work.building import (
    ACTIVE,
    BUILT,
    FREE,
    HEIGHTS,
    KIT,
    LIFT,
    LIFTED,
    LOADED,
    LOWERED,
    OFF,
    PLAIN,
    PROPPED,
    SETTLED,
    STRIPPED,
    STRUT_JOB,
    TOUCHING,
    WHEEL,
    WHEELS,
    begun,
    broken,
    done,
    fill,
    put,
    replay,
    tighten,
    vent,
    work,
)


@pytest.mark.parametrize("left", ["fork@FL", "line@FL", "plug@FL"])
def test_still_held(left: str) -> None:
    acts = [act for act in STRIPPED if act.on != left]
    assert broken(work(begun(*STRUT_JOB), *LIFTED, *acts[:-1]), acts[-1]) == {"still-held"}


def test_still_held_also_bars_what_holds_a_part_from_going_on_before_it() -> None:
    stripped = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *KIT)
    for act in BUILT:
        if act.do in ("start", "join", "plug_in") and act.on != "wheel@FL":
            assert broken(stripped, act) == {"still-held"}


def test_still_held_starts_a_line_nut_only_on_a_joined_line() -> None:
    line = Line("line@FL", "Air line", places=("FL",), held_by=("plain@FL",))
    state = work(begun(PLAIN, line), OFF, LIFT, vent(), done("take_out", "plain@FL"), done("open", "line@FL"))
    state = work(state, done("plug", "line@FL", plugs=1))
    assert broken(state, done("start", "plain@FL")) == {"still-held"}
    assert broken(work(state, done("join", "line@FL", plugs=1)), done("start", "plain@FL")) == set()


def test_restraints_live() -> None:
    trim = Part("trim@FL", "Trim", near_restraints=True, free=True)
    bag = Connector("bag@FL", "Crash bag connector", near_restraints=True)
    isolating = (put("ignition", "off"), put("battery", "disconnected"), done("wait", minutes="10"))
    state = work(begun(trim, bag), OFF)
    gone = (done("take_off", "trim@FL"), done("unplug", "bag@FL"))
    for act in gone:
        assert broken(state, act) == {"restraints-live"}
    isolated = work(state, *isolating, put("restraints", "isolated"))
    back = work(isolated, *gone, put("restraints", "live"))
    assert broken(back, done("put_on", "trim@FL", piece="same")) == {"restraints-live"}
    assert broken(back, done("plug_in", "bag@FL")) == {"restraints-live"}


@pytest.mark.parametrize("missing", range(3))
def test_restraints_live_isolates_only_with_ignition_off_battery_off_and_a_wait_since(missing: int) -> None:
    acts = [put("ignition", "off"), put("battery", "disconnected"), done("wait", minutes="10")]
    assert broken(work(START, *acts), put("restraints", "isolated")) == set()
    del acts[missing]
    assert broken(work(START, *acts), put("restraints", "isolated")) == {"restraints-live"}


def test_restraints_live_wants_the_wait_after_the_battery_went_off() -> None:
    early = (put("ignition", "off"), done("wait", minutes="10"), put("battery", "disconnected"))
    assert broken(work(START, *early), put("restraints", "isolated")) == {"restraints-live"}
    again = (put("battery", "connected"), put("battery", "disconnected"))
    waited = work(START, *early, done("wait", minutes="10"))
    assert broken(work(waited, *again), put("restraints", "isolated")) == {"restraints-live"}


def test_restraints_live_one_wait_holds_until_battery_or_ignition_come_back() -> None:
    waited = work(START, put("ignition", "off"), put("battery", "disconnected"), done("wait", minutes="10"))
    turned = work(waited, put("restraints", "isolated"), put("restraints", "live"))
    assert broken(turned, put("restraints", "isolated")) == set()
    for what, back, off in (("ignition", "on", "off"), ("battery", "connected", "disconnected")):
        state = work(turned, put(what, back), put(what, off))
        assert broken(state, put("restraints", "isolated")) == {"restraints-live"}


def test_hand_first() -> None:
    out = work(begun(PLAIN), OFF, LIFT, done("take_out", "plain@FL"))
    assert broken(out, tighten("plain@FL")) == {"hand-first"}
    assert broken(work(out, done("start", "plain@FL")), tighten("plain@FL")) == set()


def test_tightened_hanging() -> None:
    bush = Joint("bush@FL", "Bush bolt", loaded=True)
    by_hand = work(begun(bush), OFF, LIFT, done("loosen", "bush@FL"), done("start", "bush@FL"))
    act = tighten("bush@FL")
    for where in ((HEIGHTS,), (TOUCHING, HEIGHTS), (WHEELS,), (HEIGHTS, WHEELS), (PROPPED,), (WHEELS, HEIGHTS, fill())):
        assert broken(work(by_hand, *where), act) == {"tightened-hanging"}, where
    for where in ((WHEELS, HEIGHTS), (PROPPED, HEIGHTS), (WHEELS, fill(), HEIGHTS)):
        assert broken(work(by_hand, *where), act) == set(), where
    assert broken(work(by_hand, WHEELS, ACTIVE, HEIGHTS), act) == {"tightened-hanging"}
    assert broken(work(by_hand, WHEELS, HEIGHTS, ACTIVE, OFF), act) == {"tightened-hanging"}


def test_tightened_hanging_wants_a_wheel_joint_tightened_with_the_tyres_on_the_ground() -> None:
    started = work(begun(WHEEL), OFF, LIFT, done("take_out", "wheel@FL"), done("start", "wheel@FL"))
    assert broken(started, tighten("wheel@FL")) == {"tightened-hanging"}
    assert broken(work(started, PROPPED), tighten("wheel@FL")) == {"tightened-hanging"}
    assert broken(work(started, TOUCHING), tighten("wheel@FL")) == set()


@pytest.mark.parametrize("missing", ["fork@FL", "wheel@FL"])
def test_not_fit_to_drive_without_a_second_check(missing: str) -> None:
    acts = (*LIFTED, *STRIPPED, *BUILT, *LOWERED, *LOADED)
    acts = tuple(act for act in acts if not (act.do == "second_check" and act.on == missing))
    assert broken(work(begun(*STRUT_JOB), *acts, *SETTLED[:5]), done("drive")) == {"not-fit-to-drive"}


def test_not_fit_to_drive() -> None:
    trim = Part("trim@FL", "Trim", free=True)
    supply = Line("supply", "Supply line", places=("reservoir",))
    state = work(begun(FREE, trim, supply), OFF)
    drive = done("drive")
    assert broken(state, drive) == set()
    assert broken(work(state, LIFT), drive) == {"not-fit-to-drive"}
    assert broken(work(state, TOUCHING), drive) == {"not-fit-to-drive"}
    assert broken(work(state, done("take_off", "trim@FL")), drive) == {"not-fit-to-drive"}
    assert broken(work(state, done("loosen", "lock@FL")), drive) == {"not-fit-to-drive"}
    assert broken(work(state, done("loosen", "lock@FL"), tighten("lock@FL")), drive) == set()
    opened = work(state, LIFT, vent("reservoir"), done("open", "supply"))
    assert broken(replay((WHEELS,), opened), drive) == {"not-fit-to-drive"}
    flat = replay((done("arrive", conditions={"air FL": "vented", "support": "wheels"}),))
    assert broken(flat, drive) == {"not-fit-to-drive"}
