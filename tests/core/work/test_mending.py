"""What was kept though it broke a rule stays a loose end until the act that puts it right; a danger that has passed
stays until a person says that it is repaired, or lets it go."""

from dataclasses import replace

import pytest

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Connector, Joint, ToolUse
from tests.core.work.building import (
    ACTIVE,
    HEIGHTS,
    IMKE,
    LIFT,
    LINE,
    NADIA,
    OFF,
    PLAIN,
    PROPPED,
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
    replay,
    support,
    tighten,
    torque,
    vent,
    work,
)

FIGURE = Joint("figure@FL", "Fork bolt", figure="f", corner="FL")
NUT = Joint("nut@FL", "Self-locking nut", single_use=True, pieces=("nut",), corner="FL")
BAG = Connector("bag@FL", "Crash bag connector", near_restraints=True, corner="FL")
THINGS = (WHEEL, PLAIN, FIGURE, NUT, BAG, LINE)
UNFIT = ToolUse("W-9", unfit="Wrench W-9 was due for calibration in May.")
LIFTED = (OFF, LIFT)
LOOSE = (*LIFTED, done("loosen", "plain@FL"))
OPENED = (*LIFTED, vent(), issue("line@FL", "O-ring"), done("open", "line@FL"))
PROMISED = (*LIFTED, vent(), support("touching", fills=("FL",)))

# Rule, the acts before, the act that was kept, an act that does not put it right, the acts that do.
MENDED: tuple[tuple[str, tuple[Act, ...], Act, Act, tuple[Act, ...]], ...] = (
    ("lift-with-levelling-active", (), LIFT, HEIGHTS, (OFF,)),
    ("lift-with-levelling-active", (), LIFT, HEIGHTS, (WHEELS,)),
    ("levelling-woken", LIFTED, ACTIVE, HEIGHTS, (OFF,)),
    ("half-built", LOOSE, TOUCHING, HEIGHTS, (LIFT,)),
    ("half-built", LOOSE, TOUCHING, HEIGHTS, (tighten("plain@FL"),)),
    ("promise-to-fill", PROMISED, done("loosen", "wheel@FL"), HEIGHTS, (fill(),)),
    ("open-line-left", OPENED, done("loosen", "plain@FL"), HEIGHTS, (done("plug", "line@FL", plugs=1),)),
    ("open-line-left", OPENED, done("loosen", "plain@FL"), HEIGHTS, (done("join", "line@FL", pieces=("O-ring",)),)),
    ("wrong-tool", LOOSE, tighten("plain@FL", tool=UNFIT), HEIGHTS, (tighten("plain@FL"),)),
    ("wrong-tool", LOOSE, tighten("plain@FL", tool=UNFIT), HEIGHTS, (done("loosen", "plain@FL"),)),
    ("figure-unknown", LIFTED, tighten("figure@FL"), HEIGHTS, (torque("f", "50 N*m"), tighten("figure@FL"))),
    ("same-person", (*LOOSE, tighten("plain@FL")), check("plain@FL", tighten("").by), HEIGHTS, (check("plain@FL"),)),
    (
        "hand-first",
        (*LIFTED, done("take_out", "plain@FL")),
        tighten("plain@FL"),
        HEIGHTS,
        (done("loosen", "plain@FL"),),
    ),
    (
        "single-use-again",
        (*LIFTED, done("loosen", "nut@FL")),
        tighten("nut@FL"),
        HEIGHTS,
        (done("take_out", "nut@FL"),),
    ),
    ("not-fit-to-drive", LIFTED, done("drive"), HEIGHTS, (WHEELS, done("drive"))),
)
PASSED: tuple[tuple[str, tuple[Act, ...], Act, tuple[Act, ...]], ...] = (
    ("under-load", (OFF,), done("loosen", "plain@FL"), (tighten("plain@FL"), LIFT, WHEELS)),
    ("under-pressure", LIFTED, done("open", "line@FL"), (vent(), done("plug", "line@FL"))),
    ("restraints-live", (), done("unplug", "bag@FL"), (done("take_out", "nut@FL"),)),
)


def kept(act: Act, rule: str) -> Act:
    return replace(act, kept_after=(rule,), reason="It had happened when it was written down.")


@pytest.mark.parametrize(("rule", "before", "act", "idle", "right"), MENDED, ids=[case[0] for case in MENDED])
def test_what_was_kept_is_loose_until_it_is_put_right(
    rule: str, before: tuple[Act, ...], act: Act, idle: Act, right: tuple[Act, ...]
) -> None:
    state = work(begun(*THINGS), *before)
    assert broken(state, act) == {rule}
    state = work(state, kept(act, rule))
    assert rule in loose(state)
    assert rule in loose(work(state, idle))
    assert rule not in loose(work(state, idle, *right))


@pytest.mark.parametrize(("rule", "before", "act", "later"), PASSED, ids=[case[0] for case in PASSED])
def test_a_danger_that_has_passed_is_put_right_only_by_the_word_of_a_person(
    rule: str, before: tuple[Act, ...], act: Act, later: tuple[Act, ...]
) -> None:
    state = replay(later, work(begun(*THINGS), *before, kept(act, rule)))
    assert rule in loose(state)
    for name in [end.on for end in loose_ends(state) if end.rule == rule and "Kept" in end.sentence]:
        state = work(state, done("repaired", name, by=IMKE, reason="Looked over."))
    assert rule not in loose(state)


def test_work_before_the_permission_is_put_right_by_the_permission() -> None:
    state = work(begun(WHEEL, permitted=False), kept(done("loosen", "wheel@FL"), "no-permission"))
    assert "no-permission" in loose(state)
    assert "no-permission" not in loose(work(state, done("permit")))
    asked = work(state, done("ask_authority"), done("permit"))
    assert "no-permission" in loose(asked)
    assert "no-permission" not in loose(work(asked, done("authority")))


def test_a_hub_propped_against_an_empty_spring_has_stood_on_it_and_no_other_corner_has() -> None:
    state = work(begun(*THINGS), *LIFTED, vent("FL", "RR"), kept(PROPPED, "weight-on-empty-spring"))
    assert tuple(state.stood_empty) == ("FL",)
    down = work(state, LIFT, fill("FL", "RR"), WHEELS)
    assert broken(down, done("drive")) == {"not-fit-to-drive"}
    assert broken(work(down, done("cleared", "FL", by=NADIA, reason="No crease.")), done("drive")) == set()


def test_what_was_kept_says_why_and_what_it_went_against() -> None:
    state = work(begun(*THINGS), kept(LIFT, "lift-with-levelling-active"))
    end = next(end for end in loose_ends(state) if end.rule == "lift-with-levelling-active")
    assert "It had happened when it was written down." in end.sentence
    assert "evelling" in end.sentence
