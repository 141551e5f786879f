"""A finding holds the release until the customer's word on it is kept; one that is unsafe, until it was put right."""

from dataclasses import replace

import pytest

from jobbook.core.desk.answers_to_findings import FindingAnswered
from jobbook.core.desk.permission import Declined
from jobbook.core.errors import NotFound, Refused
from jobbook.core.measured.diagnosis import Finding
from jobbook.services import work
from jobbook.services.agreed import asking
from jobbook.services.house.verifying import audit_book
from jobbook.services.job.release import release
from jobbook.services.measured.findings import correct_finding, keep_finding
from jobbook.services.office import desk
from tests.services.agreeing import PHONE, agreed, change, ends, give, settle

BUSH = Finding("Lower arm bush cracked", "to be put right soon", corner="RL")
TYRE = Finding("Tyre worn through to its cords", "unsafe to drive", corner="RR")


@pytest.fixture
def there(at):
    return at("taken in")


def find(there, finding=BUSH):
    return keep_finding(there.book, there.bram, there.job, finding).entry


def answered(there, finding, answer, why="it is only on the surface", who="Ansel Harrow"):
    told = FindingAnswered(finding, answer, why, who, "by telephone", there.book.now())
    asking.keep_answer(there.book, there.bram, there.job, told)


def declined(there, finding, subject="finding"):
    told = Declined(subject, "", "", "Ansel Harrow", "by telephone", there.book.now(), PHONE, finding)
    asking.keep_declined(there.book, there.jonas, there.job, told)


def held(there):
    return ends(there).get("finding-open", "")


def go(there, restriction="", reason=""):
    release(there.book, there.imke, there.job, "128 411", "km", restriction, reason)
    return desk.get_job(there.book, there.job)


def test_a_finding_that_nobody_answered_holds_the_release_and_is_named(there):
    find(there)
    assert held(there) == (
        "To be asked: Lower arm bush cracked, RL; keep whether it was allowed, declined, or told and left."
    )
    with pytest.raises(Refused, match="not released: To be asked: Lower arm bush cracked, RL"):
        go(there)


def test_a_finding_about_which_nobody_is_asked_holds_nothing_unless_it_is_unsafe(there):
    find(there, replace(BUSH, needs_permission=False))
    assert held(there) == ""
    find(there, replace(TYRE, needs_permission=False))
    assert held(there).startswith("Must not leave so: Tyre worn through to its cords, RR, unsafe to drive")


@pytest.mark.parametrize("answer", ["told", "put right", "withdrawn"])
def test_answered_otherwise_it_holds_no_more_and_the_book_stays_sound(there, answer):
    answered(there, find(there), answer)
    assert held(there) == ""
    (kept,) = agreed(there).answered
    assert (kept.answer, kept.who, kept.by) == (answer, "Ansel Harrow", there.bram.id)
    assert audit_book(there.book.folder).findings == ()
    assert go(there).stage == "released"


def test_allowed_it_holds_no_more_and_withdrawn_it_holds_again(there):
    of = give(there, finding=str(find(there)))
    assert held(there) == ""
    change(there, of)
    assert "Lower arm bush cracked" in held(there)


def test_declined_it_holds_no_more(there):
    finding = find(there)
    declined(there, finding)
    assert held(there) == ""
    assert agreed(there).answer_to(finding).consequence.startswith("What was found stays as it is")


def test_another_permission_covers_it_only_where_there_is_one(there):
    finding = find(there)
    with pytest.raises(Refused, match="no permission of this job covers work"):
        answered(there, finding, "covered")
    give(there)
    answered(there, finding, "covered")
    assert held(there) == ""


def test_a_corrected_finding_is_answered_by_what_was_said_of_the_first(there):
    finding = find(there)
    for words in ("Lower arm bush torn", "Lower arm bush torn off"):
        correct_finding(there.book, there.bram, there.job, finding, replace(BUSH, words=words), "looked again")
    assert "Lower arm bush torn off" in held(there)
    declined(there, finding)
    assert held(there) == ""


def test_an_answer_says_what_and_why_and_is_about_a_finding_of_this_job(there):
    finding = find(there)
    with pytest.raises(Refused, match="say what became of it"):
        answered(there, finding, "told", why=" ")
    with pytest.raises(Refused, match="who was told"):
        answered(there, finding, "told", who="")
    with pytest.raises(NotFound, match="no finding 1;"):
        answered(there, 1, "told")
    with pytest.raises(NotFound, match="no finding 1;"):
        declined(there, 1)
    with pytest.raises(Refused, match="waits for the customer's word"):
        work.end_finding(there.book, there.imke, there.job, f"found {finding}", "repaired")


def test_what_is_unsafe_and_allowed_holds_until_it_was_put_right(there):
    finding = find(there, TYRE)
    give(there, finding=str(finding))
    assert held(there).endswith("repairing it is allowed: keep that it was put right.")
    with pytest.raises(Refused, match="telling of it is not enough"):
        answered(there, finding, "told")
    answered(there, finding, "put right", "new tyre, balanced")
    assert go(there).stage == "released"


def test_case_45_what_is_unsafe_and_declined_leaves_only_under_a_restriction_that_prints(there):
    declined(there, find(there, TYRE))
    (kept,) = agreed(there).declined
    assert (kept.subject, "have it recovered" in kept.consequence) == ("unsafe", True)
    with pytest.raises(Refused, match="Tyre worn through to its cords, RR, unsafe to drive” must not leave so"):
        go(there)
    assert go(there, "not to be driven: on the recovery truck").restriction.startswith("not to be driven")


def test_a_shop_may_let_nothing_go_that_is_unsafe(there):
    settle(there, no_release_without=("unsafe",))
    declined(there, find(there, TYRE))
    assert "does not let a vehicle go without it" in held(there)
    with pytest.raises(Refused, match="not released"):
        go(there, "on the recovery truck")
    assert go(there, "on the recovery truck", "the recovery firm signed for it").stage == "released"
