"""The compressor: filling, duty and moisture, reckoned with and kept as a test with the figures as typed."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.measured.practice import practice_of
from jobbook.core.people import Person
from jobbook.core.quantities import read_quantity
from jobbook.services.measured.pressure import figures_as_typed, reckoned, two
from jobbook.services.office import desk
from jobbook.services.opened import OpenBook

COMPRESSOR_TEST = "Compressor"
FILL = ("volume", "start", "end", "free_air")
DUTY = ("run", "rest")
MOIST = ("temperature", "humidity", "pressure")
LOOK_AT = "look at leaks, intake, dryer, lines, and the compressor's wear"


def keep_compressor_test(book: OpenBook, who: Person, job: int, given: Mapping[str, str]) -> str:
    """Keep what was measured of the compressor: filling, duty, moisture, as far as figures were given."""
    figures = figures_as_typed(given, (*FILL, "measured", *DUTY, *MOIST))
    with book.store.read() as reading:
        slow = practice_of(reading.shop().practice).slow_percent
    said = compressor_words(figures, slow)
    desk.add_test(book, who, job, COMPRESSOR_TEST, "done", said, figures=figures)
    return said


def compressor_words(figures: Mapping[str, str], slow: Fraction) -> str:
    """What filling, duty and moisture amount to; each is said where all its figures were given.

    `slow`: a filling that takes so many percent longer than reckoned is looked into, by the shop's rule."""
    groups = (
        (("free_air", "measured", "volume", "start", "end"), lambda told: _fill_words(told, slow)),
        (DUTY, _duty_words),
        (MOIST, _moist_words),
    )
    said = [words(figures) for keys, words in groups if any(key in figures for key in keys)]
    if not said:
        raise Refused("Nothing was kept: give the figures of a filling, of a whole cycle, or of the air taken in.")
    return " ".join(said)


def _fill_words(figures: Mapping[str, str], slow: Fraction) -> str:
    wanted = reckoned("fill-time", FILL, figures, "The filling was not kept")["seconds"]
    told = f"Fills {figures['volume']} from {figures['start']} to {figures['end']}"
    by = f"reckoned {_seconds(wanted)} at {figures['free_air']} of free air"
    if "measured" not in figures:
        return f"{told}: {by}, not measured."
    measured = read_quantity(figures["measured"], "time").in_unit("s")
    return f"{told}: {by}, measured {_seconds(measured)}{_apart(measured, wanted, slow)}."


def _apart(measured: Fraction, wanted: Fraction, slow: Fraction) -> str:
    """How much longer it took, and what to look at then."""
    if not wanted:
        return ""
    percent = round((measured - wanted) * 100 / wanted)
    if percent <= 0:
        return f", {-percent} % shorter" if percent else ", as reckoned"
    return f", {percent} % longer" + (f"; {LOOK_AT}" if percent > slow else "")


def _duty_words(figures: Mapping[str, str]) -> str:
    percent = reckoned("duty", DUTY, figures, "The cycle was not kept")["percent"]
    return f"Ran {figures['run']}, rested {figures['rest']}: on for {two(percent)} % of the time."


def _moist_words(figures: Mapping[str, str]) -> str:
    found = reckoned("dew-point", MOIST, figures, "The moisture was not kept")
    free, pressed = (Decimal(str(found[key])) for key in ("dew_point_c", "pressure_dew_point_c"))
    said = f"Air of {figures['temperature']} and {figures['humidity']}: dew point {_degrees(free)}"
    under = f"at {figures['pressure']} {_degrees(pressed)}"
    return f"{said}, {under}; undried, water comes out wherever the system is colder than that."


def _seconds(value: Fraction) -> str:
    seconds = round(value)
    return f"{seconds} s" if seconds < 120 else f"{seconds // 60} min {seconds % 60} s"


def _degrees(value: Decimal) -> str:
    return f"{round(value)} °C".replace("-", "−")
