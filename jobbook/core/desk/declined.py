"""What customers decline most often, with what may come of it: facts of the trade in our words, to be worded anew."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True)
class Item:
    """One thing that may be declined, in words for a paper."""

    title: str
    consequence: str


OTHER, FINDING, UNSAFE = "other", "finding", "unsafe"
ITEMS: Mapping[str, Item] = MappingProxyType(
    {
        "alignment": Item(
            "Wheel alignment after work on the suspension",
            "Tyres may wear unevenly and the vehicle may pull to one side until it is aligned.",
        ),
        "second side": Item(
            "The same part on the other side",
            "It is as old and may fail soon. If it does, that is new work and no comeback.",
        ),
        "sensors": Item(
            "Calibration of the driver assistance",
            "Cameras and radars may look the wrong way. Do not rely on these functions until they are calibrated.",
        ),
        "lamps": Item(
            "Aiming the headlamps",
            "They may dazzle others or light too short.",
        ),
        "compressor": Item(
            "The compressor, dryer or relay that ran too long",
            "It worked against the leak and may fail early; moisture that it let in may harm the new part.",
        ),
        UNSAFE: Item(
            "Repair of what is unsafe to drive",
            "The vehicle is not safe to drive. Whoever drives it endangers themselves and others; have it recovered.",
        ),
        FINDING: Item("Repair of what was found", "What was found stays as it is, and may become worse."),
        OTHER: Item("", ""),
    }
)
BARRABLE = tuple(key for key in ITEMS if key not in (OTHER, FINDING))


def words_of(subject: str, told: str) -> str:
    """What was declined, in the words that were said, or in ours where none were."""
    return told.strip() or ITEMS[subject].title


def consequence_of(subject: str, told: str) -> str:
    return told.strip() or ITEMS[subject].consequence
