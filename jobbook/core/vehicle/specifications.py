"""Figures that the shop read from a maker's document for one variant, each in force from a day on."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Specification:
    """One figure for one variant. `key` is the method's figure key, or `height FL` ... for ride heights.

    `text` is as typed ("50 N·m, then +90°"); `stages` the exact texts, one a stage; `tolerance` as typed ("± 10 %").
    `valid_from` is an ISO day; empty says that it always was. `doubt` is what a second person read otherwise."""

    id: int
    variant: str
    key: str
    kind: str
    title: str
    text: str
    stages: tuple[str, ...] = ()
    tolerance: str = ""
    conditions: str = ""
    document: str = ""
    edition: str = ""
    read_by: str = ""
    second_look_by: str = ""
    entered_at: str = ""
    entry: int = 0
    valid_from: str = ""
    doubt: str = ""

    @property
    def said(self) -> tuple[str, ...]:
        """What two figures are compared by: the figure itself, and where it stands."""
        return self.text, self.tolerance, self.document, self.edition


@dataclass(frozen=True)
class SecondLook:
    """Another person read the document too. `doubt` is empty where they read the same."""

    figure: int  # the number of the entry that they looked at
    by: str
    doubt: str = ""


@dataclass(frozen=True)
class Day:
    """The day that figures are wanted for; only entries before `before` count, where it is not nought."""

    on: str
    before: int = 0


def in_force(told: Sequence[Specification], day: Day) -> tuple[Specification, ...]:
    """Return the figure of each key that is in force on that day, by key.

    The one with the latest day counts; of two from the same day the one that was entered later. `told` stands in the
    order of entry. A figure that begins later is not in force yet."""
    known: dict[str, Specification] = {}
    for figure in told:
        counts = figure.valid_from <= day.on and (not day.before or figure.entry < day.before)
        if counts and (figure.key not in known or known[figure.key].valid_from <= figure.valid_from):
            known[figure.key] = figure
    return tuple(known[key] for key in sorted(known))


def to_come(told: Sequence[Specification], day: Day) -> tuple[Specification, ...]:
    """The figures that were entered and begin on a later day, in the order in which they begin."""
    return tuple(sorted((one for one in told if one.valid_from > day.on), key=lambda one: (one.valid_from, one.key)))


def looked_at(figures: Iterable[Specification], looks: Iterable[SecondLook]) -> tuple[Specification, ...]:
    """Return the figures with the last second look at each."""
    by_entry = {look.figure: look for look in looks}
    return tuple(_with_look(figure, by_entry.get(figure.entry)) for figure in figures)


def _with_look(figure: Specification, look: SecondLook | None) -> Specification:
    if look is None:
        return figure
    return replace(figure, second_look_by="" if look.doubt else look.by, doubt=look.doubt)


@dataclass(frozen=True)
class Apart:
    """One figure of several variants side by side, in their order; None where a variant has none."""

    key: str
    title: str
    figures: tuple[Specification | None, ...]

    @property
    def differs(self) -> bool:
        """Whether two variants have another figure here: it matters which of them the vehicle is."""
        return len({(one.text, one.tolerance) for one in self.figures if one}) > 1

    @property
    def lacking(self) -> bool:
        """Whether one of the variants has no such figure, which says nothing of it being the same."""
        return None in self.figures


def side_by_side(by_variant: Mapping[str, Sequence[Specification]]) -> tuple[Apart, ...]:
    """Return every figure that one of the variants has, those that differ first, then those that one lacks."""
    tables = [{figure.key: figure for figure in figures} for figures in by_variant.values()]
    titles = {key: figure.title for table in reversed(tables) for key, figure in table.items()}
    rows = [Apart(key, titles[key], tuple(table.get(key) for table in tables)) for key in sorted(titles)]
    return tuple(sorted(rows, key=lambda row: (not row.differs, not row.lacking)))


@dataclass(frozen=True)
class OlderUse:
    """A job that was done with another figure than the one in force: what it used, and when."""

    job: int
    at: str
    text: str
    tolerance: str
    document: str
    edition: str


def older_uses(used: Iterable[OlderUse], now: Specification) -> tuple[OlderUse, ...]:
    """The jobs whose figure is not the one in force, the newest job first; `used` is in the order of entry."""
    last = {one.job: one for one in used}
    apart = (one for one in last.values() if (one.text, one.tolerance, one.document, one.edition) != now.said)
    return tuple(sorted(apart, key=lambda one: -one.job))
