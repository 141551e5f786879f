"""Prevailing torque of locking nuts: what a new one may ask for, and what a used one must still hold."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jobbook.core.figures.refusals import unfit
from jobbook.core.figures.threads import Thread


@dataclass(frozen=True)
class Prevailing:
    """Most torque at the first screwing on, least at the first and at the fifth removal; None where it is not known."""

    first_on_max_nm: float | None
    first_off_min_nm: float | None
    fifth_off_min_nm: float | None


# ISO 2320, class 04: published copy. Classes 5, 6 and 8 share the figures: from memory.
_COMMON: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {
        "5": (1.6, 0.29, 0.2),
        "6": (3, 0.45, 0.3),
        "8": (6, 0.85, 0.6),
        "10": (10.5, 1.5, 1),
        "12": (15.5, 2.3, 1.6),
        "14": (24, 3.3, 2.3),
        "16": (32, 4.5, 3),
        "18": (42, 6, 4.2),
        "20": (54, 7.5, 5.3),
        "24": (80, 11.5, 8),
    }
)

# Class 10: the fifth removal from a published copy, the rest from memory and left out where memory has nothing.
_TEN: Mapping[str, tuple[float | None, float | None, float | None]] = MappingProxyType(
    {
        "10": (14, 2, 1.4),
        "12": (21, 3.1, 2.1),
        "14": (31, 4.4, None),
        "16": (42, 6, 4.2),
        "20": (None, None, 7),
        "24": (None, None, 10.5),
        "27": (None, None, 12),
        "30": (None, None, 14),
    }
)

CLASSES = MappingProxyType({"04": _COMMON, "5": _COMMON, "6": _COMMON, "8": _COMMON, "10": _TEN})

# The fine pitches that stand in the rows of the table; the coarse one stands in each.
_PITCHES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {"8": ("1",), "10": ("1.25", "1"), "12": ("1.5", "1.25"), "14": ("1.5",), "16": ("1.5",), "18": ("1.5",)}
)


def prevailing(thread: Thread, nut_class: str) -> Prevailing:
    """Return the limits [N*m] of the locking torque of a nut of that property class.

    Range: classes 04, 5, 6, 8 and 10 in the sizes that the table has. The limits belong to a nut on a test bolt at 10
    to 35 °C and are no acceptance limit in a workshop. Errors: a thread without a row. Source: ISO 2320.
    """
    size, row = f"{thread.diameter:f}", CLASSES[nut_class]
    pitch = f"{thread.pitch:f}"
    if size not in row or (thread.name != f"M{size}" and pitch not in _PITCHES.get(size, ())):
        raise unfit("thread", f"the table for class {nut_class} has no {thread.name}", "look in the maker's document")
    return Prevailing(*row[size])
