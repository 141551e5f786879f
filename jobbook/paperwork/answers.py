"""Answers other than "done", corrections, and what the vehicle was let go with. All of them print; none is a pass."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.paperwork.blocks import answer_mark, mark_cell, ruled

ANSWERS = ("done", "not done", "not possible", "declined", "not applicable", "unknown", "sublet")


@dataclass(frozen=True)
class Answer:
    """Something that was asked for or due, with its answer (one of ANSWERS), why, what may follow, by whom and when."""

    what: str
    answer: str
    why: str = ""
    consequence: str = ""
    by: str = ""


@dataclass(frozen=True)
class Correction:
    """A corrected entry: both values stay readable."""

    what: str
    was: str
    now: str
    reason: str = ""
    by: str = ""
    at: str = ""


@dataclass(frozen=True)
class LetGo:
    """A loose end that a person with permission let go, with the reason."""

    what: str
    reason: str = ""
    by: str = ""
    at: str = ""


@dataclass(frozen=True)
class Release:
    """Who released the vehicle and when; the restriction it leaves with, and the loose ends it was let go with."""

    by: str = ""
    at: str = ""
    restriction: str = ""
    let_go: tuple[LetGo, ...] = ()


NOT_DONE = "Declined, not possible, not done"


def answers_table(answers: Sequence[Answer], width: float, title: str = NOT_DONE) -> list[Flowable]:
    """What was not simply done, each with its own answer."""
    rows = [(answer_mark(a.answer), a.what, a.answer, _because(a), a.by) for a in answers]
    heads = ("", "What", "Answer", "Why, and what may follow", "By")
    return ruled(title, heads, (3, 23, 12, 37, 25), rows, width)


def _because(answer: Answer) -> str:
    return "\n".join(text for text in (answer.why, answer.consequence) if text.strip())


def corrections_table(corrections: Sequence[Correction], width: float) -> list[Flowable]:
    """Entries that were corrected, both values; nothing where there was none."""
    if not corrections:
        return []
    rows = [(c.what, c.was, c.now, c.reason, _signed(c.by, c.at)) for c in corrections]
    heads = ("Corrected entry", "Was", "Is", "Reason", "By")
    return ruled("Corrections", heads, (24, 16, 16, 26, 18), rows, width)


def let_go_table(release: Release, width: float) -> list[Flowable]:
    """The loose ends that the vehicle was released with; nothing where there was none."""
    if not release.let_go:
        return []
    rows = [(mark_cell("ring"), end.what, end.reason, _signed(end.by, end.at)) for end in release.let_go]
    return ruled("Released with these still open", ("", "What", "Reason", "Let go by"), (3, 37, 40, 20), rows, width)


def _signed(by: str, at: str) -> str:
    return "\n".join(text for text in (by, at) if text.strip())
