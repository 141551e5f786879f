"""Work that no method names: things added on the spot, figures read later, and two methods that know the same thing."""

import time
from dataclasses import replace

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Joint, Part
from jobbook.core.work.state import START, step_status
from tests.core.work.building import (
    ACTIVE,
    BRAM,
    HEIGHTS,
    LIFT,
    NADIA,
    OFF,
    STRUT,
    STRUT_JOB,
    STRUT_RENEWED,
    WHEEL,
    WHEELS,
    begun,
    broken,
    check,
    done,
    issue,
    loose,
    replay,
    support,
    tighten,
    torque,
    vent,
    work,
)

LINK = Joint("link@FL", "Anti-roll bar link", figure="link_torque", safety=True, single_use=True, pieces=("nut",))


def test_a_joint_loosened_for_access_is_added_with_its_figure_and_is_a_loose_end_like_any_other() -> None:
    state = work(begun(WHEEL), OFF, LIFT)
    assert broken(state, done("loosen", "link@FL")) == {"out-of-state"}
    added = work(state, done("declare", things=(LINK,)), done("take_out", "link@FL"))
    assert ("joint-left-loose", "link@FL") in {(end.rule, end.on) for end in loose_ends(added)}
    started = work(added, issue("link@FL", "nut"), done("start", "link@FL", pieces=("nut",)))
    assert broken(started, tighten("link@FL")) == {"figure-unknown"}
    tight = work(started, torque("link_torque", "45 N*m"), tighten("link@FL"))
    assert {"joint-left-loose", "not-aligned"} <= loose(tight)
    assert "joint-left-loose" not in loose(work(tight, check("link@FL")))


def test_adding_a_thing_does_not_say_that_it_was_touched() -> None:
    assert loose(work(START, done("declare", things=(LINK,)))) == set()


def test_a_joint_that_may_be_single_use_counts_as_it_until_the_variant_is_read() -> None:
    unknown = replace(LINK, by_variant=True, figure="")
    state = work(begun(unknown), OFF, LIFT, done("loosen", "link@FL"))
    assert broken(state, tighten("link@FL")) == {"single-use-again"}
    reusable = replace(unknown, single_use=False, by_variant=False)
    assert broken(work(state, done("declare", things=(reusable,))), tighten("link@FL")) == set()


def test_a_second_method_that_knows_the_same_joint_does_not_forget_how_it_stands() -> None:
    state = work(begun(WHEEL, LINK), OFF, LIFT, done("loosen", "wheel@FL"))
    again = work(state, done("begin", corner="FL", things=(WHEEL,), method_key="wheels", options={}))
    assert ("joint-left-loose", "wheel@FL") in {(end.rule, end.on) for end in loose_ends(again)}
    assert broken(again, WHEELS) == {"half-built"}


def test_where_two_methods_differ_about_a_thing_the_stricter_word_holds() -> None:
    lax = replace(LINK, safety=False, single_use=False, pieces=(), figure="")
    for first, second in ((LINK, lax), (lax, LINK)):
        begin = done("begin", corner="FL", things=(second,), method_key="other", options={})
        state = work(begun(first), begin, torque("link_torque", "45 N*m"), OFF, LIFT, done("loosen", "link@FL"))
        assert broken(state, tighten("link@FL")) == {"single-use-again"}


def test_a_thing_is_free_only_where_every_method_that_knows_it_says_so() -> None:
    bound, free = (Joint("lock@FL", "Lock nut", free=free, corner="FL") for free in (False, True))
    for first, second, refused in ((bound, free, {"under-load"}), (free, bound, {"under-load"}), (free, free, set())):
        begin = done("begin", corner="FL", things=(second,), method_key="other", options={})
        assert broken(work(begun(first), begin, OFF), done("loosen", "lock@FL")) == refused


def test_the_corners_of_one_job_do_not_disturb_each_other() -> None:
    right = [replace(thing, name=thing.name.replace("FL", "FR"), corner="FR") for thing in (WHEEL, LINK)]
    state = work(begun(WHEEL, LINK, *right), OFF, LIFT, done("take_out", "wheel@FL"), done("loosen", "wheel@FR"))
    state = work(state, done("start", "wheel@FL"), done("start", "wheel@FR"), support("touching"), tighten("wheel@FL"))
    assert broken(state, WHEELS) == {"half-built"}
    assert broken(work(state, tighten("wheel@FR")), WHEELS) == set()


def test_a_loaded_joint_is_tightened_only_where_its_own_hub_is_propped() -> None:
    bushes = [Joint(f"bush@{corner}", "Bush bolt", loaded=True, corner=corner) for corner in ("FL", "FR")]
    by_hand = [done(do, joint.name) for joint in bushes for do in ("loosen", "start")]
    state = work(begun(*bushes), OFF, LIFT, *by_hand, support("propped", corner="FR"), HEIGHTS)
    assert broken(state, tighten("bush@FR")) == set()
    assert broken(state, tighten("bush@FL")) == {"tightened-hanging"}


def test_a_prop_moved_to_another_corner_is_judged_and_measured_anew() -> None:
    bush = Joint("bush@FR", "Bush bolt", loaded=True, corner="FR")
    state = work(begun(bush), OFF, LIFT, vent("RR"), support("propped", corner="FL"), HEIGHTS)
    assert broken(state, support("propped", corner="RR")) == {"weight-on-empty-spring"}
    moved = work(state, support("propped", corner="FR"))
    assert broken(moved, tighten("bush@FR")) == {"tightened-hanging"}
    assert broken(work(moved, HEIGHTS), tighten("bush@FR")) == set()


def test_a_prop_without_a_word_about_its_corner_stands_where_the_method_was_begun() -> None:
    bare = done("set", what="support", to="propped")
    vented = work(begun(LINK), OFF, LIFT, vent("RR"))
    assert broken(vented, bare) == set()
    assert broken(work(vented, vent("FL")), bare) == {"weight-on-empty-spring"}
    nowhere = work(replay((done("permit"),)), OFF, LIFT, vent("RR"))
    assert broken(nowhere, bare) == {"weight-on-empty-spring"}


def test_a_bush_is_not_tightened_on_its_wheels_while_another_corner_is_flat() -> None:
    bush = Joint("bush@FL", "Bush bolt", loaded=True, corner="FL")
    flat = work(begun(bush), done("arrive", conditions={"air RR": "vented"}), OFF)
    assert broken(work(flat, HEIGHTS), tighten("bush@FL")) == {"tightened-hanging"}
    propped = work(flat, LIFT, support("propped"), HEIGHTS)
    assert broken(propped, tighten("bush@FL")) == set()


def test_a_joint_tightened_again_by_another_person_does_not_free_the_first_to_check_it() -> None:
    plain = Joint("plain@FL", "Bracket bolt", safety=True)
    twice = (done("loosen", "plain@FL"), tighten("plain@FL", BRAM), tighten("plain@FL", NADIA))
    state = work(begun(plain), OFF, LIFT, *twice)
    assert broken(state, check("plain@FL", BRAM)) == {"same-person"}
    assert broken(state, check("plain@FL", NADIA)) == {"same-person"}


def test_a_second_check_after_an_angle_is_witnessed_and_never_a_second_torque() -> None:
    angle = Joint("angle@FL", "Fork bolt", figure="f", safety=True)
    state = work(begun(angle), torque("f", "60 N*m", "+90 deg"), OFF, LIFT, done("loosen", "angle@FL"))
    state = work(state, tighten("angle@FL", stage=1), tighten("angle@FL", stage=2))
    assert broken(state, check("angle@FL", how="clicked at the set value")) == {"same-person"}
    assert broken(state, check("angle@FL", how="witnessed")) == set()


def test_a_step_that_tightens_in_stages_is_answered_with_the_last_stage() -> None:
    two = Joint("two@FL", "Fork bolt", figure="f", corner="FL")
    state = work(begun(two), torque("f", "50 N*m", "80 N*m"), OFF, LIFT, done("loosen", "two@FL"))
    first = work(state, tighten("two@FL", stage=1, step=7, method_key="test"))
    assert (step_status(first, "test", 7), step_status(first, "test", 7, "FL")) == ("", "")
    last = work(first, tighten("two@FL", stage=2, step=7, method_key="test"))
    assert (step_status(last, "test", 7), step_status(last, "test", 7, "FL")) == ("done", "done")
    answered = work(last, done("drive", answer="declined", reason="So.", step=8, method_key="test"))
    assert step_status(answered, "test", 8) == "declined"


def test_a_method_begun_again_at_its_corner_begins_with_no_step_answered_and_leaves_other_corners_alone() -> None:
    state = work(begun(WHEEL), done("note", text="Seen.", step=1, method_key="test", corner="FL"))
    other = work(state, done("begin", corner="FR", method_key="test"))
    assert step_status(other, "test", 1, "FL") == "done"
    assert step_status(work(other, done("begin", corner="FL", method_key="test")), "test", 1, "FL") == ""


def test_a_refused_second_check_leaves_the_joint_unchecked_also_on_replay() -> None:
    plain = Joint("plain@FL", "Bracket bolt", safety=True)
    acts = (OFF, LIFT, done("loosen", "plain@FL"), tighten("plain@FL", BRAM), check("plain@FL", BRAM))
    assert {"joint-left-loose", "same-person"} <= loose(replay(acts, begun(plain)))


def test_a_proof_without_air_behind_the_line_proves_nothing_also_on_replay() -> None:
    state = work(begun(*STRUT_JOB), OFF, LIFT, vent(), done("open", "line@FL"), issue("line@FL", "O-ring"))
    state = work(state, done("join", "line@FL", pieces=("O-ring",)))
    assert "line-left-open" in loose(replay((done("prove", "line@FL", ends="tight"),), state))


def test_another_part_that_is_put_on_without_a_word_about_it_counts_as_the_method_says() -> None:
    for renewed, word in ((True, "renewed"), (False, "on")):
        cover = Part("cover@FL", "Cover", renewed=renewed, free=True)
        state = work(begun(cover), OFF, done("take_off", "cover@FL"), done("put_on", "cover@FL"))
        assert state.parts["cover@FL"] == word


def test_two_thousand_acts_are_replayed_while_a_person_would_not_notice() -> None:
    """The aim is 300 ms; the limit here leaves room for a machine that is busy with something else."""
    cycle = (*STRUT_RENEWED, ACTIVE)
    acts = (cycle * (2_000 // len(cycle) + 1))[:2_000]
    state, began = begun(*STRUT_JOB), time.perf_counter()
    loose_ends(replay(acts, state))
    assert time.perf_counter() - began < 1.5


def test_the_strut_of_the_builders_is_one_that_is_renewed() -> None:
    assert STRUT.renewed
    assert loose(begun(STRUT)) == {"left-off"}
