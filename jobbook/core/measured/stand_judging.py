"""What may be said of a stand, by the shop's limits.

A stand compares the four corners with each other. What woke the system, or may have, makes it void; the drops are shown
then too, but nothing is concluded from them.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from jobbook.core.figures.air import sinking
from jobbook.core.figures.leakdown import ALL_DOWN, CORNERS, LeakDown, StandLimits, leak_down
from jobbook.core.measured.heights import Height
from jobbook.core.measured.stands import Begun, Ended, Stand
from jobbook.core.quantities import Quantity, read_quantity


@dataclass(frozen=True)
class Judged:
    """What a stand shows. `verdict`: void, too short, woken, all down, leak, repeat or even. `about` is the corner that
    lost most beyond the others; `sentence` says it in words, `findings` what else is to be said."""

    stand: Stand
    shows: LeakDown
    hours: Fraction
    verdict: str
    about: str
    sentence: str
    findings: tuple[str, ...]

    @property
    def void(self) -> bool:
        return self.verdict == "void"


def judged(stand: Stand, limits: StandLimits, heights: tuple[Mapping[str, Height], Mapping[str, Height]]) -> Judged:
    """Return what an ended stand shows, by the shop's limits. `heights`: the exact means, first and last."""
    if stand.ended is None:
        raise ValueError("a stand that still runs shows nothing yet")
    first, last = ({c: Quantity("length", one.mean_mm, "mm") for c, one in told.items()} for told in heights)
    temperatures = _temperatures(stand)
    limits = _with_known_air(stand.ended, limits, temperatures)
    shows = leak_down(first, last, Quantity("time", stand.hours, "h"), *temperatures, limits)
    about = max(CORNERS, key=lambda corner: (shows.relative_drop_mm[corner], shows.drop_mm[corner]))
    voids = void_because(stand)
    verdict = "void" if voids else _verdict(stand, shows, limits)
    findings = (*voids, NOTHING_FOLLOWS) if voids else _findings(stand.begun, shows, verdict)
    return Judged(stand, shows, stand.hours, verdict, about, _sentence(stand, shows, about), findings)


def _findings(begun: Begun, shows: LeakDown, verdict: str) -> tuple[str, ...]:
    known_off = ALL_DOWN_OFF if begun.levelling == "off" else ALL_DOWN
    found = tuple(known_off if one == ALL_DOWN else one for one in shows.findings)
    return (*found, EVEN) if verdict == "even" else found


ALL_DOWN_OFF = (
    "All four went down with levelling off: look at what they share (supply, exhaust, valve block) and at load."
)
NOTHING_FOLLOWS = "Nothing follows from this stand: repeat it."
EVEN = "No corner lost notably more than the others: this stand shows no leak at one corner."
VOID = (
    ("woken", "The system was woken before the last reading, and may have levelled."),
    ("door", "A door was opened during the stand, which wakes many systems."),
    ("codes", "Codes were read during the stand, which wakes the system."),
)


def void_because(stand: Stand) -> tuple[str, ...]:
    """Return why a stand counts for nothing; empty where nothing is known against it."""
    begun = stand.begun
    said = [sentence for name, sentence in VOID if getattr(stand.ended, name, "") == "yes"]
    if begun.ignition == "on":
        said.append("The ignition was on, so the system was awake.")
    if begun.levelling == "active":
        said.append("Levelling was active, and makes up for what is lost.")
    return tuple(said)


def _verdict(stand: Stand, shows: LeakDown, limits: StandLimits) -> str:
    """One word for what the findings say, the one that weighs most."""
    table = (
        ("too short", stand.hours < limits.shortest_h),
        ("woken", bool(shows.risen)),
        ("leak", any(grade != "repeat" for grade in shows.grades.values())),
        ("all down", shows.all_down),
        ("repeat", bool(shows.grades)),
    )
    return next((word for word, holds in table if holds), "even")


def _temperatures(stand: Stand) -> tuple[Quantity | None, Quantity | None]:
    told = (stand.begun.temperature, stand.ended.temperature if stand.ended else "")
    first, last = (_celsius(text) if text else None for text in told)
    return first, last


def _celsius(text: str) -> Quantity:
    return read_quantity(text, "temperature", default_unit="degC").given_in("degC")


def _with_known_air(
    ended: Ended, limits: StandLimits, temperatures: tuple[Quantity | None, Quantity | None]
) -> StandLimits:
    """The limits with what temperature does taken from volume and area, where both are known."""
    first, last = temperatures
    if not ended.volume or first is None or last is None or first.amount == last.amount:
        return limits
    volume = read_quantity(ended.volume, "volume", default_unit="L")
    area = read_quantity(ended.area, "area", default_unit="cm2")
    apart = last.in_unit("degC") - first.in_unit("degC")
    each = sinking(volume, area, first, last) / apart
    return replace(limits, band_mm_k=(each, each))


def _sentence(stand: Stand, shows: LeakDown, about: str) -> str:
    """“FL fell 36 mm in 13.5 h, the others 4.3 mm on average: 31.7 mm beyond the rest.”"""
    drop, beyond = shows.drop_mm[about], shows.relative_drop_mm[about]
    rest = drop - beyond
    others = f"the others {_moved(rest)} on average" if rest else "the others kept their height"
    return f"{about} {_fell(drop)} in {hours_words(stand.hours)}, {others}: {tenth(beyond)} mm beyond the rest."


def _fell(drop: Fraction) -> str:
    return f"rose {tenth(-drop)} mm" if drop < 0 else f"fell {tenth(drop)} mm" if drop else "kept its height"


def _moved(drop: Fraction) -> str:
    return f"{tenth(drop)} mm" if drop >= 0 else f"rose {tenth(-drop)} mm"


def tenth(value: Fraction) -> str:
    """A figure to a tenth, without a nought behind the point."""
    rounded = Decimal(round(value * 10)) / 10
    text = f"{rounded:f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


def hours_words(hours: Fraction) -> str:
    """How long, as people say it: 40 min, 13.5 h, 3 days 2 h."""
    if hours < 1:
        return f"{round(hours * 60)} min"
    return f"{tenth(hours)} h" if hours <= 96 else f"{hours // 24} days {round(hours % 24)} h"
