"""Answers other than "done", corrections, and what the vehicle was let go with. All of them print; none is a pass."""

from dataclasses import dataclass

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
