"""Figures reckoned by name from typed text, beside the same arithmetic in plain Python floats."""

import json
import math
import random
from collections.abc import Callable
from fractions import Fraction

from jobbook.services.measured.reckoning import batch, reckon
from tests.bench.timing import Measured, Sizes, by_turns

LONG = 1000  # values of a list, the most that is taken


def reckoning(sizes: Sizes) -> tuple[Measured, ...]:
    """A batch of many cases, and lists as long as they may be."""
    chance = random.Random(1)
    given = [cases_of(chance) for _ in range(sizes.cases // len(FLOATS))]
    text = json.dumps([{"id": n, "reckon": name, "given": one} for n, (name, one) in enumerate(_flat(given))])
    floats = [(FLOATS[name], [float(str(value).split()[0]) for value in one.values()]) for name, one in _flat(given)]
    many = f"{sizes.cases:,} cases".replace(",", " ")
    ours, bare = by_turns(
        lambda: batch(text), lambda: [plain(*values) for plain, values in floats], sizes.times // 6 + 1
    )
    return Measured(f"batch of {many}, read and reckoned", ours, bare, "the same arithmetic in floats"), *_lists(sizes)


def _flat(given: list[dict[str, dict[str, object]]]) -> list[tuple[str, dict[str, object]]]:
    return [pair for one in given for pair in one.items()]


def cases_of(chance: random.Random) -> dict[str, dict[str, object]]:
    """One case of each figure, as a program would write it."""

    def some(low: float, high: float, unit: str = "") -> str:
        return f"{chance.uniform(low, high):.2f} {unit}".strip()

    return {
        "adapter": {
            "torque": some(5, 200, "N*m"), "lever": some(200, 600, "mm"), "extension": some(20, 90, "mm"),
            "angle": some(0, 90, "deg"),
        },
        "duty": {"run": some(60, 120, "s"), "rest": some(60, 900, "s")},
        "decide": {"value": some(390, 410, "mm"), "lower": "395 mm", "upper": "405 mm", "expanded": "1.8 mm"},
        "fill-time": {
            "volume": some(1, 10, "L"), "start": some(0, 5, "bar"), "end": some(6, 16, "bar"),
            "free_air": some(10, 30, "L/min"),
        },
    }  # fmt: skip


def _adapter(torque: float, lever: float, extension: float, angle: float) -> float:
    return torque * lever / (lever + extension * math.cos(math.radians(angle)))


def _decide(value: float, lower: float, upper: float, expanded: float) -> str:
    if lower + expanded <= value <= upper - expanded:
        return "conform"
    return "not conform" if value < lower - expanded or value > upper + expanded else "undecided"


FLOATS: dict[str, Callable[..., object]] = {
    "adapter": _adapter,
    "duty": lambda run, rest: 100 * run / (run + rest),
    "decide": _decide,
    "fill-time": lambda volume, start, end, air: volume * (end - start) / (1.01325 * air) * 60,
}


def _lists(sizes: Sizes) -> tuple[Measured, ...]:
    chance = random.Random(2)
    heights = [f"{chance.uniform(400, 404):.2f} mm" for _ in range(LONG)]
    lives = [f"{chance.uniform(1, 400):.2f}" for _ in range(LONG)]
    failed = " ".join(chance.choice("01") for _ in range(LONG))
    asked = {
        "mean and uncertainty of 1 000 readings": (
            lambda: reckon("readings", {"values": "; ".join(heights)}),
            lambda: _spread([float(one.split()[0]) for one in heights]),
        ),
        "survival of 1 000 parts": (
            lambda: reckon("part-life", {"durations": " ".join(lives), "failed": failed}),
            lambda: _survival([float(one) for one in lives], failed.split()),
        ),
    }
    return tuple(
        Measured(what, *by_turns(ours, bare, sizes.times), "the same arithmetic in floats")
        for what, (ours, bare) in asked.items()
    )


def _spread(values: list[float]) -> float:
    mean = math.fsum(values) / len(values)
    return math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (len(values) - 1))


def _survival(durations: list[float], failed: list[str]) -> float:
    survival = 1.0
    for risk, (_, died) in zip(range(len(durations), 0, -1), sorted(zip(durations, failed, strict=True)), strict=True):
        survival *= 1 - 1 / risk if died == "1" else 1
    return survival


def same_as_the_floats() -> bool:
    """Whether both sides come to the same, so that it is the same arithmetic that is timed."""
    for name, given in cases_of(random.Random(3)).items():
        (found,) = reckon(name, given).values()
        plain = FLOATS[name](*(float(str(value).split()[0]) for value in given.values()))
        alike = found == plain if isinstance(found, str) else math.isclose(found, float(Fraction(plain)), rel_tol=1e-7)
        if not alike:
            return False
    return True
