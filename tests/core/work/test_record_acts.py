"""The record's own acts: each is refused where its form makes no sense, in one sentence, and then changes nothing."""

import pytest

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Aid, Figure, Joint
from jobbook.core.work.rules import apply, refusals
from jobbook.core.work.state import START
from tests.core.work.building import (
    BRAM,
    LIFT,
    LINE,
    OFF,
    PERMITTED,
    PLAIN,
    WHEEL,
    begun,
    broken,
    done,
    issue,
    loose,
    put,
    replay,
    tighten,
    vent,
    work,
)

SHAPELESS = {
    "a word that nobody knows": done("hammer"),
    "a condition that there is not": put("weather", "dry"),
    "a value that the condition has not": put("support", "flying"),
    "an arrival in a condition that there is not": done("arrive", conditions={"weather": "dry"}),
    "an arrival with a value that there is not": done("arrive", conditions={"air FL": "low"}),
    "an arrival with a support that there is not": done("arrive", conditions={"support": "flying"}),
    "nothing added": done("declare"),
    "no figure": done("figure"),
    "a figure without a key": done("figure", figure=Figure("", "torque", "50 N*m", document="Sheet 12")),
    "pieces for nothing": issue("nothing@FL", "nut"),
    "no pieces": issue("plain@FL"),
    "a wait cut short without a reason": done("wait", minutes="10", ends="early"),
    "a finding that there is not": done("repaired", "i7"),
    "a finding that there is not, declined": done("declined", "i7"),
    "a spring that never stood on empty": done("cleared", "FL"),
    "a loose end that there is not": done("let_go", "strap@FL", rule="left-behind", reason="So."),
    "a rule that there is not": done("allow", rule="be-careful", reason="So."),
    "a rule about the end allowed": done("allow", rule="left-off", reason="So."),
}


@pytest.mark.parametrize("name", SHAPELESS)
def test_an_act_without_sense_is_refused_in_one_sentence_and_changes_no_condition(name: str) -> None:
    state = begun(PLAIN, WHEEL)
    refused = refusals(state, SHAPELESS[name])
    assert refused
    assert refused[0].sentence.endswith(".")
    after = apply(state, SHAPELESS[name])
    assert (after.conditions, after.joints, after.issued) == (state.conditions, state.joints, state.issued)
    assert (after.figures, after.allowances, after.findings) == (state.figures, state.allowances, state.findings)


@pytest.mark.parametrize(
    "before", [(OFF, LIFT), (OFF, LIFT, vent()), (OFF, vent("reservoir"))], ids=["lifted", "vented", "reservoir"]
)
def test_how_a_vehicle_arrived_is_kept_before_it_was_lifted_or_vented(before: tuple[Act, ...]) -> None:
    arrival = done("arrive", conditions={"air FL": "vented"})
    assert broken(PERMITTED, arrival) == set()
    assert broken(work(PERMITTED, *before), arrival)


def test_how_a_vehicle_arrived_is_kept_before_anything_was_worked_on() -> None:
    lock = Joint("lock@FL", "Lock nut", free=True)
    assert broken(work(begun(lock), OFF, done("loosen", "lock@FL")), done("arrive", conditions={"air FL": "vented"}))


def test_a_name_stands_for_one_kind_of_thing() -> None:
    clash = (Aid("plain@FL", "Strap"),)
    assert broken(begun(PLAIN), done("declare", things=clash))
    assert broken(begun(PLAIN), done("begin", corner="FL", things=clash, method_key="m"))


def test_a_method_without_things_may_be_begun() -> None:
    assert broken(START, done("begin", method_key="diagnosis")) == set()


def test_a_wait_that_was_cut_short_with_a_reason_is_kept_and_does_not_isolate() -> None:
    off = work(START, put("ignition", "off"), put("battery", "disconnected"))
    short = done("wait", minutes="10", ends="early", reason="Fire alarm.")
    assert broken(work(off, short), put("restraints", "isolated")) == {"restraints-live"}


def test_what_was_kept_though_it_broke_a_rule_is_said_to_be_repaired_by_its_own_name() -> None:
    kept = done("open", "line@FL", id="a9", kept_after=("under-pressure",), reason="Let out at the fitting.")
    state = work(begun(LINE), OFF, LIFT, kept)
    name = next(end.on for end in loose_ends(state) if end.rule == "under-pressure")
    assert "under-pressure" not in loose(work(state, done("repaired", name, reason="Line and sleeve looked over.")))
    assert broken(state, done("declined", name, reason="By telephone."))
    assert "under-pressure" in loose(replay((done("declined", name, reason="By telephone."),), state))


def test_a_spring_is_cleared_by_a_named_person_only() -> None:
    allowed = done("allow", rule="weight-on-empty-spring", reason="Pushed out by hand.")
    stood = work(PERMITTED, OFF, LIFT, vent(), allowed, put("support", "wheels"))
    assert broken(stood, done("cleared", "FL", by=""))
    assert broken(stood, done("cleared", "FR", by=BRAM))
    assert broken(stood, done("cleared", "FL", by=BRAM)) == set()


def test_the_payers_authority_that_was_asked_for_is_waited_for_and_is_a_loose_end() -> None:
    asked = work(START, done("ask_authority"))
    assert loose(asked) == {"no-permission"}
    assert loose(work(asked, done("authority"))) == set()


def test_an_act_answered_otherwise_than_done_breaks_no_act_rule_and_changes_nothing() -> None:
    state = begun(WHEEL)
    for answer in ("not possible", "declined", "not applicable", "sublet"):
        act = tighten("wheel@FL", tool=None, answer=answer, reason="Asked for by the customer.")
        assert broken(state, act) == set()
        assert apply(state, act).joints == state.joints
