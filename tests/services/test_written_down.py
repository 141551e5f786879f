"""Acts that somebody did and wrote on paper, keyed later by another (nasty cases 38 and 39 of the trade notes)."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.house.people import add_person
from tests.services.workshop import usual


def keyed(there, who, choice=None, **changed):
    """The open step's main act, keyed from Bram's paper."""
    choice = choice or there.choice()
    late = {"noted": "paper", "done_by": there.bram.id, "done_at": ""} | changed
    return work.keep(there.book, who, there.job, choice, usual(choice), written_down=late)


def test_the_clerk_keys_what_the_technician_did_and_four_facts_stay_apart(at):
    there = at("kitted")
    there.clock.on(timedelta(hours=8))
    keyed(there, there.jonas, done_at="09:40")
    entry = there.journal("act/1")[-1]
    assert (entry.done_by, entry.entered_by) == (there.bram.id, there.jonas.id)
    assert entry.done_at[11:16] == "09:40"
    assert entry.entered_at[11:16] > entry.done_at[11:16]
    assert entry.payload["noted"] == "paper"


def test_it_waits_for_the_signature_of_whoever_did_it_and_nobody_else_can_sign(at):
    there = at("kitted")
    keyed(there, there.jonas)
    act = there.journal("act/1")[-1].act
    assert act in [one.act_id for one in there.sheet().unsigned]
    with pytest.raises(Refused, match="nobody signs for another"):
        work.sign(there.book, there.nadia, there.job, [act])
    work.sign(there.book, there.bram, there.job, [act])
    assert act not in [one.act_id for one in there.sheet().unsigned]


def test_an_act_that_is_signed_alone_is_keyed_unsigned(at):
    there = at("vent")
    choice = there.choice()
    assert choice.signs
    with pytest.raises(Refused, match="signed by the person who did it"):
        work.keep(there.book, there.jonas, there.job, choice, usual(choice))
    keyed(there, there.jonas, choice)
    assert there.journal("act/1")[-1].act in [one.act_id for one in there.sheet().unsigned]


def test_the_rules_judge_what_stands_on_paper_like_any_act(at):
    there = at("kitted")
    step = there.step_of("take_off", "strut")
    blocked = there.blocked(step=step)
    with pytest.raises(Refused):
        keyed(there, there.jonas, blocked)
    assert all("noted" not in entry.payload for entry in there.journal("act/1"))


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"done_by": ""}, "say who did it"),
        ({"done_by": "unknown"}, "say who did it"),
        ({"done_by": "nobody"}, "nobody of this shop"),
        ({"noted": ""}, "from paper or from memory"),
        ({"done_at": "2030-01-01 08:00"}, "in the future"),
    ],
)
def test_an_act_is_nobodys_act_without_its_doer(at, changed, said):
    there = at("kitted")
    with pytest.raises(Refused, match=said):
        keyed(there, there.jonas, **changed)


def test_a_second_check_is_never_copied_from_paper(at):
    there = at("kitted")
    with pytest.raises(Refused, match="signed by whoever makes it"):
        keyed(there, there.jonas, replace(there.choice(), second_person=True))


def test_a_wait_is_not_begun_from_paper(at):
    there = at("wait")
    with pytest.raises(Refused, match="begins with the clock"):
        keyed(there, there.jonas, there.choice("wait-begun"))


def test_somebody_who_may_neither_work_nor_keep_the_desk_keys_nothing(at):
    there = at("kitted")
    guest = add_person(there.book, there.imke, "Guest Hand", frozenset({"check"}), "4321")
    with pytest.raises(Refused, match="has no permission"):
        keyed(there, guest)
