"""What a finding means for the release: it holds the vehicle until the customer's word on it is kept.

One that is unsafe to drive must not leave so: allowed, it holds until it was put right; declined, the vehicle leaves
only under a restriction."""

from collections.abc import Iterator

from jobbook.core.desk.answers_to_findings import Answers, heard
from jobbook.core.measured.diagnosis import UNSAFE, with_corner
from jobbook.core.record.journal import Entry
from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act

FINDING = "finding/1"
NAMED = "found {0}"


def found(entry: Entry, first: int) -> Iterator[Act]:
    """The finding as it holds the release; `first` is the number of the entry that it was kept as first. One about
    which nobody is to be asked holds nothing, unless it is unsafe."""
    facts = entry.payload
    unsafe = facts["severity"] == UNSAFE
    if not unsafe and facts["needs"] != "permission":
        return
    where = with_corner(facts["words"], facts["corner"])
    text = f"{where}, {UNSAFE}" if unsafe else where
    kind = "must not leave so" if unsafe else "to be asked"
    act = Act("inspect", id=NAMED.format(first), finding=kind, text=text)
    yield replace(act, at=entry.done_at, by=str(entry.facts["done_by"]))


def finding_of(name: str) -> int:
    """The number of the desk's finding that a loose end is about, or 0 where it is about another."""
    word, _, number = name.partition(" ")
    return int(number) if word == "found" and number.isdigit() else 0


class FindingAnswers:
    """Follows what is said of the findings of one job; it lives for one replay."""

    def __init__(self) -> None:
        self._answers = Answers()

    def acts_of(self, entry: Entry) -> Iterator[Act]:
        before = self._answers
        self._answers = now = heard(before, entry.kind, entry.number, entry.payload)
        findings = {of for answers in (before, now) for of, _ in answers.given.values()}
        for finding in sorted(findings):
            if now.of(finding) != before.of(finding):
                act = Act("said", id=entry.act, on=NAMED.format(finding), what=now.of(finding), at=entry.done_at)
                yield replace(act, by=str(entry.facts["done_by"]))
