"""An apprentice does work: they sign for it, and a person who is not learning countersigns what they tightened."""

from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.services import work
from jobbook.services.house import people
from jobbook.services.job.release import release
from jobbook.services.papers import preview
from tests.services.workshop import PIN, Workshop

RULE = "not-countersigned"


def apprentice(there: Workshop) -> Person:
    return people.add_person(there.book, there.imke, "Ilse Maarn", frozenset({"work"}), PIN, learning=True)


@pytest.fixture
def tightened(at):
    """The top nuts were tightened and signed by the apprentice."""
    there = at("top nuts")
    there.ilse = apprentice(there)
    there.do(by=there.ilse)
    return there


def countersigned(there: Workshop, by: Person) -> None:
    (end,) = [end for end in there.sheet().still_to_do if end.rule == RULE]
    work.countersign(there.book, by, there.job, end.on)


def evidence(there: Workshop) -> str:
    pages = PdfReader(BytesIO(preview(there.book, there.job, "evidence"))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_what_an_apprentice_tightened_waits_for_a_countersignature(tightened):
    there = tightened
    (end,) = [end for end in there.sheet().still_to_do if end.rule == RULE]
    assert "countersign" in end.sentence
    assert end.on.startswith("strut_top_nuts")
    countersigned(there, there.nadia)
    assert RULE not in there.rules()


def test_work_of_others_waits_for_no_countersignature(at):
    there = at("top nuts")
    there.do()
    assert RULE not in there.rules()


def test_nobody_countersigns_their_own_work_nor_while_learning(tightened):
    there = tightened
    other = people.add_person(there.book, there.imke, "Teun Maarn", frozenset({"work"}), PIN, learning=True)
    for signer in (there.ilse, other):
        with pytest.raises(Refused, match="another person countersigns"):
            countersigned(there, signer)
    grown = people.change_person(there.book, there.imke, replace(there.ilse, learning=False))
    with pytest.raises(Refused, match="another person countersigns"):
        countersigned(there, grown)
    with pytest.raises(Refused, match="no permission"):
        countersigned(there, there.jonas)


def test_work_done_while_learning_stays_so_when_the_person_has_learned(tightened):
    there = tightened
    people.change_person(there.book, there.imke, replace(there.ilse, learning=False))
    assert RULE in there.rules()


def test_the_release_is_held_and_says_why(tightened):
    there = tightened
    countersigned(there, there.nadia)
    with pytest.raises(Refused, match="no tightening of this joint"):
        work.countersign(there.book, there.nadia, there.job, "strut_top_nuts@FL")
    there = tightened
    with pytest.raises(Refused, match="not released"):
        release(there.book, there.imke, there.job, "128 420", "km")


def test_the_paper_shows_both(at):
    there = at("top nuts")
    ilse = apprentice(there)
    there.do(by=ilse)
    assert "learning, with nobody" in evidence(there)
    countersigned(there, there.nadia)
    assert "learning, with N. Oyelaran-Pike" in evidence(there)


def test_somebody_who_is_learning_makes_no_second_checks(at):
    there = at("top nuts")
    with pytest.raises(Refused, match="learning cannot make second checks"):
        people.add_person(there.book, there.imke, "Ilse Maarn", frozenset({"work", "check"}), PIN, learning=True)
    with pytest.raises(Refused, match="learning cannot"):
        people.change_person(there.book, there.imke, replace(there.nadia, learning=True))
