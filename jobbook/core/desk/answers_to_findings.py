"""What became of each finding that the customer is to be asked about, followed entry by entry; the last word counts.

A permission that names the finding answers it while it stands, may be given by who gave it, and is signed where it was
to be signed. What the customer declined prints with its consequence. The other answers are the shop's own words.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

from jobbook.core.desk.permission import COUNTING, MOVED, ON_SCREEN, WITHDRAWN

KINDS = ("permission/1", "permission-changed/1", "signature/1", "declined/1", "finding-answered/1")
ALLOWED, DECLINED = "allowed", "declined"
TOLD, COVERED, PUT_RIGHT, TAKEN_BACK = "told", "covered", "put right", "withdrawn"
OTHERWISE: Mapping[str, str] = MappingProxyType(
    {
        TOLD: "the customer was told; it is left, and watched",
        COVERED: "another permission of this job covers it",
        PUT_RIGHT: "it was put right",
        TAKEN_BACK: "it was no finding after all",
    }
)
NOT_OF_UNSAFE = (TOLD,)  # what is unsafe to drive is not merely told and left


@dataclass(frozen=True)
class FindingAnswered:
    """A finding was answered otherwise than by being allowed or declined: a key of OTHERWISE, and why or what was said.

    `who` was told, where somebody was."""

    finding: int
    answer: str
    why: str
    who: str | None = ""
    how: str = ""
    at: str = ""
    by: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Answers:
    """`given` are the answers that count, by their entry: (finding, answer). `waiting` wait for a signature."""

    given: Mapping[int, tuple[int, str]] = field(default_factory=dict)
    waiting: Mapping[int, tuple[int, str]] = field(default_factory=dict)

    def of(self, finding: int) -> str:
        """The last answer to a finding, by the number of its first entry; empty where there is none."""
        return next((said for entry, (of, said) in sorted(self.given.items(), reverse=True) if of == finding), "")


def heard(answers: Answers, kind: str, number: int, facts: Mapping[str, Any]) -> Answers:
    """The answers after one entry; entries of other kinds change nothing."""
    if kind == "permission-changed/1":
        gone = facts["of"] if facts["what"] in (WITHDRAWN, MOVED) else 0
        return Answers(_without(answers.given, gone), _without(answers.waiting, gone))
    if kind == "signature/1":
        signed = {of: one for of, one in answers.waiting.items() if of == facts["of"]}
        return Answers({**answers.given, **signed}, _without(answers.waiting, facts["of"]))
    finding = int(facts.get("finding") or 0)
    if kind not in KINDS or not finding:
        return answers
    if kind == "permission/1":
        return _allowed(answers, number, finding, facts)
    said = DECLINED if kind == "declined/1" else str(facts["answer"])
    return replace(answers, given={**answers.given, number: (finding, said)})


def _allowed(answers: Answers, number: int, finding: int, facts: Mapping[str, Any]) -> Answers:
    one = {number: (finding, ALLOWED)}
    if facts.get("may", "") not in COUNTING:
        return answers
    if facts.get("how") == ON_SCREEN:
        return replace(answers, waiting={**answers.waiting, **one})
    return replace(answers, given={**answers.given, **one})


def _without(listed: Mapping[int, tuple[int, str]], gone: int) -> Mapping[int, tuple[int, str]]:
    return {entry: one for entry, one in listed.items() if entry != gone}
