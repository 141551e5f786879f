"""Act rules that are judged in the bay: permission, figures with their source, tools, persons, and the kit."""

import pytest

from jobbook.core.work.model import Act, Figure, Joint, Line, ToolUse
from tests.core.work.building import (
    BRAM,
    FORK,
    HEIGHTS,
    IMKE,
    LIFT,
    LINE,
    NADIA,
    OFF,
    PLAIN,
    PLUG,
    WHEEL,
    WHEELS,
    begun,
    broken,
    check,
    done,
    issue,
    replay,
    tighten,
    torque,
    vent,
    work,
)

STAGED = Joint("staged@FL", "Fork bolt", figure="fork_torque", safety=True, corner="FL")
STAGES = torque("fork_torque", "50 N*m", "80 N*m", "+90 deg")


@pytest.mark.parametrize(
    "act",
    [done("loosen", "wheel@FL"), done("take_out", "wheel@FL"), done("open", "line@FL"), vent(), done("take_off", "c")],
    ids=lambda act: act.do,
)
def test_no_permission(act: Act) -> None:
    state = replay((OFF, LIFT), begun(WHEEL, LINE, permitted=False))
    assert "no-permission" in broken(state, act)
    assert "no-permission" not in broken(work(state, done("permit")), act)


def test_no_permission_is_needed_to_lift_to_measure_or_to_unplug() -> None:
    state = begun(PLUG, permitted=False)
    assert all(broken(state, act) == set() for act in (OFF, HEIGHTS, done("unplug", "plug@FL")))


def test_no_permission_waits_for_the_payers_authority_where_one_was_asked() -> None:
    asked = work(begun(WHEEL), done("ask_authority"))
    assert broken(asked, done("loosen", "wheel@FL")) == {"no-permission"}
    assert broken(work(asked, done("authority")), done("loosen", "wheel@FL")) == set()


def test_no_permission_when_the_payer_refused_only_a_new_permission_goes_on_without_the_payer() -> None:
    asked = work(begun(WHEEL), done("ask_authority"))
    refused = work(asked, done("authority", answer="declined", reason="Wear, says the insurer."))
    assert broken(refused, done("loosen", "wheel@FL")) == {"no-permission"}
    assert broken(work(refused, done("permit")), done("loosen", "wheel@FL")) == set()
    assert broken(work(asked, done("permit")), done("loosen", "wheel@FL")) == {"no-permission"}


def test_figure_unknown() -> None:
    state = work(begun(STAGED), OFF, LIFT, done("loosen", "staged@FL"))
    assert broken(state, tighten("staged@FL")) == {"figure-unknown"}
    unsourced = work(state, torque("fork_torque", "50 N*m", document=""))
    assert broken(unsourced, tighten("staged@FL")) == {"figure-unknown"}
    assert broken(work(state, STAGES), tighten("staged@FL")) == set()


@pytest.mark.parametrize(
    ("act", "kind"),
    [
        (done("vent", places=("FL",), figure_key="f"), "pressure"),
        (done("fill", places=("FL",), figure_key="f"), "length"),
        (done("wait", figure_key="f"), "time"),
    ],
    ids=lambda value: value if isinstance(value, str) else value.do,
)
def test_figure_unknown_for_venting_filling_and_waiting(act: Act, kind: str) -> None:
    state = work(begun(LINE), OFF, LIFT)
    assert broken(state, act) == {"figure-unknown"}
    entered = done("figure", figure=Figure("f", kind, "3", ("3",), document="Sheet 12", edition="3", read_by=BRAM))
    assert broken(work(state, entered), act) == set()


def test_a_joint_without_a_figure_may_be_tightened_by_feel() -> None:
    state = work(begun(PLAIN), OFF, LIFT, done("loosen", "plain@FL"))
    assert broken(state, tighten("plain@FL")) == set()


def test_wrong_tool() -> None:
    state = work(begun(PLAIN), OFF, LIFT, done("loosen", "plain@FL"))
    unfit = ToolUse("W-9", unfit="Wrench W-9 reaches 200 N*m; this joint needs 210 N*m.")
    assert broken(state, tighten("plain@FL", tool=unfit)) == {"wrong-tool"}


def test_wrong_tool_also_when_no_tool_was_chosen_for_a_joint_with_a_figure() -> None:
    state = work(begun(STAGED), OFF, LIFT, STAGES, done("loosen", "staged@FL"))
    assert broken(state, tighten("staged@FL", tool=None)) == {"wrong-tool"}


def test_same_person() -> None:
    tightened = work(begun(PLAIN), OFF, LIFT, done("loosen", "plain@FL"), tighten("plain@FL", BRAM))
    assert broken(tightened, check("plain@FL", BRAM)) == {"same-person"}
    assert broken(tightened, check("plain@FL", NADIA)) == set()


def test_same_person_counts_whoever_did_any_stage() -> None:
    state = work(begun(STAGED), OFF, LIFT, STAGES, done("loosen", "staged@FL"))
    people = (BRAM, NADIA, BRAM)
    state = work(state, *(tighten("staged@FL", by, stage=n) for n, by in enumerate(people, start=1)))
    assert broken(state, check("staged@FL", BRAM, how="witnessed")) == {"same-person"}
    assert broken(state, check("staged@FL", NADIA, how="witnessed")) == {"same-person"}
    assert broken(state, check("staged@FL", IMKE, how="witnessed")) == set()


def test_same_person_begins_anew_when_the_joint_is_loosened_again() -> None:
    once = (done("loosen", "plain@FL"), tighten("plain@FL", BRAM))
    again = (done("loosen", "plain@FL"), tighten("plain@FL", NADIA))
    state = work(begun(PLAIN), OFF, LIFT, *once, *again)
    assert broken(state, check("plain@FL", NADIA)) == {"same-person"}
    assert broken(state, check("plain@FL", BRAM)) == set()


def test_a_part_tightened_joint_is_neither_checked_nor_done() -> None:
    state = work(begun(STAGED), OFF, LIFT, STAGES, done("loosen", "staged@FL"), tighten("staged@FL", stage=1))
    assert broken(state, check("staged@FL", how="witnessed")) == {"out-of-state"}
    assert "half-built" in broken(state, WHEELS)
    assert broken(state, tighten("staged@FL", stage=2)) == set()


def test_single_use_again() -> None:
    nut = Joint("nut@FL", "Self-locking nut", single_use=True, pieces=("nut",), corner="FL")
    issued = issue("nut@FL", "nut")
    loosened = work(begun(nut), OFF, LIFT, done("loosen", "nut@FL"))
    assert broken(work(loosened, issued), tighten("nut@FL")) == {"single-use-again"}
    out = work(loosened, done("take_out", "nut@FL"))
    assert broken(out, done("start", "nut@FL", pieces=("nut",))) | broken(
        replay((done("start", "nut@FL"),), out), tighten("nut@FL")
    ) == {"single-use-again"}
    new = work(out, issued, done("start", "nut@FL", pieces=("nut",)))
    assert broken(new, tighten("nut@FL")) == set()


def test_single_use_again_an_untouched_joint_may_be_tightened_as_it_is() -> None:
    nut = Joint("nut@FL", "Self-locking nut", single_use=True, pieces=("nut",), corner="FL")
    assert broken(work(begun(nut), OFF, LIFT), tighten("nut@FL")) == set()


def test_single_use_again_every_cycle_takes_its_own_new_pieces() -> None:
    nut = Joint("nut@FL", "Self-locking nut", single_use=True, pieces=("nut",), corner="FL")
    cycle = (done("take_out", "nut@FL"), done("start", "nut@FL", pieces=("nut",)), tighten("nut@FL"))
    once = work(begun(nut), OFF, LIFT, issue("nut@FL", "nut"), *cycle)
    out = work(once, cycle[0])
    refused = broken(out, cycle[1]) | broken(replay(cycle[1:2], out), cycle[2])
    assert refused == {"single-use-again"}
    assert broken(work(out, issue("nut@FL", "nut"), cycle[1]), cycle[2]) == set()


def test_single_use_again_part_of_the_new_pieces_is_not_enough() -> None:
    fork = Joint("fork@FL", "Fork bolt", single_use=True, pieces=("bolt", "nut"), corner="FL")
    out = work(begun(fork), OFF, LIFT, done("take_out", "fork@FL"), issue("fork@FL", "nut"))
    start = done("start", "fork@FL", pieces=("nut",))
    assert broken(out, start) | broken(replay((start,), out), tighten("fork@FL")) == {"single-use-again"}


def test_single_use_again_a_line_is_joined_only_with_a_new_seal() -> None:
    state = work(begun(LINE), OFF, LIFT, vent(), done("open", "line@FL"))
    assert broken(state, done("join", "line@FL")) == {"single-use-again"}
    assert broken(state, done("join", "line@FL", pieces=("O-ring",))) == {"single-use-again"}
    sealed = work(state, issue("line@FL", "O-ring"), done("join", "line@FL", pieces=("O-ring",)))
    again = work(sealed, done("open", "line@FL"))
    assert broken(again, done("join", "line@FL", pieces=("O-ring",))) == {"single-use-again"}


def test_a_line_without_a_seal_is_joined_as_it_is() -> None:
    plain = Line("line@FL", "Air line", places=("FL",))
    state = work(begun(plain), OFF, LIFT, vent(), done("open", "line@FL"))
    assert broken(state, done("join", "line@FL")) == set()


def test_the_kit_is_kept_apart_for_each_joint() -> None:
    other = Joint("other@FR", "Fork bolt", single_use=True, pieces=("bolt", "nut"), corner="FR")
    out = work(begun(FORK, other), OFF, LIFT, done("take_out", "fork@FL"), issue("other@FR", "bolt", "nut"))
    start = done("start", "fork@FL", pieces=("bolt", "nut"))
    done_twice = replay((start, WHEELS, HEIGHTS), out)
    assert "single-use-again" in broken(out, start) | broken(done_twice, tighten("fork@FL"))
