"""Pressure tests: what was measured is reckoned with and kept as a test, with its figures as typed.

Nothing here passes or fails a vehicle: the maker's limits do that. It says what the figures amount to.
"""

import re
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.quantities import read_quantity
from jobbook.services.office import desk
from jobbook.services.opened import OpenBook

DISCHARGE = "0.7"  # of a real hole, between 0.6 and 0.85; common practice
PRESSURE_TEST = "Pressure test"
HAIR = Decimal("0.07")  # mm, a human hair; common knowledge, given so that a size can be pictured

DECAY = ("volume", "start", "end", "start_temperature", "end_temperature", "duration")
UNITS: Mapping[str, str] = {
    "volume": "L", "start": "bar", "end": "bar", "start_temperature": "°C", "end_temperature": "°C", "duration": "min",
    "free_air": "L/min", "measured": "s", "run": "min", "rest": "min", "temperature": "°C", "humidity": "%",
    "pressure": "bar", "step": "bar",
}  # fmt: skip
WORDS: Mapping[str, str] = {
    "volume": "the volume", "start": "the pressure at the start", "end": "the pressure at the end",
    "start_temperature": "the temperature at the start", "end_temperature": "the temperature at the end",
    "duration": "how long it took", "free_air": "the free air of the compressor", "measured": "the time measured",
    "run": "the time it ran", "rest": "the time it rested", "temperature": "the temperature of the air",
    "humidity": "the humidity", "pressure": "the pressure of the system",
}  # fmt: skip


def keep_pressure_test(book: OpenBook, who: Person, job: int, given: Mapping[str, str]) -> str:
    """Keep a pressure test of what was shut off; returns the sentence that was kept."""
    figures = figures_as_typed(given, (*DECAY, "step"))
    said = pressure_words(figures)
    where = given.get("where", "").strip()
    name = f"{PRESSURE_TEST}, {where}" if where else PRESSURE_TEST
    desk.add_test(book, who, job, name, "done", said, figures=figures)
    return said


def figures_as_typed(given: Mapping[str, str], keys: tuple[str, ...]) -> dict[str, str]:
    """What was typed under these keys; a bare number gets the unit that its field shows."""
    told = {key: given[key].strip() for key in keys if given.get(key, "").strip()}
    return {key: f"{text} {UNITS[key]}" if _bare(text) else text for key, text in told.items()}


def _bare(text: str) -> bool:
    return re.fullmatch(r"[+\-−]?[0-9][0-9.,/ ]*", text) is not None


def pressure_words(figures: Mapping[str, str]) -> str:
    """What a fall of pressure amounts to, with the temperature taken out, and as a hole."""
    found = reckoned("pressure-decay", DECAY, figures, "The pressure test was not kept")
    rate, raw = found["leak_rate_pa_m3_s"], found["without_temperature_pa_m3_s"]
    change = f"{figures['start']} to {figures['end']} in {figures['duration']}, {figures['volume']}"
    seen = f"{change}, {figures['start_temperature']} to {figures['end_temperature']}"
    if rate <= 0:
        told = "no loss: the change of temperature explains the whole fall" if raw > 0 else "no loss"
        return f"{seen}: {told}."
    return " ".join(
        filter(None, (f"{seen}: {_leak_words(rate, figures)}.", _raw_words(rate, raw), _seen(rate, figures)))
    )


def _leak_words(rate: Fraction, figures: Mapping[str, str]) -> str:
    """“0.33 mbar·L/s at 20 °C, 0.20 L/min of free air, like a hole of 0.09 mm (about as wide as a hair)”."""
    hole = _hole(rate, figures)
    said = f"loses {two(rate * 10)} mbar·L/s (at 20 °C)"
    if hole is None:
        return said
    return f"{said}, {two(hole['flow_l_min_anr'])} L/min of free air, {hole_words(Decimal(str(hole['diameter_mm'])))}"


def _hole(rate: Fraction, figures: Mapping[str, str]) -> dict[str, Any] | None:
    """The hole that would lose as much at the mean pressure; None at no pressure, which drives nothing."""
    start, end = (read_quantity(figures[key], "pressure").in_unit("Pa") for key in ("start", "end"))
    if start + end <= 0:
        return None
    given = {
        "leak_rate": f"{float(rate):.9f} Pa·m³/s",
        "upstream": f"{float((start + end) / 2 + 101325):.1f} Pa",
        "temperature": figures["end_temperature"],
        "discharge": DISCHARGE,
    }
    return computed("hole", given) if float(given["leak_rate"].split()[0]) > 0 else None


def hole_words(diameter_mm: Decimal) -> str:
    """A hole as a technician pictures it."""
    beside = ""
    if HAIR / 2 <= diameter_mm <= HAIR * 2:
        beside = " (about as wide as a hair)"
    elif diameter_mm < HAIR / 2:
        beside = " (finer than a hair)"
    return f"like a hole of {two(diameter_mm)} mm{beside}"


def _raw_words(rate: Fraction, raw: Fraction) -> str:
    """How much of the fall was the change of temperature, where that is worth a word."""
    return f"Without the temperatures it would seem {two(raw * 10)} mbar·L/s." if abs(raw - rate) * 10 > rate else ""


def _seen(rate: Fraction, figures: Mapping[str, str]) -> str:
    """Whether the gauge can show so small a loss; empty where its division is not known."""
    if "step" not in figures:
        return ""
    start = read_quantity(figures["start"], "pressure")
    lower = start.in_unit("Pa") - read_quantity(figures["step"], "pressure").in_unit("Pa")
    same = {**figures, "end": f"{float(lower):.3f} Pa", "end_temperature": figures["start_temperature"]}
    least = computed("pressure-decay", {key: same[key] for key in DECAY})["leak_rate_pa_m3_s"]
    return "" if rate > least else f"That is no more than one division of the gauge ({two(least * 10)} mbar·L/s)."


def reckoned(name: str, keys: tuple[str, ...], figures: Mapping[str, str], what: str) -> dict[str, Any]:
    """The figure's results. Refused in words of the bench where something is missing or cannot be."""
    missing = [WORDS[key] for key in keys if key not in figures]
    if missing:
        raise Refused(f"{what}: {' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing.")
    try:
        return computed(name, {key: figures[key] for key in keys})
    except Refused as error:
        key, _, rest = str(error).partition(": ")
        raise Refused(f"{what}: {WORDS.get(key, key)}: {rest}" if rest else f"{what}: {error}") from error


def computed(name: str, given: Mapping[str, object]) -> dict[str, Any]:
    """What a figure of the list gives. The list is imported with the first one, so that no start waits for it."""
    from jobbook.core.figures.figure import compute
    from jobbook.core.figures.registry import FIGURES

    return compute(FIGURES[name], given)


def two(value: Fraction | Decimal | float) -> str:
    """Two digits that count, without an exponent."""
    text = f"{Decimal(f'{float(value):.2g}'):f}"
    return text.replace("-", "−")
