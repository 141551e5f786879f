"""Methods: those that ship, those begun on a job, and the check of a file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from jobbook.core.errors import NotFound, Unreadable
from jobbook.core.work.begin import steps_for
from jobbook.core.work.method import Method, read_method
from jobbook.core.work.reading import Step
from jobbook.db.store import Book
from jobbook.places import resources
from jobbook.services.job.replay import Kept
from jobbook.services.measured.torque_at_work import fasteners

if TYPE_CHECKING:
    from jobbook.core.work.findings import Finding

LARGEST_READ = 1_000_000  # a little more than any method may have, so that the reader can say that it is too large


@dataclass(frozen=True)
class MethodCard:
    """A method as it is offered: `options` are its questions, `figures` (key, kind, title) what it asks for."""

    key: str
    title: str
    corners: tuple[str, ...]
    summary: str
    options: Mapping[str, str]
    figures: tuple[tuple[str, str, str], ...]
    text: str


@dataclass(frozen=True)
class Running:
    """A method begun on a job, in the revision that it was begun with; `begun` counts from 0."""

    begun: int
    method: Method
    corner: str
    options: Mapping[str, bool]
    steps: tuple[Step, ...]


def check_file(file: Path) -> "Sequence[Finding]":
    """What the checker finds in a method file. Raises Unreadable with line and column where it is no TOML."""
    from jobbook.core.work.checker import check

    with file.open("rb") as source:
        data = source.read(LARGEST_READ)
    try:
        return check(data)
    except Unreadable as error:
        raise Unreadable(f"{file}: {error}") from error


def shipped_methods() -> tuple[MethodCard, ...]:
    """The methods that ship, by title."""
    cards = (_card(file.read_text(encoding="utf-8")) for file in sorted((resources() / "methods").glob("*.toml")))
    return tuple(sorted(cards, key=lambda card: card.title))


def get_method(key: str) -> MethodCard:
    for card in shipped_methods():
        if card.key == key:
            return card
    raise NotFound(f"There is no method “{key}”; nothing was begun.")


def _card(text: str) -> MethodCard:
    method = parsed(text)
    figures = tuple((need.key, need.kind, figure_title(method, need.key)) for need in method.figures)
    return MethodCard(method.key, method.title, method.corners, method.summary, method.options, figures, text)


def figure_title(method: Method, key: str) -> str:
    """What people call a figure: its own name, or that of the joint that it is for."""
    named = next((need.name for need in method.figures if need.key == key and need.name), "")
    of_joint = next((d.thing.title for d in method.declared if getattr(d.thing, "figure", "") == key), "")
    return named or of_joint or key.replace("_", " ").capitalize()


@lru_cache(maxsize=64)
def parsed(text: str) -> Method:
    return read_method(text)


def fasteners_of_the_methods() -> dict[str, str]:
    """Thread and grade by the key of the figure, for the joints of every method that ships."""
    return fasteners(one.thing for card in shipped_methods() for one in parsed(card.text).declared)


def running_methods(reading: Book, kept: Sequence[Kept]) -> tuple[Running, ...]:
    """The methods begun on a job, in the order in which they were begun."""
    begun = [one.act for one in kept if one.act.do == "begin"]
    running = []
    for number, act in enumerate(begun):
        method = parsed(reading.methods.get(act.digest))
        steps = steps_for(method, act.corner, act.options)
        running.append(Running(number, method, act.corner, act.options, steps))
    return tuple(running)
