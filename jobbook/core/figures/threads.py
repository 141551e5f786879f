"""ISO metric threads: reading `M12x1.5`, and the geometry that follows from diameter and pitch."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from jobbook.core.errors import Refused

# ISO 261 and ISO 262: the pitches of each diameter up to M39 in mm, the coarse one first. From memory; the sizes M6 to
# M20 stand in the published load tables of ISO 898-1 with the same coarse pitches.
PITCHES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "1.6": ("0.35",),
        "2": ("0.4",),
        "2.5": ("0.45",),
        "3": ("0.5", "0.35"),
        "3.5": ("0.6",),
        "4": ("0.7", "0.5"),
        "5": ("0.8", "0.5"),
        "6": ("1", "0.75"),
        "7": ("1", "0.75"),
        "8": ("1.25", "1", "0.75"),
        "10": ("1.5", "1.25", "1", "0.75"),
        "12": ("1.75", "1.5", "1.25", "1"),
        "14": ("2", "1.5", "1.25", "1"),
        "16": ("2", "1.5", "1"),
        "18": ("2.5", "2", "1.5", "1"),
        "20": ("2.5", "2", "1.5", "1"),
        "22": ("2.5", "2", "1.5", "1"),
        "24": ("3", "2", "1.5", "1"),
        "27": ("3", "2", "1.5", "1"),
        "30": ("3.5", "3", "2", "1.5", "1"),
        "33": ("3.5", "3", "2", "1.5"),
        "36": ("4", "3", "2", "1.5"),
        "39": ("4", "3", "2", "1.5"),
    }
)
# Diameters of the third choice, and those without a coarse pitch: known where a document has them, reckoned nowhere.
RARE: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {"9": ("1.25", "1", "0.75"), "11": ("1.5", "1", "0.75"), "26": ("1.5",), "28": ("2", "1.5", "1")}
)
COARSE = MappingProxyType({diameter: pitches[0] for diameter, pitches in PITCHES.items()})

# The pitches that ISO 261 has for fine threads; one as coarse as the coarse one, or coarser, is none of them.
FINE = frozenset(map(Decimal, ("0.2", "0.25", "0.35", "0.5", "0.75", "1", "1.25", "1.5", "2", "3")))

_NAME = re.compile(r"[Mm] ?([0-9]{1,2}(?:[.,][0-9]{1,2})?)(?: ?[x×X*] ?([0-9](?:[.,][0-9]{1,3})?))?")


@dataclass(frozen=True)
class Thread:
    """An ISO metric thread: nominal diameter and pitch in mm."""

    diameter: Decimal
    pitch: Decimal

    @property
    def name(self) -> str:
        """The thread as it is written, the coarse pitch left out."""
        size = f"{self.diameter:f}"
        return f"M{size}" if COARSE[size] == f"{self.pitch:f}" else f"M{size}x{self.pitch:f}"


@dataclass(frozen=True)
class ThreadGeometry:
    """Pitch diameter, root diameter of the screw, and stress area of a thread."""

    pitch_diameter_mm: float
    root_diameter_mm: float
    stress_area_mm2: float


def read_thread(text: str) -> Thread:
    """Return the thread of a text such as M12x1.5, or M12 with its coarse pitch. Refused: what is not in ISO 261."""
    match = _NAME.fullmatch(" ".join(text[:40].split()))
    if not match:
        raise _no_thread(text, "it is not written like M12 or M12x1.5")
    size = _plain(match[1])
    if size not in COARSE:
        raise _no_thread(text, "ISO 261 has no such diameter up to M39")
    coarse = Decimal(COARSE[size])
    pitch = Decimal(_plain(match[2])) if match[2] else coarse
    if pitch != coarse and (pitch not in FINE or pitch > coarse):
        raise _no_thread(text, f"{match[2]} mm is no pitch of M{size}")
    return Thread(Decimal(size), pitch)


def thread_geometry(thread: Thread) -> ThreadGeometry:
    """Return diameters [mm] and stress area [mm²] of an ISO metric thread with 60° flanks.

    d2 = d − 3√3/8·P, d3 = d − 17√3/24·P, As = π/4·((d2 + d3)/2)². Range: the threads of ISO 261 up to M39. Errors:
    none. Source: ISO 724 and ISO 898-1; the printed areas are these, rounded to three figures.
    """
    d, p = float(thread.diameter), float(thread.pitch)
    pitch_diameter = d - 3 * math.sqrt(3) / 8 * p
    root_diameter = d - 17 * math.sqrt(3) / 24 * p
    return ThreadGeometry(pitch_diameter, root_diameter, math.pi / 4 * ((pitch_diameter + root_diameter) / 2) ** 2)


def _plain(number: str) -> str:
    value = Decimal(number.replace(",", "."))
    return f"{value.normalize():f}"


def _no_thread(text: str, why: str) -> Refused:
    return Refused(f"“{text[:20]}” was not taken: {why}; write the thread as the document has it.")
