"""Tests of a diagnosis by their order, kept with figures, limits and their source. Limits are made up for the test."""

from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.services.house import people
from jobbook.services.job.late import NOBODY_KNOWN
from jobbook.services.job.release import release
from jobbook.services.measured.guided import correct_guided, hint_of, keep_guided
from jobbook.services.office import desk

SUPPLY = {
    "run_time": "95",
    "limit run_time": "at most 120 s",
    "source": "maker's sheet VH-SUS-12, 3",
    "relay": "sticks",
}
SOAP = {"bubbles": "steady", "corner": "FL", "where": "lower roll,crimp ring"}


def answered(there, name=""):
    return [one for one in desk.tests(there.book, there.job) if one.name.startswith(name)]


def test_a_reading_is_kept_with_its_unit_its_limit_and_where_the_limit_stands(at):
    there = at("taken in")
    keep_guided(there.book, there.bram, there.job, "supply", SUPPLY)
    (test,) = answered(there, "Supply")
    assert test.answer == "done"
    assert "run time until it stops 95\u202fs (inside: at most 120 s by maker's sheet VH-SUS-12, 3)" in test.result
    assert "relay: sticks" in test.result
    assert test.result.endswith("not looked at: intake, dryer, exhaust")
    payload = there.journal("test/1")[-1].payload
    assert payload["figures"] == {"run_time": "95\u202fs"}
    assert "outside" not in payload


def test_a_reading_beyond_its_limit_says_outside(at):
    there = at("taken in")
    keep_guided(there.book, there.bram, there.job, "supply", SUPPLY | {"run_time": "2 min"})
    keep_guided(there.book, there.bram, there.job, "supply", SUPPLY | {"run_time": "121 s"})
    first, second = (entry.payload for entry in there.journal("test/1"))
    assert "outside" not in first  # two minutes are on the limit, which belongs to the inside
    assert second["outside"] == ["run_time"]


@pytest.mark.parametrize(
    ("key", "given", "said"),
    [
        ("supply", SUPPLY | {"source": " "}, "where the limit stands"),
        ("supply", SUPPLY | {"run_time": ""}, "no reading"),
        ("supply", SUPPLY | {"run_time": "95 bar"}, "is a pressure"),
        ("supply", SUPPLY | {"limit run_time": "120 s"}, "says no side"),
        ("round", {}, "has a result"),
        ("soap droop", {"answer": "not done"}, "needs its reason"),
        ("soap droop", {"answer": "not possible", "reason": ""}, "needs its reason"),
        ("soap droop", {"answer": "passed"}, "one of the answers"),
    ],
)
def test_what_says_too_little_or_cannot_be_read_is_not_kept(at, key, given, said):
    there = at("taken in")
    with pytest.raises(Refused, match=said):
        keep_guided(there.book, there.bram, there.job, key, given)
    assert answered(there) == []


@pytest.mark.parametrize("answer", ["not done", "not possible", "declined", "not applicable", "unknown"])
def test_the_answers_stay_apart_and_none_of_them_has_a_result(at, answer):
    there = at("taken in")
    reason = "arrived on a truck, on its stops"
    keep_guided(there.book, there.bram, there.job, "soap normal", {"answer": answer, "reason": reason, **SOAP})
    (test,) = answered(there, "Soap")
    assert (test.answer, test.result, test.reason) == (answer, "", reason)


def test_soap_says_where_and_how_it_bubbles(at):
    there = at("taken in")
    keep_guided(there.book, there.bram, there.job, "soap normal", SOAP | {"hole": "0.1 mm", "words": "wet since March"})
    (test,) = answered(there, "Soap")
    assert test.result == (
        "bubbles: steady; corner: FL; where they rise: lower roll, crimp ring; like a hole of 0.1\u202fmm; "
        "wet since March"
    )


def test_each_sensor_has_an_answer_of_its_own(at):
    there = at("taken in")
    for corner, level in (("FL", "2.5"), ("FR", "2.4")):
        keep_guided(there.book, there.bram, there.job, "electrical", {"corner": corner, "level": level})
    names = [test.name.rpartition(", ")[2] for test in answered(there, "Height sensors")]
    assert names == ["FL", "FR"]


def test_what_was_seen_when_isolating_says_what_it_points_to(at):
    there = at("taken in")
    keep_guided(there.book, there.bram, there.job, "isolation", {"sign": "all four fall"})
    hint = hint_of(answered(there, "Corner")[0].result)
    assert hint.startswith("Points to supply or exhaust valve")
    assert "switch levelling off" in hint
    assert hint_of("in order") == ""


def test_an_answer_is_corrected_with_a_reason_and_the_first_stays_readable(at):
    there = at("taken in")
    entry = keep_guided(there.book, there.bram, there.job, "soap normal", SOAP).entry
    with pytest.raises(Refused, match="needs the reason"):
        correct_guided(there.book, there.bram, there.job, "soap normal", entry, SOAP, "")
    changed = SOAP | {"corner": "FR"}
    correct_guided(there.book, there.bram, there.job, "soap normal", entry, changed, "wrong side written")
    (test,) = answered(there, "Soap")
    assert "corner: FR" in test.result
    assert [entry.facts["reason"] for entry in there.journal("test/1")[1:]] == ["wrong side written"]


def test_a_released_job_takes_no_further_test_but_a_correction_opens_it_again(at):
    there = at("taken in")
    entry = keep_guided(there.book, there.bram, there.job, "soap normal", SOAP).entry
    release(there.book, there.imke, there.job, "128 411", "km", let_go_reason="taken home")
    with pytest.raises(Refused, match="was released"):
        keep_guided(there.book, there.bram, there.job, "soap droop", SOAP)
    correct_guided(there.book, there.bram, there.job, "soap normal", entry, SOAP | {"corner": "FR"}, "wrong side")
    assert desk.get_job(there.book, there.job).stage != "released"


def test_paper_notes_keyed_by_the_clerk_keep_who_did_it_and_when_apart_from_who_entered_it(at):
    """Nasty case 39 of the trade notes."""
    there = at("taken in")
    there.clock.on(timedelta(hours=9))
    late = {"noted": "paper", "done_by": there.bram.id, "done_at": "09:15"}
    keep_guided(there.book, there.jonas, there.job, "soap normal", SOAP | late)
    entry = there.journal("test/1")[-1]
    assert (entry.done_by, entry.entered_by) == (there.bram.id, there.jonas.id)
    assert (entry.done_at[11:16], entry.entered_at[11:13]) == ("09:15", "17")
    assert entry.payload["noted"] == "paper"


def test_from_memory_is_said_for_good_and_nobody_known_is_nobody(at):
    there = at("taken in")
    keep_guided(there.book, there.bram, there.job, "soap normal", SOAP | {"noted": "memory", "done_by": NOBODY_KNOWN})
    entry = there.journal("test/1")[-1]
    assert (entry.done_by, entry.payload["noted"]) == ("unknown", "memory")
    correct_guided(there.book, there.bram, there.job, "soap normal", entry.number, SOAP, "a slip")
    assert there.journal("test/1")[-1].payload["noted"] == "memory"


@pytest.mark.parametrize(
    ("late", "said"),
    [
        ({"done_by": "bf"}, "from paper or from memory"),
        ({"done_at": "07:00"}, "from paper or from memory"),
        ({"noted": "hearsay"}, "from paper or from memory"),
        ({"noted": "paper", "done_by": "nobody"}, "nobody of this shop"),
        ({"noted": "paper", "done_at": "2031-01-01 08:00"}, "in the future"),
    ],
)
def test_what_is_written_down_later_says_from_what_by_whom_and_never_in_the_future(at, late, said):
    there = at("taken in")
    with pytest.raises(Refused, match=said):
        keep_guided(there.book, there.jonas, there.job, "soap normal", SOAP | late)


def test_one_who_has_left_can_still_have_done_it(at):
    """Nasty case 84 of the trade notes: the name stays with the work."""
    there = at("taken in")
    people.change_person(there.book, there.imke, people.Person(there.nadia.id, there.nadia.name, active=False))
    late = {"noted": "paper", "done_by": there.nadia.id}
    keep_guided(there.book, there.jonas, there.job, "soap normal", SOAP | late)
    assert there.journal("test/1")[-1].done_by == there.nadia.id
