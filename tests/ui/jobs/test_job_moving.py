"""What was kept on the wrong job is moved from the Arrival tab, and a learner's joint countersigned in Final checks."""

from dataclasses import replace

from jobbook.core.work.model import Act
from jobbook.services import work
from jobbook.services.house import people
from jobbook.services.job import moving
from jobbook.services.sheet.sheets import Choice
from jobbook.ui.jobs.signing import SECRET, SIGNER
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import SIGNED_BY_BRAM, at_work, deed
from tests.ui.jobs.strut_book import PINS

SIGNED_BY_NADIA = {SIGNER: "nop", SECRET: PINS["nop"]}


def test_entries_are_moved_with_a_reason_and_the_tab_says_where_they_went(there):
    other = strut_book.another(there)
    presenter, seen = at_work(there)
    presenter.open_tab("arrival")
    move = deed(seen, "arrival", "move")
    heights = next(option.value for option in move.asks[0].options if "heights" in option.label)
    given = {"acts": heights, "to": "the other", "reason": "The wrong vehicle was open."} | SIGNED_BY_BRAM
    presenter.do(move, given)
    assert seen.refusals == ["Nothing was moved: “the other” is no number of a job."]
    presenter.do(move, given | {"to": str(other)})
    lines = [line.words for block in seen.tabs["arrival"].blocks for line in block.lines]
    assert f"measure heights: moved to job {other}" in lines
    assert [one.here for one in moving.moves(there.book, other)[1]] == [True]


JOINT = {
    "title": "Brake hose bracket bolt", "corner": "FL", "count": "1", "single_use": "no", "safety": "no",
    "loaded": "no", "torque": "20 N·m", "tolerance": "± 10 %", "document": "VH-BRK-2", "edition": "1, 2022",
}  # fmt: skip


def test_a_learners_joint_is_countersigned_in_the_final_checks(there):
    strut_book.begun(there)
    learner = replace(there.people["nop"], permissions=frozenset({"work"}), learning=True)
    people.change_person(there.book, there.people["it"], learner)
    for what, to in (("levelling", "off"), ("support", "lift")):
        choice = Choice("main", "Done", "Enter", Act("set", what=what, to=to))
        work.keep(there.book, there.bram, there.job, choice, {})
    presenter, seen = at_work(there)
    presenter.add_thing("joint", JOINT)
    for given in ({}, {"tool": "TW-07"} | SIGNED_BY_NADIA):
        presenter.open_step(-1, 1)
        presenter.choose(next(choice for choice in seen.sheet.card.choices if choice.key == "main"), given)
    presenter.open_tab("checks")
    end = deed(seen, "checks", "countersign")
    presenter.do(end, SIGNED_BY_NADIA)
    assert "another person countersigns" in seen.refusals[-1]
    presenter.do(end, SIGNED_BY_BRAM)
    assert seen.words[-1] == "Countersigned"
    assert "not-countersigned" not in {one.rule for one in seen.sheet.still_to_do}


def test_a_spring_that_stood_on_empty_is_cleared_by_name_in_the_final_checks(there):
    strut_book.begun(there)
    done = [Act("set", what="levelling", to="off"), Act("set", what="support", to="lift"), Act("vent", places=("FL",))]
    done.append(Act("set", what="support", to="wheels"))
    for act in done:
        choice = Choice("main", "Done", "Enter", act)
        work.keep_as_happened(there.book, there.bram, there.job, choice, {}, "It was let down by mistake.")
    presenter, seen = at_work(there)
    presenter.open_tab("checks")
    cleared = deed(seen, "checks", "cleared")
    presenter.do(cleared, {"reason": "Filled and soaped: no fold pinched, no bubbles."} | SIGNED_BY_BRAM)
    assert seen.refusals == []
    assert not [end for end in seen.sheet.still_to_do if "stood on empty: renew it" in end.sentence]
