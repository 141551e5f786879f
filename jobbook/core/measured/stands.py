"""Leak-down stands: how a vehicle was left standing, how it was found, and what cannot be a stand."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.leakdown import CORNERS

IGNITION = ("off", "on")
LEVELLING = ("off", "asleep", "active")
YES_NO_UNKNOWN = ("no", "yes", "unknown")
DOORS = ("shut", "open")
LONGEST_STAND = timedelta(days=60)


@dataclass(frozen=True)
class Begun:
    """How the vehicle was left: heights in mm by corner as kept and as typed, and the state it was left in."""

    at: str
    heights: Mapping[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)
    temperature: str = ""
    ignition: str = ""
    mode: str = ""
    levelling: str = ""
    how: str = ""  # how levelling was switched off
    doors: str = ""
    parked: str = ""
    load: str = ""
    instrument: str = ""


@dataclass(frozen=True)
class Ended:
    """How the vehicle was found. `volume` and `area` are those of a spring's air where they are known; `stopped` says
    why the stand was given up without a last reading."""

    at: str
    heights: Mapping[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)
    temperature: str = ""
    woken: str = ""
    door: str = ""
    codes: str = ""
    volume: str = ""
    area: str = ""
    note: str = ""
    instrument: str = ""
    stopped: str = ""


@dataclass(frozen=True)
class Stand:
    """One stand of a job. `number` is the entry that began it first; `entries` say so now, and can be corrected."""

    number: int
    begun: Begun
    begun_by: str
    ended: Ended | None = None
    ended_by: str = ""
    entries: tuple[int, ...] = ()

    @property
    def runs(self) -> bool:
        return self.ended is None

    @property
    def read_again(self) -> bool:
        """Whether there is a last reading to judge by."""
        return self.ended is not None and not self.ended.stopped

    @property
    def hours(self) -> Fraction:
        """How long it stood, or nothing while it runs."""
        return hours_between(self.begun.at, self.ended.at) if self.ended is not None else Fraction(0)


def hours_between(start: str, end: str) -> Fraction:
    lasted = datetime.fromisoformat(end) - datetime.fromisoformat(start)
    return Fraction(lasted // timedelta(seconds=1), 3600)


def look_at_begin(begun: Begun) -> None:
    """Refused where a stand could prove nothing from its first minute."""
    _look_at_four(begun.heights, "The stand was not begun")
    if begun.ignition not in IGNITION or begun.levelling not in LEVELLING or begun.doors not in DOORS:
        raise Refused("The stand was not begun: say how ignition, levelling and doors are.")
    if begun.levelling == "off" and not begun.how:
        raise Refused("The stand was not begun: say how levelling was switched off.")


def look_at_end(begun: Begun, ended: Ended) -> None:
    """Refused where the end cannot belong to this beginning."""
    _look_at_four(ended.heights, "The stand was not ended")
    lasted = datetime.fromisoformat(ended.at) - datetime.fromisoformat(begun.at)
    if lasted <= timedelta(0):
        raise Refused("The stand was not ended: it would end before it began. Look at the time of the reading.")
    if lasted > LONGEST_STAND:
        raise Refused("The stand was not ended: it would have lasted over 60 days. Look at the time of the reading.")
    if any(answer not in YES_NO_UNKNOWN for answer in (ended.woken, ended.door, ended.codes)):
        raise Refused(
            "The stand was not ended: say whether it was woken, a door opened, or codes read: yes, no, unknown."
        )
    if bool(begun.temperature) != bool(ended.temperature):
        where = "at the end" if begun.temperature else "at the beginning"
        raise Refused(
            f"The stand was not ended: there is no temperature {where}. Give both or neither, by a correction."
        )
    if bool(ended.volume) != bool(ended.area):
        raise Refused("The stand was not ended: what temperature does takes volume and area. Give both or neither.")


def _look_at_four(heights: Mapping[str, str], what: str) -> None:
    missing = [corner for corner in CORNERS if corner not in heights]
    if missing:
        raise Refused(
            f"{what}: a stand compares four corners, and {' and '.join(missing)} was not measured. Where one cannot be "
            "measured, answer the test “Leak-down stand” as not possible, with its reason."
        )
