"""Findings of a job: each with its weight, its concern, and whether it needs permission."""

import pytest

from jobbook.core.errors import NotFound, Refused
from jobbook.core.measured.diagnosis import Finding
from jobbook.services.job.release import release
from jobbook.services.measured.findings import correct_finding, findings, keep_finding

ROLL = Finding("Sleeve chafed at the lower roll", "to be put right with this work", 1, corner="FL")


def test_a_finding_keeps_its_weight_its_concern_and_that_it_needs_permission(at):
    there = at("taken in")
    kept = keep_finding(there.book, there.bram, there.job, ROLL)
    (found,) = findings(there.book, there.job)
    assert (found.words, found.severity, found.concern, found.corner) == (ROLL.words, ROLL.severity, 1, "FL")
    assert (found.needs_permission, found.entry, found.by) == (True, kept.entry, there.bram.id)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"words": "  "}, "write what was found"),
        ({"severity": "bad"}, "how much it matters"),
        ({"corner": "front"}, "is no corner"),
        ({"concern": 7}, "no concern 7"),
    ],
)
def test_a_finding_that_says_too_little_is_not_kept(at, changed, said):
    there = at("taken in")
    with pytest.raises(Refused, match=said):
        keep_finding(there.book, there.bram, there.job, Finding(**{**vars(ROLL), **changed}))
    assert findings(there.book, there.job) == ()


def test_a_finding_is_corrected_in_its_place_and_keeps_its_number(at):
    there = at("taken in")
    number = keep_finding(there.book, there.bram, there.job, ROLL).entry
    keep_finding(there.book, there.bram, there.job, Finding("Tyre RR worn to its wire", "unsafe to drive", corner="RR"))
    for words in ("Sleeve chafed at the upper roll", "Sleeve cut at the upper roll"):
        now = Finding(words, ROLL.severity, 1, corner="FL")
        correct_finding(there.book, there.bram, there.job, number, now, "looked again with a lamp")
    first, second = findings(there.book, there.job)
    assert (first.words, first.entry) == ("Sleeve cut at the upper roll", number)
    assert second.corner == "RR"
    assert there.journal("finding/1")[0].payload["words"] == ROLL.words


def test_a_correction_needs_its_reason_and_a_finding_that_is_there(at):
    there = at("taken in")
    number = keep_finding(there.book, there.bram, there.job, ROLL).entry
    with pytest.raises(Refused, match="needs the reason"):
        correct_finding(there.book, there.bram, there.job, number, ROLL, " ")
    with pytest.raises(NotFound, match="no finding 1;"):
        correct_finding(there.book, there.bram, there.job, 1, ROLL, "a slip")


def test_nothing_is_found_on_a_vehicle_that_has_gone(at):
    there = at("done")
    release(there.book, there.imke, there.job, "128 417", "km")
    with pytest.raises(Refused, match="was released"):
        keep_finding(there.book, there.bram, there.job, ROLL)
