"""At the desk: concerns, tests, fault codes, the seven facts of a permission, a payer's authority."""

from dataclasses import replace

import pytest

from jobbook.core.errors import NotFound, Refused
from jobbook.core.jobs import FaultCode
from jobbook.services import work
from jobbook.services.office import desk
from jobbook.services.sheet.jobsheet import job_sheet
from tests.services.workshop import CORNER, METHOD, OPTIONS, REPAIR

BY_PHONE = replace(REPAIR, how="by telephone", reached_at="Quillhaven 0147", scope="extra", added="120.00")


@pytest.fixture
def there(at):
    return at("taken in")


def give(there, **changes):
    desk.give_permission(there.book, there.jonas, there.job, replace(REPAIR, **changes))


def test_a_permission_is_kept_with_its_seven_facts(there):
    desk.give_permission(there.book, there.jonas, there.job, BY_PHONE)
    (kept,) = desk.permissions(there.book, there.job)
    assert replace(kept, entry=0, currency="", profile="") == BY_PHONE


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"who": ""}, "who gave it"),
        ({"who": None}, "who gave it"),
        ({"at": ""}, "when"),
        ({"what": " "}, "what was allowed and why"),
        ({"total": ""}, "the limit or new total"),
        ({"how": "by message", "reached_at": ""}, "the number or address used"),
        ({"scope": "extra", "added": ""}, "the added cost"),
        ({"scope": "authority", "authority": "", "total": ""}, "the payer's number"),
    ],
)
def test_a_fact_that_is_missing_is_named_and_nothing_is_allowed(there, changes, missing):
    with pytest.raises(Refused, match=f"not kept: it still needs {missing}"):
        give(there, **changes)
    assert desk.permissions(there.book, there.job) == ()


@pytest.mark.parametrize("changes", [{"scope": "anything"}, {"how": "by pigeon"}])
def test_a_permission_is_of_a_known_kind_and_given_in_a_known_way(there, changes):
    with pytest.raises(Refused, match="choose what it allows, and how it was given"):
        give(there, **changes)


def test_a_permission_for_diagnosis_alone_bars_taking_apart(there):
    work.begin_method(there.book, there.bram, there.job, METHOD, CORNER, OPTIONS)
    give(there, scope="diagnosis")
    there.play(("loosen", "wheel_bolts"))
    assert there.card().choices == ()
    assert "before the customer's permission to dismantle is kept" in there.card().needs[0]
    give(there, scope="dismantle")
    there.do()


def test_authority_that_was_asked_for_bars_taking_apart_until_it_is_given(there):
    work.begin_method(there.book, there.bram, there.job, METHOD, CORNER, OPTIONS)
    give(there)
    desk.ask_authority(there.book, there.jonas, there.job, "Quillhaven Spring Supply")
    there.play(("loosen", "wheel_bolts"))
    assert "has not given it" in there.card().needs[0]
    assert "no-permission" in there.rules()
    give(there, scope="authority", authority="QS-77", total="")
    there.do()
    assert "no-permission" not in there.rules()


def test_an_authority_is_asked_of_somebody(there):
    with pytest.raises(Refused, match="name the payer"):
        desk.ask_authority(there.book, there.jonas, there.job, "  ")


def test_the_words_of_the_customer_stay_while_cause_and_correction_are_found(there):
    desk.concern(there.book, there.bram, there.job, 1, cause=" Sleeve leaks. ", confidence="proved")
    desk.concern(there.book, there.bram, there.job, 1, correction="Strut renewed.")
    desk.concern(there.book, there.jonas, there.job, 2, words="A hiss at night.")
    first, second = desk.get_job(there.book, there.job).concerns
    assert (first.words, first.cause) == ("Front left is down in the morning.", "Sleeve leaks.")
    assert (first.confidence, first.correction) == ("proved", "Strut renewed.")
    assert (second.words, second.cause) == ("A hiss at night.", "")


def test_a_concern_without_words_or_with_an_unknown_confidence_is_refused(there):
    with pytest.raises(Refused, match="needs the customer's words"):
        desk.concern(there.book, there.bram, there.job, 2, cause="worn")
    with pytest.raises(Refused, match="proved, probable or not found"):
        desk.concern(there.book, there.bram, there.job, 1, cause="worn", confidence="certain")


@pytest.mark.parametrize(
    ("answer", "result", "reason", "said"),
    [
        ("passed", "", "", "one of the answers"),
        ("done", " ", "", "has a result"),
        ("not done", "", " ", "“not done” needs its reason"),
        ("not possible", "", "", "needs its reason"),
        ("declined", "", "", "needs its reason"),
    ],
)
def test_a_test_says_what_it_showed_or_why_it_was_not_done(there, answer, result, reason, said):
    with pytest.raises(Refused, match=said):
        desk.add_test(there.book, there.bram, there.job, "Soap", answer, result, reason)
    assert desk.tests(there.book, there.job) == ()


def test_not_done_never_looks_like_passed(there):
    desk.add_test(there.book, there.bram, there.job, "Soap", "done", "dry")
    desk.add_test(there.book, there.bram, there.job, "Leak-down", "not possible", reason="no air")
    assert [(one.answer, one.result, one.by) for one in desk.tests(there.book, there.job)] == [
        ("done", "dry", "bf"),
        ("not possible", "", "bf"),
    ]
    assert {tab.key: tab.mark for tab in job_sheet(there.book, there.job).tabs}["diagnosis"] == "half"


def test_a_fault_code_is_kept_with_the_module_that_showed_it(there):
    code = FaultCode("Level control", "C1A2B", "run too long", "stored", "before", there.book.now(), "128 410", "no")
    desk.add_fault_code(there.book, there.bram, there.job, code)
    (kept,) = desk.fault_codes(there.book, there.job)
    assert replace(kept, entry=0) == code
    for wrong in (replace(code, module=" "), replace(code, when="later")):
        with pytest.raises(Refused, match="the module that showed it"):
            desk.add_fault_code(there.book, there.bram, there.job, wrong)


def test_a_job_that_is_not_there_is_said_so(there):
    with pytest.raises(NotFound, match="no job 99"):
        desk.get_job(there.book, 99)
    with pytest.raises(NotFound, match="no job 99"):
        desk.add_test(there.book, there.bram, 99, "Soap", "done", "dry")
