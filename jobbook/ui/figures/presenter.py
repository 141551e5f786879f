"""The figures as a sheet: which one is open, what was typed into each, and what comes out while it is typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from jobbook.core.drawing import Drawing
from jobbook.core.errors import Refused
from jobbook.core.figures.figure import Figure, Input
from jobbook.core.figures.registry import FIGURES
from jobbook.services.measured.figure_notes import Notes, notes
from jobbook.services.measured.reckoning import reckon
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.ui.figures.pictures import picture
from jobbook.ui.figures.results import Result, results
from jobbook.ui.figures.words import input_words

FIRST = "adapter"
MANY = 4  # a choice of more stands in a list that opens


@dataclass(frozen=True)
class Line:
    """One figure in the list: its name on the command line, and what it is for."""

    name: str
    says: str


@dataclass(frozen=True)
class Sheet:
    """One figure: what it asks, what was typed into it before, and what is said of it."""

    name: str
    title: str
    asks: tuple[Ask, ...]
    given: Mapping[str, str]
    notes: Notes


class FiguresView(Protocol):
    """What the page can show."""

    def show_lines(self, lines: tuple[Line, ...], chosen: str) -> None: ...

    def show_sheet(self, sheet: Sheet) -> None: ...

    def show_result(self, found: tuple[Result, ...], drawing: Drawing | None) -> None: ...

    def say(self, sentence: str) -> None:
        """Say in place of a result what is still needed, or why there is none."""

    def refuse(self, key: str, sentence: str) -> None:
        """Say under that field what is wrong with it."""


class FiguresPresenter:
    """Keeps what was typed into each figure as long as the window is open. It has no arithmetic of its own."""

    def __init__(self, view: FiguresView, last: str = "") -> None:
        self._view = view
        self._open = last if last in FIGURES else FIRST
        self._given: dict[str, dict[str, str]] = {}
        self._found: tuple[Result, ...] = ()
        self.found: Mapping[str, object] = {}  # the results by their keys; empty while there are none

    @property
    def name(self) -> str:
        return self._open

    def open(self) -> None:
        """Show the list with the figure that was open last."""
        self._view.show_lines(lines(""), self._open)
        self.choose(self._open)

    def find(self, text: str) -> None:
        """Narrow the list to figures that hold every typed word."""
        self._view.show_lines(lines(text), self._open)

    def choose(self, name: str, given: Mapping[str, str] | None = None) -> None:
        """Open a figure as it was left, or with the values that somebody brings along."""
        self._open = name
        if given is not None:
            self._given[name] = dict(given)
        there = self._given.get(name, {})
        self._view.show_sheet(Sheet(name, FIGURES[name].says, asks_of(FIGURES[name]), there, notes(name)))
        self.typed(there)

    def typed(self, given: Mapping[str, str]) -> None:
        """Compute with what stands in the fields now, once everything that is needed is there."""
        figure = FIGURES[self._open]
        self._given[self._open] = dict(given)
        there = {key: text.strip() for key, text in given.items() if text.strip()}
        self._found, self.found = (), {}
        lacking = _lacking(figure, there)
        self._view.show_result((), picture(self._open, there, {}))
        if lacking:
            self._view.say(f"Still needed: {', '.join(lacking)}.")
            return
        try:
            found = reckon(self._open, there)
        except Refused as refused:
            self._refuse(figure, str(refused))
            return
        self._found, self.found = results(found, there), found
        self._view.show_result(self._found, picture(self._open, there, found))

    def _refuse(self, figure: Figure, sentence: str) -> None:
        """Say it under the field that the sentence begins with; what is about several fields stands by the result."""
        key = next((one.key for one in figure.inputs if sentence.startswith((f"{one.key}: ", f"{one.key} was "))), "")
        if not key:
            self._view.say(_of_fields(figure, sentence))
            return
        said = sentence.removeprefix(f"{key}: ")
        self._view.refuse(key, said[:1].upper() + said[1:])
        self._view.say("There is no result until this can be read.")

    def copied(self) -> str:
        """What is copied: the result lines, for a note or a letter."""
        return "\n".join(one.line for one in self._found)


def lines(text: str) -> tuple[Line, ...]:
    """The figures that hold every typed word in name, purpose or inputs."""
    words = text.casefold().split()
    return tuple(
        Line(one.name, one.says)
        for one in FIGURES.values()
        if all(word in f"{one.name} {one.says} {' '.join(i.key for i in one.inputs)}".casefold() for word in words)
    )


def asks_of(figure: Figure) -> tuple[Ask, ...]:
    """The inputs of a figure as questions."""
    return tuple(_ask(figure, one) for one in figure.inputs)


def _ask(figure: Figure, one: Input) -> Ask:
    label = input_words(figure.name, one.key)
    if one.key in figure.one_of:
        label = f"{label} (one of the two)"
    options = options_of(one.allowed)
    kind = "text" if not options else "choice" if len(options) <= MANY else "list"
    return Ask(one.key, label, kind, options, required=not one.optional and one.key not in figure.one_of)


def _lacking(figure: Figure, there: Mapping[str, str]) -> list[str]:
    """What must be typed before anything can come out, by the first words of its label."""
    needed = [one.key for one in figure.inputs if not one.optional and one.key not in figure.one_of]
    lacking = [key for key in needed if key not in there]
    names = [_short(figure, key) for key in lacking]
    if figure.one_of and not figure.one_of & set(there):
        either = [_short(figure, one.key) for one in figure.inputs if one.key in figure.one_of]
        names.insert(0, " or ".join(either))
    return names


def _short(figure: Figure, key: str) -> str:
    return input_words(figure.name, key).partition(",")[0]


def _of_fields(figure: Figure, sentence: str) -> str:
    """A sentence about several fields without the keys in front, which stand on no field."""
    keys = [one.key for one in figure.inputs]
    head, colon, rest = sentence.partition(": ")
    listed = colon and all(part in keys for part in head.split(", "))
    said = rest if listed else sentence
    return said[:1].upper() + said[1:]
