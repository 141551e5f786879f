"""How long parts live: survival where some are still fitted, and whether two suppliers differ."""

import math
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.refusals import unfit

NORMAL_95 = 1.959963984540054  # two-sided 95 % of the normal distribution


@dataclass(frozen=True)
class Sample:
    """Parts of one kind: how long each was watched, and whether it failed then or was alive when last seen."""

    durations: tuple[Fraction, ...]
    failed: tuple[bool, ...]


@dataclass(frozen=True)
class Point:
    """The survival from one failure on, with Greenwood's sum under its variance."""

    time: Fraction
    survival: Fraction
    greenwood: float


@dataclass(frozen=True)
class Life:
    """Share that survives to a time, its 95 % limits, and the median, None where more than half still live.

    The limits are None where nobody is left alive, since the method has none there.
    """

    survival: Fraction
    low: float | None
    high: float | None
    median: Fraction | None


@dataclass(frozen=True)
class Comparison:
    """The log-rank statistic with one degree of freedom, and how often chance alone gives as much.

    `failed` parts of the first failed, and `expected` would have if both lived alike."""

    chi_square: float
    p: float
    failed: int = 0
    expected: float = 0.0


def part_life(durations: Sequence[Fraction], failed: Sequence[bool], at: Fraction | None = None) -> Life:
    """Return the survival of parts up to a time, by Kaplan and Meier, with log-log limits of 95 %.

    durations [one unit of time or distance], failed beside each, at [1, counted like them; the longest when left out].
    A part that was last seen alive at the time of a failure counts as alive at it; a part removed in good order was
    alive when last seen. Range: up to the longest duration, beyond which nothing is known. Errors: lists of
    different length, a time beyond. Source: Kaplan and Meier 1958; Greenwood's variance, log-log limits.
    """
    look_at_sample(durations, failed)
    until = max(durations) if at is None else at
    if until > max(durations):
        raise unfit("at", f"nothing is known beyond {float(max(durations)):g}", "ask for an earlier time")
    points = survival_curve(durations, failed)
    last = points[bisect_right(points, until, key=lambda point: point.time) - 1]
    halved = next((point.time for point in points if 2 * point.survival <= 1), None)
    return Life(last.survival, *limits(last), halved)


def survival_curve(durations: Sequence[Fraction], failed: Sequence[bool]) -> tuple[Point, ...]:
    """Return the survival from the start and from each failure on."""
    points = [Point(Fraction(-1), Fraction(1), 0.0)]
    steps, scale = _in_steps(durations)
    for time, dead, risk in _failures(steps, failed):
        before = points[-1]
        step = dead / (risk * (risk - dead)) if risk > dead else 0.0
        survival = before.survival * Fraction(risk - dead, risk)
        points.append(Point(Fraction(time, scale), survival, before.greenwood + step))
    return tuple(points)


def compare_lives(first: Sample, second: Sample) -> Comparison:
    """Return the log-rank comparison of two samples.

    first, second: durations [one unit for both] with failed beside each. The variance is hypergeometric; the shorter
    sum of (O − E)²/E is another test and gives less. Range: hazards that do not cross; with few failures p is rough.
    Errors: no failure at all, or none while parts of both are watched. Source: Mantel 1966.
    """
    for key, sample in (("first", first), ("second", second)):
        look_at_sample(sample.durations, sample.failed, f"{key} durations", f"{key} failed")
    steps, _ = _in_steps(first.durations + second.durations)
    ours = steps[: len(first.durations)]
    watched, own = sorted(ours), _deaths(ours, first.failed)
    due, variance = [], []
    for time, dead, risk in _failures(steps, first.failed + second.failed):
        here = len(watched) - bisect_left(watched, time)
        due.append(dead * here / risk)
        variance.append(dead * here * (risk - here) * (risk - dead) / (risk**2 * max(risk - 1, 1)))
    if not any(variance):
        raise unfit("first", "no part failed while parts of both were watched", "wait for failures")
    failed, expected = own.total(), math.fsum(due)
    square = (failed - expected) ** 2 / math.fsum(variance)
    return Comparison(square, math.erfc(math.sqrt(square / 2)), failed, expected)


def alive_at(durations: Sequence[Fraction], time: Fraction) -> int:
    """Return how many parts were still watched, and alive, just before that time."""
    return sum(duration >= time for duration in durations)


def look_at_sample(
    durations: Sequence[Fraction], failed: Sequence[bool], key: str = "durations", other: str = "failed"
) -> None:
    """Refuse a sample that is empty, or whose two lists are of different length."""
    if not durations:
        raise unfit(key, "it is empty", "give one duration for each part")
    if len(durations) != len(failed):
        raise unfit(other, f"it has {len(failed)} answers for {len(durations)} durations", "give one for each part")


def _in_steps(durations: Sequence[Fraction]) -> tuple[list[int], int]:
    """Return the durations counted in their largest common step, and how many steps make one: whole numbers are
    compared ten times as fast as fractions, and just as exactly."""
    scale = math.lcm(*(duration.denominator for duration in durations))
    return [duration.numerator * (scale // duration.denominator) for duration in durations], scale


def _failures(durations: Sequence[int], failed: Sequence[bool]) -> Iterator[tuple[int, int, int]]:
    """Yield each time at which parts failed, how many did, and how many were alive just before."""
    watched = sorted(durations)
    for time, dead in sorted(_deaths(durations, failed).items()):
        yield time, dead, len(watched) - bisect_left(watched, time)


def _deaths(durations: Sequence[int], failed: Sequence[bool]) -> Counter[int]:
    return Counter(duration for duration, died in zip(durations, failed, strict=True) if died)


def limits(point: Point) -> tuple[float | None, float | None]:
    """Return the lower and upper 95 % limit of the survival at a point; None where nobody is left alive."""
    if point.survival == 1:
        return 1.0, 1.0
    if not point.survival:
        return None, None
    log = math.log(point.survival)
    spread = math.exp(NORMAL_95 * math.sqrt(point.greenwood) / -log)
    return math.exp(log * spread), math.exp(log / spread)
