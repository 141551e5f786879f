"""Torque tools on the bench: how far one is off, and whether that is within the limits of ISO 6789."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from jobbook.core.errors import Refused
from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity

# ISO 6789: limits in % for tools up to 10 N·m at their maximum, and above. II A is from a published copy, the rest
# from memory.
LIMITS: Mapping[str, tuple[int, int]] = MappingProxyType(
    {
        **dict.fromkeys(("II A", "II B", "II C", "I B", "I C", "I E"), (6, 4)),
        **dict.fromkeys(("II D", "II E", "II F", "II G", "I A", "I D"), (6, 6)),
    }
)

_NAME = re.compile(r"(?:TYPE )?(I|II|1|2)[ ,-]*(?:CLASS )?([A-G])")


@dataclass(frozen=True)
class Deviation:
    """How far a tool is off, what is allowed, and whether it is within."""

    deviation_percent: Fraction
    limit_percent: int
    within: bool


def read_tool_type(text: str) -> str:
    """Return type and class of a torque tool as `II A`. Refused: what ISO 6789 does not have."""
    match = _NAME.fullmatch(" ".join(text.upper().split()))
    name = f"{match[1].replace('1', 'I').replace('2', 'II')} {match[2]}" if match else ""
    if name not in LIMITS:
        raise Refused(f"“{text[:20]}” was not taken: it is no type and class of a torque tool; write it like II A.")
    return name


def tool_deviation(set_to: Quantity, reference: Quantity, tool_max: Quantity, tool: str) -> Deviation:
    """Return how far a tool is off [%] and whether that is within its limit, the limit itself included.

    set_to what is set or shown [N*m], reference what the calibrator reads [N*m], tool_max the largest torque of the
    tool [N*m]: it chooses the limit (up to 10 N*m, above it), and not the setting. a = (set − reference)/reference.
    Range: up to the tool's maximum. Errors: a setting above it. Source: ISO 6789.
    """
    shown, true, most = (quantity.in_unit("N*m") for quantity in (set_to, reference, tool_max))
    if shown > most:
        raise unfit("set", f"{set_to.text()} is more than the tool's {tool_max.text()}", "look at its scale again")
    deviation, limit = (shown - true) / true * 100, LIMITS[tool][most > 10]
    return Deviation(deviation, limit, abs(deviation) <= limit)


def with_drag(torque: Quantity, drag: Quantity) -> Quantity:
    """Return what to set where the nut turns hard: the torque with the drag of its lock added.

    torque that the joint needs [N*m], drag of the lock alone [N*m]. Range: a drag measured on the nut as it is run
    on, before the faces meet. Errors: none. Source: FAA AC 43.13-1B, section 7-43.
    """
    return Quantity("torque", torque.in_unit("N*m") + drag.in_unit("N*m"), "N*m")
