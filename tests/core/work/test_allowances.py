"""Work is not a file: what was allowed beforehand, what was kept after the fact, what was let go."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act
from jobbook.core.work.rules import perform
from jobbook.core.work.state import START, State
from tests.core.work.building import (
    CODES,
    HEIGHTS,
    IMKE,
    LIFT,
    LIFTED,
    LINE,
    OFF,
    PERMITTED,
    PLAIN,
    STRAP,
    STRUT,
    TOUCHING,
    WHEEL,
    WHEELS,
    begun,
    broken,
    done,
    fill,
    issue,
    loose,
    put,
    replay,
    tighten,
    vent,
    work,
)

NEVER = ("under-load", "under-pressure", "filled-while-open", "restraints-live", "not-fit-to-drive")
PUSH_OUT = "The lift is needed; the vehicle is pushed to the yard by hand."


def allow(rule: str) -> Act:
    return done("allow", by=IMKE, rule=rule, reason=PUSH_OUT)


def flat_on_its_wheels() -> State:
    """A corner vented, and full weight put on it under an allowance."""
    return work(begun(LINE), OFF, LIFT, vent(), allow("weight-on-empty-spring"), WHEELS)


def test_what_a_rule_about_the_vehicle_refuses_may_be_allowed_beforehand_with_a_reason() -> None:
    vented = work(PERMITTED, OFF, LIFT, vent())
    assert broken(vented, WHEELS) == {"weight-on-empty-spring"}
    assert broken(work(vented, allow("weight-on-empty-spring")), WHEELS) == set()


def test_an_allowance_covers_its_own_rule_only() -> None:
    loosened = work(begun(WHEEL), OFF, LIFT, vent(), done("loosen", "wheel@FL"))
    assert broken(work(loosened, allow("weight-on-empty-spring")), WHEELS) == {"half-built"}
    assert broken(work(loosened, allow("half-built")), WHEELS) == {"weight-on-empty-spring"}


def test_an_allowance_covers_the_next_act_that_needs_it_and_no_more() -> None:
    again = work(flat_on_its_wheels(), LIFT)
    assert broken(again, WHEELS) == {"weight-on-empty-spring"}


def test_an_allowance_waits_for_the_act_that_needs_it() -> None:
    vented = work(PERMITTED, OFF, LIFT, vent())
    later = work(vented, allow("weight-on-empty-spring"), done("note", text="Yard is free."), HEIGHTS)
    assert broken(later, WHEELS) == set()


@pytest.mark.parametrize("rule", NEVER)
def test_what_protects_a_person_is_never_allowed(rule: str) -> None:
    with pytest.raises(Refused):
        perform(begun(WHEEL, LINE), allow(rule))


@pytest.mark.parametrize(
    ("rule", "before", "act"),
    [
        ("under-load", (OFF,), done("loosen", "plain@FL")),
        ("under-pressure", (OFF, LIFT), done("open", "line@FL")),
        ("not-fit-to-drive", (OFF, LIFT), done("drive")),
    ],
)
def test_an_allowance_that_should_not_be_in_the_record_changes_nothing(
    rule: str, before: tuple[Act, ...], act: Act
) -> None:
    state = replay((allow(rule),), work(begun(PLAIN, LINE), *before))
    assert broken(state, act) == {rule}


def test_an_allowance_needs_its_reason() -> None:
    with pytest.raises(Refused):
        perform(START, done("allow", by=IMKE, rule="weight-on-empty-spring"))


def test_a_spring_that_stood_on_empty_is_renewed_or_cleared_by_a_named_person_before_drive() -> None:
    filled = work(flat_on_its_wheels(), LIFT, fill(), WHEELS)
    assert broken(filled, done("drive")) == {"not-fit-to-drive"}
    cleared = done("cleared", "FL", by=IMKE, reason="Sleeve looked at all round, no crease.")
    assert broken(work(filled, cleared), done("drive")) == set()


def test_a_spring_that_stood_on_empty_is_forgotten_when_a_new_one_goes_on() -> None:
    spring = STRUT.__class__("spring@FL", "Spring", renewed=True, places=("FL",), corner="FL")
    stood = work(begun(spring), OFF, LIFT, vent(), allow("weight-on-empty-spring"), WHEELS, LIFT)
    off = work(stood, done("take_off", "spring@FL"))
    for piece, fit in (("same", {"not-fit-to-drive"}), ("another", set())):
        state = work(off, done("put_on", "spring@FL", piece=piece), fill(), WHEELS)
        assert broken(state, done("drive")) == fit


def test_a_spring_that_stood_on_empty_under_an_allowance_stays_visible() -> None:
    filled = work(flat_on_its_wheels(), LIFT, fill(), WHEELS, put("levelling", "active"))
    assert "weight-on-empty-spring" in loose(filled)
    assert loose(work(filled, done("cleared", "FL", by=IMKE, reason="No crease."))) == set()


def test_what_has_already_happened_is_kept_with_the_rules_name_and_is_loose_until_let_go() -> None:
    vented = work(PERMITTED, OFF, LIFT, vent())
    pushed = done("set", what="support", to="wheels", kept_after=("weight-on-empty-spring",), reason=PUSH_OUT)
    kept = perform(vented, pushed)
    assert "weight-on-empty-spring" in loose(kept)
    righted = work(kept, LIFT, fill(), WHEELS, put("levelling", "active"))
    assert loose(righted) == {"weight-on-empty-spring"}
    assert broken(righted, done("drive")) == {"not-fit-to-drive"}


def test_what_is_kept_after_the_fact_names_every_rule_that_it_broke() -> None:
    state = work(begun(WHEEL), OFF, LIFT, vent(), done("loosen", "wheel@FL"))
    half = done("set", what="support", to="wheels", kept_after=("half-built",), reason=PUSH_OUT)
    assert broken(state, half) == {"weight-on-empty-spring"}
    both = ("half-built", "weight-on-empty-spring")
    whole = done("set", what="support", to="wheels", kept_after=both, reason=PUSH_OUT)
    assert broken(state, whole) == set()


def test_also_what_is_never_allowed_beforehand_is_kept_once_it_has_happened() -> None:
    opened = done("open", "line@FL", kept_after=("under-pressure",), reason="Was let out through the fitting.")
    state = perform(work(begun(LINE), OFF, LIFT), opened)
    assert "under-pressure" in loose(state)
    assert "line-left-open" in loose(state)


def test_what_is_kept_after_the_fact_needs_its_reason() -> None:
    state = work(PERMITTED, OFF, LIFT, vent())
    assert broken(state, done("set", what="support", to="wheels", kept_after=("weight-on-empty-spring",)))


def test_a_joint_tightened_hanging_and_kept_is_put_right_by_loosening_and_tightening_at_height() -> None:
    bush = PLAIN.__class__("bush@FL", "Bush bolt", loaded=True, corner="FL")
    hanging = tighten("bush@FL", kept_after=("tightened-hanging",), reason="Found at the final check.")
    state = work(begun(bush), *LIFTED, done("loosen", "bush@FL"), hanging)
    assert "tightened-hanging" in loose(state)
    again = (done("loosen", "bush@FL"), done("start", "bush@FL"), WHEELS, HEIGHTS, tighten("bush@FL"))
    assert "tightened-hanging" not in loose(work(state, *again))


def test_a_loose_end_is_let_go_by_name_with_a_reason_and_only_that_one() -> None:
    state = work(begun(STRAP), done("place", "strap@FL"), OFF)
    end = next(end for end in loose_ends(state) if end.rule == "left-behind")
    gone = work(state, done("let_go", end.on, by=IMKE, rule=end.rule, reason="Strap is the customer's own."))
    assert loose(gone) == {"condition-left"}
    again = (done("clear", "strap@FL"), done("place", "strap@FL", at="2026-03-02T11:00:00+01:00"))
    assert loose(work(gone, *again)) == {"condition-left", "left-behind"}


def test_letting_go_names_the_rule_and_touches_no_other_loose_end_of_the_same_thing_or_rule() -> None:
    other = STRAP.__class__("prop@FL", "Prop")
    state = work(begun(STRAP, other), done("place", "strap@FL"), done("place", "prop@FL"))
    assert broken(state, done("let_go", "strap@FL", rule="left-out", reason="So."))
    gone = work(state, done("let_go", "strap@FL", rule="left-behind", reason="So."))
    assert [end.on for end in loose_ends(gone)] == ["prop@FL"]


def test_letting_go_needs_its_reason() -> None:
    state = work(PERMITTED, OFF)
    end = loose_ends(state)[0]
    with pytest.raises(Refused):
        perform(state, done("let_go", end.on, by=IMKE, rule=end.rule))


def test_an_act_that_would_be_refused_today_shows_on_replay_as_one_that_does_not_fit_any_more() -> None:
    acts = (OFF, LIFT, vent(), WHEELS, LIFT, fill(), WHEELS, put("levelling", "active"))
    ends = loose_ends(replay(acts, PERMITTED))
    assert {end.rule for end in ends} == {"weight-on-empty-spring"}
    assert any(end.sentence.startswith("Does not fit any more") for end in ends)


def test_the_customer_stops_the_job_and_the_same_part_goes_back_on() -> None:
    stripped = work(begun(STRUT, LINE), OFF, LIFT, CODES, vent(), issue("line@FL", "O-ring"))
    stripped = replay((done("take_off", "strut@FL"),), stripped)
    stopped = work(stripped, done("stop", reason="Price."), done("put_on", "strut@FL", piece="same"))
    assert "left-off" not in loose(stopped)
    assert broken(stopped, WHEELS) == broken(stopped, TOUCHING) == {"weight-on-empty-spring"}
