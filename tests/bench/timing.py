"""Timing two things beside each other, so that a slow moment of the machine falls on both."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median
from time import perf_counter

Deed = Callable[[], object]


@dataclass(frozen=True)
class Sizes:
    """How large and how often. The figures that are spoken of come from `FULL`; `QUICK` shows that it runs."""

    times: int
    starts: int
    jobs: int
    entries: int
    acts: int
    cases: int = 10_000
    many: int = 1_000_000  # jobs of the largest book
    rows: int = 50_000  # of an import
    visits: int = 200  # of one vehicle
    pictures: int = 40  # that arrive at once
    parts: int = 100_000  # fitted in the book that part life is asked of


FULL = Sizes(times=31, starts=9, jobs=100_000, entries=1_000_000, acts=2_000)
QUICK = Sizes(
    times=3, starts=1, jobs=150, entries=1_500, acts=60, cases=400, many=400, rows=60, visits=12, parts=60, pictures=3
)


@dataclass(frozen=True)
class Measured:
    """One thing measured: medians in milliseconds, of the program's way and of the bare counterpart, named `beside`."""

    what: str
    ours: float
    bare: float
    beside: str

    @property
    def ratio(self) -> float:
        return self.ours / self.bare


def milliseconds(deed: Deed) -> float:
    start = perf_counter()
    deed()
    return (perf_counter() - start) * 1000


def by_turns(ours: Deed, bare: Deed, times: int) -> tuple[float, float]:
    """The medians of both in milliseconds, done by turns; the first turn warms up and is left out."""
    turns = [(milliseconds(ours), milliseconds(bare)) for _ in range(times + 1)][1:]
    return medians(turns)


def medians(turns: Sequence[tuple[float, float]]) -> tuple[float, float]:
    return median(turn[0] for turn in turns), median(turn[1] for turn in turns)


def line(measured: Measured) -> str:
    told = f"{measured.what:<58} {measured.ratio:8.2f}   {measured.ours:9.3f} ms"
    return f"{told}   {measured.bare:9.3f} ms  {measured.beside}"


HEADING = f"{'':<58} {'ratio':>8}   {'job book':>12}   {'bare':>12}  the bare counterpart"
