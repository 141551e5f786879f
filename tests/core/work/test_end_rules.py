"""End rules that only the bay can break, and the answers that satisfy an end rule by name."""

from dataclasses import replace

import pytest

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Part
from jobbook.core.work.state import START, State
from tests.core.work.building import (
    ACTIVE,
    BUILT,
    CODES,
    FREE,
    HEIGHTS,
    LIFT,
    LIFTED,
    LINE,
    LOADED,
    LOWERED,
    OFF,
    PLUG,
    SETTLED,
    STRIPPED,
    STRUT_JOB,
    STRUT_RENEWED,
    WHEEL,
    begun,
    broken,
    done,
    fill,
    issue,
    loose,
    measure,
    put,
    replay,
    tighten,
    vent,
    work,
)

ANSWERS = ("not possible", "declined", "not applicable", "sublet")
DOING = {
    "joint-left-loose": (done("loosen", "wheel@FL"), "wheel@FL"),
    "left-out": (done("unplug", "plug@FL"), "plug@FL"),
    "left-behind": (done("place", "strap@FL"), "strap@FL"),
    "left-off": (STRIPPED[-1], "strut@FL"),
    "line-left-open": (STRIPPED[2], "line@FL"),
}


def without(acts: tuple[Act, ...], do: str, what: str = "") -> tuple[Act, ...]:
    return tuple(act for act in acts if act.do != do or (what and act.what != what))


def now_loose(state: State) -> set[tuple[str, str]]:
    """Rule and name of what is loose now; what is only still to do stands apart."""
    return {(end.rule, end.on) for end in loose_ends(state) if end.group == "loose now"}


@pytest.mark.parametrize("rule", DOING)
def test_what_is_loosened_opened_taken_off_unplugged_or_placed_is_loose_at_that_moment(rule: str) -> None:
    act, name = DOING[rule]
    before = (*LIFTED, *STRIPPED[: STRIPPED.index(act)]) if act in STRIPPED else LIFTED
    state = work(begun(*STRUT_JOB), *before)
    assert (rule, name) not in now_loose(state)
    assert (rule, name) in now_loose(work(state, act))


def test_plugs_differ() -> None:
    state = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED)
    assert "plugs-differ" in loose(state)
    built = [replace(act, plugs=1) if act.do == "join" else act for act in BUILT]
    state = work(state, *built)
    assert "plugs-differ" in loose(state)
    gone = [replace(act, plugs=1) if act.do == "take_off" else act for act in STRIPPED]
    assert "plugs-differ" not in loose(work(begun(*STRUT_JOB), *LIFTED, *gone, *built))


def test_plugs_differ_also_when_more_come_out_than_went_in() -> None:
    built = [replace(act, plugs=3) if act.do == "join" else act for act in BUILT]
    assert "plugs-differ" in loose(work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *built))


@pytest.mark.parametrize("closing", ["repaired", "declined", "referred"])
def test_finding_open(closing: str) -> None:
    found = work(START, done("inspect", id="i1", finding="found wrong", text="Link boot torn."))
    assert loose(found) == {"finding-open"}
    assert loose(work(found, done(closing, "i1", reason="By telephone."))) == set()


@pytest.mark.parametrize("closing", ["declined", "referred"])
def test_finding_open_what_must_not_leave_so_is_only_repaired_or_let_go(closing: str) -> None:
    found = work(START, done("inspect", id="i1", finding="must not leave so", text="Brake hose chafed through."))
    assert broken(found, done(closing, "i1", reason="By telephone."))
    assert "finding-open" in loose(replay((done(closing, "i1", reason="By telephone."),), found))
    assert loose(work(found, done("repaired", "i1"))) == set()


def test_finding_open_what_must_not_leave_so_is_let_go_only_with_a_restriction() -> None:
    found = work(START, done("inspect", id="i1", finding="must not leave so", text="Brake hose chafed through."))
    assert broken(found, done("let_go", "i1", rule="finding-open", reason="Recovered by its owner."))
    restricted = done("let_go", "i1", rule="finding-open", reason="Recovered by its owner.", text="Not to be driven.")
    assert loose(work(found, restricted)) == set()


def test_finding_open_nothing_is_open_when_it_was_found_in_order() -> None:
    assert loose(work(START, done("inspect", id="i1", text="Boots."))) == set()


@pytest.mark.parametrize("answer", ANSWERS)
@pytest.mark.parametrize(
    ("do", "what", "rule"),
    [
        ("calibrate", "driver_assistance", "not-calibrated"),
        ("align", "", "not-aligned"),
        ("drive", "", "not-driven"),
    ],
)
def test_an_answer_that_is_not_done_satisfies_the_end_rule_by_name(do: str, what: str, rule: str, answer: str) -> None:
    acts = (*LIFTED, *STRIPPED, *BUILT, *LOWERED, *LOADED, *without(SETTLED, do, what))
    state = work(begun(*STRUT_JOB), *acts)
    assert loose(state) == {rule}
    answered = done(do, what=what, answer=answer, reason="Asked for by the customer on the telephone.")
    assert loose(work(state, answered, CODES, HEIGHTS)) == set()


@pytest.mark.parametrize("answer", ANSWERS)
def test_an_answer_that_is_not_done_never_satisfies_an_act_rule(answer: str) -> None:
    state = work(begun(*STRUT_JOB), *LIFTED, *STRIPPED, *BUILT, *LOWERED)
    unmeasured = work(state, measure("heights", answer=answer, reason="The gauge is broken."))
    assert broken(unmeasured, tighten("fork@FL")) == {"tightened-hanging"}


def test_heights_that_could_not_be_measured_on_arrival_are_answered_by_name() -> None:
    acts = (measure("heights", answer="not possible", reason="Came in on its stops."), *STRUT_RENEWED[1:])
    assert loose(work(begun(*STRUT_JOB), *acts)) == set()
    assert loose(work(begun(*STRUT_JOB), *STRUT_RENEWED[1:])) == {"heights-missing"}


def test_codes_not_read() -> None:
    assert loose(work(begun(*STRUT_JOB), HEIGHTS, *STRUT_RENEWED[2:])) == {"codes-not-read"}
    assert loose(work(begun(*STRUT_JOB), *STRUT_RENEWED[:-1])) == {"codes-not-read"}


def test_not_aligned_align_may_follow_after_the_road_test_but_never_the_calibration() -> None:
    early = (*LIFTED, *STRIPPED, *BUILT, *LOWERED, *LOADED, ACTIVE, done("align"), *without(SETTLED[1:], "align"))
    assert loose(work(begun(*STRUT_JOB), *early)) == {"not-calibrated"}
    assert loose(work(begun(*STRUT_JOB), *early, done("align"))) == set()


@pytest.mark.parametrize(
    ("act", "back"),
    [
        (OFF, ACTIVE),
        (put("battery", "disconnected"), put("battery", "connected")),
        (vent("reservoir"), fill("reservoir")),
    ],
    ids=["levelling", "battery", "air"],
)
def test_condition_left(act: Act, back: Act) -> None:
    state = work(begun(LINE), act)
    assert loose(state) == {"condition-left"}
    assert loose(work(state, back)) == set()


def test_condition_left_ignition_may_be_either() -> None:
    assert loose(work(START, put("ignition", "off"))) == set()


def test_condition_left_counts_air_that_a_variant_does_not_have_as_charged() -> None:
    steel = work(START, done("arrive", conditions={"air FL": "none", "air FR": "none", "air reservoir": "none"}))
    assert loose(steel) == set()
    lifted = work(steel, done("permit"), OFF, LIFT, vent("RL"))
    assert broken(lifted, put("support", "wheels")) == {"weight-on-empty-spring"}
    assert broken(work(lifted, fill("RL")), put("support", "wheels")) == set()


def test_left_off_a_part_that_was_to_be_renewed_does_not_end_as_the_same_one() -> None:
    cover = Part("cover@FL", "Cover", renewed=True, free=True)
    state = work(begun(cover), OFF, done("take_off", "cover@FL"))
    assert "left-off" in loose(work(state, done("put_on", "cover@FL", piece="same")))
    assert "left-off" not in loose(work(state, done("put_on", "cover@FL", piece="another")))


def test_line_left_open_a_proof_that_was_not_possible_is_answered_by_name_until_the_line_is_opened_again() -> None:
    opening = (done("open", "line@FL"), issue("line@FL", "O-ring"), done("join", "line@FL", pieces=("O-ring",)))
    state = work(begun(LINE), *LIFTED, vent(), *opening, fill())
    excused = work(state, done("prove", "line@FL", answer="not possible", reason="No soap reaches it."))
    assert "line-left-open" not in loose(excused)
    assert "line-left-open" in loose(work(excused, vent(), *opening, fill()))


def test_heights_missing_after_the_last_fill() -> None:
    again = (*STRUT_RENEWED, fill())
    assert loose(work(begun(*STRUT_JOB), *again)) == {"heights-missing"}
    assert loose(work(begun(*STRUT_JOB), *again, HEIGHTS)) == set()


def test_line_left_open_a_line_that_was_looked_at_and_is_not_tight_is_not_closed() -> None:
    state = work(begun(LINE), *LIFTED, vent(), done("open", "line@FL"), issue("line@FL", "O-ring"))
    state = work(state, done("join", "line@FL", pieces=("O-ring",)), fill())
    assert "line-left-open" in loose(state)
    assert "line-left-open" in loose(work(state, done("prove", "line@FL", ends="not tight")))
    assert "line-left-open" not in loose(work(state, done("prove", "line@FL", ends="tight")))


def test_the_loose_ends_stand_in_two_groups() -> None:
    state: State = work(begun(FREE, PLUG), OFF, done("loosen", "lock@FL"), done("unplug", "plug@FL"))
    groups = {end.rule: end.group for end in loose_ends(state)}
    now = ("joint-left-loose", "left-out", "condition-left")
    assert {groups[rule] for rule in now} == {"loose now"}
    assert {group for rule, group in groups.items() if rule not in now} == {"still to do"}
    assert {"not-driven", "codes-not-read", "heights-missing"} <= groups.keys()


def test_only_wheel_joints_worked_on_asks_for_no_heights_no_codes_and_no_road_test() -> None:
    state = work(begun(WHEEL, LINE, FREE, PLUG), done("loosen", "wheel@FL"), tighten("wheel@FL"))
    assert loose(state) == {"joint-left-loose"}
