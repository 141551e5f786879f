"""What became of a finding: the last word that counts, followed entry by entry."""

from functools import reduce

from jobbook.core.desk.answers_to_findings import Answers, heard
from jobbook.core.desk.permission import ON_SCREEN

FOUND = 7


def answer(*entries):
    told = reduce(lambda so_far, one: heard(so_far, *one), entries, Answers())
    return told.of(FOUND)


def allowed(number, **facts):
    return "permission/1", number, {"finding": str(FOUND), "may": "", "how": "signed"} | facts


DECLINED = ("declined/1", 9, {"finding": FOUND})


def test_a_finding_that_nobody_spoke_of_has_no_answer():
    assert answer() == ""
    assert answer(("permission/1", 8, {"scope": "repair"}), ("declined/1", 9, {"finding": 0})) == ""
    assert answer(("line/1", 8, {"finding": FOUND})) == ""


def test_the_last_word_counts():
    assert answer(allowed(8)) == "allowed"
    assert answer(allowed(8), DECLINED) == "declined"
    assert answer(DECLINED, allowed(10)) == "allowed"
    assert answer(allowed(8), ("finding-answered/1", 9, {"finding": FOUND, "answer": "put right"})) == "put right"


def test_a_permission_that_is_taken_back_answers_no_more():
    back = ("permission-changed/1", 10, {"of": 8, "what": "withdrawn"})
    assert answer(allowed(8), back) == ""
    assert answer(DECLINED, allowed(11), ("permission-changed/1", 12, {"of": 11, "what": "moved"})) == "declined"
    assert answer(allowed(8), ("permission-changed/1", 10, {"of": 8, "what": "changed"})) == "allowed"


def test_whoever_may_not_allow_it_has_not_allowed_it():
    assert answer(allowed(8, may="may not")) == answer(allowed(8, may="unknown")) == ""
    assert answer(allowed(8, may="acts for")) == "allowed"


def test_one_to_be_signed_on_the_screen_counts_from_the_signature_on():
    waiting = allowed(8, how=ON_SCREEN)
    assert answer(waiting) == ""
    assert answer(waiting, ("signature/1", 9, {"of": 8})) == "allowed"
    assert answer(waiting, ("signature/1", 9, {"of": 3})) == ""
    assert (
        answer(waiting, ("permission-changed/1", 9, {"of": 8, "what": "withdrawn"}), ("signature/1", 10, {"of": 8}))
        == ""
    )
