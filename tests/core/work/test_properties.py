"""Random work over two corners: what holds for every sequence of acts, whoever does them and in whatever order."""

import json
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobbook.core.errors import Refused, Unreadable
from jobbook.core.work.acts_text import act_from_plain, act_to_plain
from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Aid, Connector, Joint, Line, Part, Thing
from jobbook.core.work.rules import apply, perform, refusals
from jobbook.core.work.state import START, State
from tests.core.work.building import (
    BRAM,
    IMKE,
    NADIA,
    STRUT_JOB,
    STRUT_RENEWED,
    begun,
    broken,
    calibrate,
    done,
    issue,
    loose,
    measure,
    put,
    replay,
    support,
    tighten,
    torque,
    work,
)

STEADY = settings(derandomize=True, deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
ANSWERS = ("not possible", "declined", "not applicable", "sublet")


def corner_things(corner: str) -> tuple[Thing, ...]:
    """One of each kind of thing at a corner."""
    joint, line, plug = f"fork@{corner}", f"line@{corner}", f"plug@{corner}"
    return (
        Joint(f"wheel@{corner}", "Wheel bolts", count=5, wheel=True, safety=True, corner=corner),
        Joint(
            joint, "Fork bolt", figure="f", single_use=True, pieces=("bolt",), safety=True, loaded=True, corner=corner
        ),
        Joint(f"lock@{corner}", "Lock nut", free=True, corner=corner),
        Line(line, "Air line", places=(corner,), seal="O-ring", corner=corner),
        Part(f"strut@{corner}", "Strut", True, True, (corner,), (joint, line, plug), sets_height=True, corner=corner),
        Connector(plug, "Connector", near_restraints=True, corner=corner),
        Aid(f"strap@{corner}", "Strap", corner=corner),
    )


THINGS = (*corner_things("FL"), *corner_things("RR"), Line("supply", "Supply line", places=("reservoir",)))
KNOWN = begun(*THINGS)
NAMES = tuple(thing.name for thing in THINGS)
PEOPLE = st.sampled_from((BRAM, NADIA, IMKE))
PLACES = st.sampled_from((("FL",), ("RR",), ("FL", "RR"), ("reservoir",), ("FL", "FR", "RL", "RR")))
THING_WORDS = [
    "loosen",
    "take_out",
    "start",
    "tighten",
    "second_check",
    "open",
    "plug",
    "join",
    "prove",
    "take_off",
    "put_on",
    "unplug",
    "plug_in",
    "place",
    "clear",
]
KIND_WORDS = {
    Joint: ("loosen", "take_out", "start", "tighten", "second_check"),
    Line: ("open", "plug", "join", "prove"),
    Part: ("take_off", "put_on"),
    Connector: ("unplug", "plug_in"),
    Aid: ("place", "clear"),
}


@st.composite
def on_things(draw: st.DrawFn) -> Act:
    thing = draw(st.sampled_from(THINGS))
    do = draw(st.sampled_from(KIND_WORDS[type(thing)]))
    by = draw(PEOPLE)
    if do == "tighten":
        return tighten(thing.name, by, stage=draw(st.integers(0, 3)))
    pieces = draw(st.sampled_from(((), ("bolt",), ("O-ring",)))) if do in ("start", "join") else ()
    rest = {"plugs": draw(st.integers(0, 3))} if do in ("plug", "join", "take_off") else {}
    piece = draw(st.sampled_from(("same", "another"))) if do == "put_on" else ""
    ends = draw(st.sampled_from(("tight", "not tight"))) if do == "prove" else ""
    return done(do, thing.name, by, pieces=pieces, piece=piece, ends=ends, **rest)


CONDITIONS = st.sampled_from(
    (
        *(support(to) for to in ("wheels", "touching", "propped", "lift")),
        *(support("touching", fills=corners) for corners in (("FL",), ("FL", "RR"))),
        *(put("levelling", to) for to in ("off", "active")),
        *(put("ignition", to) for to in ("off", "on")),
        *(put("battery", to) for to in ("disconnected", "connected")),
        *(put("restraints", to) for to in ("isolated", "live")),
    )
)
AIR = st.builds(lambda do, places: done(do, places=places), st.sampled_from(("vent", "fill")), PLACES)
RECORD = st.sampled_from(
    (
        *(measure("heights"), measure("fault_codes"), done("align"), done("drive"), done("wait", minutes="10")),
        *(calibrate(what) for what in ("heights", "headlamps", "driver_assistance", "steering_angle")),
        *(done("align", answer=answer, reason="Said so.") for answer in ANSWERS),
        done("inspect", id="i1", finding="found wrong", text="Boot torn."),
        done("inspect", id="i2", finding="must not leave so", text="Hose chafed."),
        *(done(end, name, reason="So.") for end in ("repaired", "declined", "referred") for name in ("i1", "i2", "i3")),
        *(done("cleared", corner, reason="No crease.") for corner in ("FL", "RR")),
        *(issue("fork@FL", "bolt"), issue("line@FL", "O-ring"), torque("f", "50 N*m", "+90 deg"), done("permit")),
        *(done("allow", rule=rule, reason="So.") for rule in ("weight-on-empty-spring", "half-built", "under-load")),
        *(done("let_go", name, rule="joint-left-loose", reason="So.") for name in NAMES[:2]),
        *(done("stop", reason="Price."), done("ask_authority"), done("authority")),
    )
)
ACTS = st.one_of(on_things(), on_things(), CONDITIONS, AIR, RECORD)
WORK = st.lists(ACTS, max_size=40)


def accepted(acts: list[Act], state: State = KNOWN) -> tuple[State, list[Act]]:
    """The state after those of the acts that the rules accept, and these acts."""
    kept = []
    for act in acts:
        if not refusals(state, act):
            state = perform(state, act)
            kept.append(act)
    return state, kept


@STEADY
@given(WORK)
def test_perform_accepts_an_act_when_no_rule_refuses_it_and_otherwise_names_the_first(acts: list[Act]) -> None:
    state = KNOWN
    for act in acts:
        refused = refusals(state, act)
        if refused:
            with pytest.raises(Refused) as caught:
                perform(state, act)
            assert (caught.value.rule, str(caught.value)) == (refused[0].rule, refused[0].sentence)
        else:
            assert perform(state, act) == apply(state, act)
            state = apply(state, act)


@STEADY
@given(WORK)
def test_replay_and_loose_ends_never_fail_also_for_acts_that_would_be_refused(acts: list[Act]) -> None:
    for start in (KNOWN, START):
        state = start
        for act in acts:
            state = apply(state, act)
            assert all(end.sentence.endswith(".") and end.rule and end.group for end in loose_ends(state))


@STEADY
@given(WORK)
def test_what_is_refused_is_said_in_whole_sentences_without_keys(acts: list[Act]) -> None:
    state = KNOWN
    for act in acts:
        for refusal in refusals(state, act):
            assert refusal.sentence[0].isupper()
            assert refusal.sentence.endswith(".")
            assert "@" not in refusal.sentence
        state = apply(state, act)


@STEADY
@given(WORK)
def test_a_state_is_never_changed_in_place_and_the_same_acts_lead_to_the_same_state(acts: list[Act]) -> None:
    before = repr(KNOWN)
    assert replay(acts, KNOWN) == replay(acts, KNOWN)
    assert repr(KNOWN) == before


@STEADY
@given(ACTS)
def test_an_act_written_as_plain_values_and_read_again_is_the_same_act(act: Act) -> None:
    act = replace(act, id="a-1", at="2026-03-02T10:15:00+01:00", step=4, method_key="m", corner="FL")
    assert act_from_plain(json.loads(json.dumps(act_to_plain(act)))) == act


def test_a_beginning_with_its_things_survives_as_plain_values() -> None:
    act = done("begin", corner="FL", things=THINGS, method_key="m", options={"tank": True, "lead": False})
    assert act_from_plain(json.loads(json.dumps(act_to_plain(act)))) == act
    arrived = done("arrive", conditions={"air FL": "vented", "support": "wheels"})
    assert act_from_plain(json.loads(json.dumps(act_to_plain(arrived)))) == arrived


def test_plain_values_with_an_unknown_key_are_not_read() -> None:
    plain = dict(act_to_plain(done("drive"))) | {"colour": "red"}
    with pytest.raises(Unreadable, match="colour"):
        act_from_plain(plain)


LEFT = (("loosen", "lock@FL"), ("unplug", "plug@FL"), ("place", "strap@FL"), ("loosen", "wheel@FL"))
RIGHT = (("place", "strap@RR"), ("loosen", "lock@RR"), ("loosen", "wheel@RR"), ("clear", "strap@RR"))


@STEADY
@given(WORK, st.sampled_from(LEFT), st.sampled_from(RIGHT))
def test_two_acts_that_have_nothing_to_do_with_each_other_may_be_done_in_either_order(
    acts: list[Act], left: tuple[str, str], right: tuple[str, str]
) -> None:
    state, _ = accepted(acts)
    first, second = done(*left), done(*right, by=NADIA)
    assert replay((first, second), state) == replay((second, first), state)
    if not broken(state, first) and not broken(state, second):
        assert work(state, first, second) == work(state, second, first)


CLOSED_BY = {
    "left-behind": ("place", "strap@FL", "clear"),
    "joint-left-loose": ("loosen", "lock@FL", "tighten"),
    "left-out": ("unplug", "plug@FL", "plug_in"),
}


@STEADY
@given(
    st.lists(ACTS.filter(lambda act: act.do not in ("let_go", "stop")), max_size=25), st.sampled_from(list(CLOSED_BY))
)
def test_a_loose_end_stays_until_exactly_the_act_that_closes_it(acts: list[Act], rule: str) -> None:
    opening, name, closing = CLOSED_BY[rule]
    state = replay((put("levelling", "off"), done(opening, name)), KNOWN)
    for act in acts:
        if act.on == name:
            continue
        assert (rule, name) in {(end.rule, end.on) for end in loose_ends(state)}
        state = apply(state, act)
    closed = apply(state, done(closing, name))
    assert (rule, name) not in {(end.rule, end.on) for end in loose_ends(closed)}
    other = {(end.rule, end.on) for end in loose_ends(state)} - {(rule, name)}
    lost = other - {(end.rule, end.on) for end in loose_ends(closed)}
    assert all(rule not in CLOSED_BY for rule, _ in lost)


@STEADY
@given(st.integers(0, len(STRUT_RENEWED) - 1))
def test_an_act_left_out_of_a_finished_job_never_passes_unnoticed(number: int) -> None:
    """Every act of the strut job is needed but those that only repeat: leaving one out leaves something to say."""
    left = [act for n, act in enumerate(STRUT_RENEWED) if n != number]
    repeats = ("touching", "heights")
    act = STRUT_RENEWED[number]
    assert loose(replay(left, begun(*STRUT_JOB))) or act.to in repeats or act.what in repeats, act


def test_a_correction_of_who_tightened_shows_a_second_check_that_does_not_fit_any_more() -> None:
    acts = list(STRUT_RENEWED)
    number = next(n for n, act in enumerate(acts) if act.do == "tighten" and act.on == "fork@FL")
    acts[number] = replace(acts[number], by=NADIA)
    ends = loose_ends(replay(acts, begun(*STRUT_JOB)))
    assert {end.rule for end in ends} >= {"same-person"}


def test_a_correction_of_a_reading_changes_nothing_else() -> None:
    acts = list(STRUT_RENEWED)
    number = next(n for n, act in enumerate(acts) if act.do == "measure")
    right = replay(acts, begun(*STRUT_JOB))
    acts[number] = replace(acts[number], readings=(("FL", "377 mm"),))
    assert loose_ends(replay(acts, begun(*STRUT_JOB))) == loose_ends(right) == ()
