"""The language of the method file: its tables, the keys that may stand in them, and what may stand behind a key.

A check takes a value as it was read and returns what is wrong with it, in words that follow "must be", or "".
"""

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from types import MappingProxyType

from jobbook.core.figures.threads import PITCHES, RARE
from jobbook.core.work import words
from jobbook.core.work.model import CORNERS

Check = Callable[[object], str]

KEY = re.compile(r"[A-Za-z0-9_-]{1,60}")
METRIC = re.compile(r"M(\d+)(?:x(\d+(?:\.\d+)?))?")
PIPE = re.compile(r"G(1/16|1/8|1/4|3/8|1/2|5/8|3/4|1)")
INCH = re.compile(r"(\d+)/(\d+)-(\d+)(?: UN[CF])?")

# The inch sizes are UNC and UNF rows of ASME B1.1, the pipe sizes those of ISO 228-1, from memory: they only catch a
# slip of the pen, nothing is computed from them.
INCH_PITCHES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "1/4": ("20", "28"),
        "5/16": ("18", "24"),
        "3/8": ("16", "24"),
        "7/16": ("14", "20"),
        "1/2": ("13", "20"),
        "9/16": ("12", "18"),
        "5/8": ("11", "18"),
        "3/4": ("10", "16"),
    }
)


def text(value: object) -> str:
    return "" if isinstance(value, str) and value.strip() else "a text that is not empty"


def maybe_text(value: object) -> str:
    return "" if isinstance(value, str) else "a text"


def name(value: object) -> str:
    return "" if isinstance(value, str) and KEY.fullmatch(value) else "a key of letters, digits, - and _"


def flag(value: object) -> str:
    return "" if isinstance(value, bool) else "true or false"


def count(value: object) -> str:
    right = isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 99
    return "" if right else "a whole number from 1 to 99"


def minutes(value: object) -> str:
    """Accept a number of minutes, or the key of a figure."""
    if isinstance(value, str):
        return name(value)
    number = isinstance(value, int | Decimal) and not isinstance(value, bool)
    right = number and Decimal(str(value)).is_finite() and 0 < Decimal(str(value)) <= 10_000
    return "" if right else "a number of minutes above 0, or the key of a figure of kind time"


def one_of(*allowed: str) -> Check:
    return lambda value: "" if isinstance(value, str) and value in allowed else "one of " + ", ".join(allowed)


def names(value: object) -> str:
    return "" if isinstance(value, list) and not any(map(name, value)) else "a list of keys"


def corners(value: object) -> str:
    right = isinstance(value, list) and all(corner in CORNERS for corner in value) and len({*value}) == len(value)
    return "" if right else "a list of corners out of " + ", ".join(CORNERS)


def single_use(value: object) -> str:
    pieces = isinstance(value, list) and not any(map(text, value))
    return (
        "" if isinstance(value, bool) or pieces or value == "variant" else 'true, false, a list of pieces or "variant"'
    )


def thread(value: object) -> str:
    found = METRIC.fullmatch(value) if isinstance(value, str) else None
    if found:
        pitches = [Decimal(pitch) for pitch in PITCHES.get(found[1]) or RARE.get(found[1], ())]
        return "" if pitches and (not found[2] or Decimal(found[2]) in pitches) else "a thread that is known"
    if isinstance(value, str) and PIPE.fullmatch(value):
        return ""
    inch = INCH.fullmatch(value) if isinstance(value, str) else None
    known = INCH_PITCHES.get(f"{inch[1]}/{inch[2]}", ()) if inch else ()
    return "" if inch and inch[3] in known else 'a thread that is known, such as "M12x1.5"'


place = one_of(*words.PLACE_WORDS)
ASKED: Mapping[str, Check] = {"when": name, "unless": name}
TABLES: Mapping[str, Mapping[str, Check]] = MappingProxyType(
    {
        "figure": {"key": name, "name": text, "kind": one_of(*words.FIGURE_KINDS)},
        "joint": {
            "key": name,
            "name": text,
            "count": count,
            "thread": thread,
            "grade": text,
            "figure": name,
            "single_use": single_use,
            "safety": flag,
            "loaded": flag,
            "wheel": flag,
            "free": flag,
            "turn": text,
            **ASKED,
        },
        "line": {"key": name, "name": text, "at": place, "seal": text, "held_by": names, **ASKED},
        "part": {
            "key": name,
            "name": text,
            "renewed": flag,
            "serial": flag,
            "at": place,
            "held_by": names,
            "sets_height": flag,
            "near_restraints": flag,
            "free": flag,
            **ASKED,
        },
        "connector": {"key": name, "name": text, "near_restraints": flag, **ASKED},
        "aid": {"key": name, "name": text, **ASKED},
    }
)
NEEDED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "figure": ("key", "kind"),
        "line": ("key", "name", "at"),
        "step": ("do",),
        "method": ("title",),
        **dict.fromkeys(("joint", "part", "connector", "aid"), ("key", "name")),
    }
)
METHOD_KEYS: Mapping[str, Check] = {"title": text, "corners": corners, "summary": maybe_text, "basis": maybe_text}
TOP_KEYS = ("format", "version", "method", "options", "figure", *TABLES, "step")

STEP_KEYS: Mapping[str, Check] = {"do": one_of(*words.STEP_WORDS), "text": text, "caution": maybe_text, **ASKED}
SET_KEYS: Mapping[str, Check] = {key: one_of(*values) for key, values in words.CONDITION_VALUES.items()}
STEP_ARGS: Mapping[str, Mapping[str, Check]] = MappingProxyType(
    {
        **{do: {} for do in ("confirm", "inspect", "photo", "note", "align", "drive")},
        **{do: {table: name} for do, table in words.ACTS_ON.items()},
        "measure": {"what": one_of(*words.MEASURED)},
        "calibrate": {"what": one_of(*words.CALIBRATED)},
        "set": {**SET_KEYS, "fills": one_of("here", "axle", "all", *CORNERS)},
        "vent": {"at": place, "down_to": name},
        "fill": {"at": place, "at_height": name},
        "wait": {"minutes": minutes, "figure": name},
        "put_on": {"part": name, "piece": one_of("same")},
    }
)
STEP_NEEDED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        **dict.fromkeys(("confirm", "inspect"), ("text",)),
        **{do: (table,) for do, table in words.ACTS_ON.items()},
        "measure": ("what",),
        "calibrate": ("what",),
        "vent": ("at",),
        "fill": ("at",),
    }
)
# Where a step names a figure, and of what kind that figure must be.
FIGURE_ARGS: Mapping[str, str] = MappingProxyType(
    {"down_to": "pressure", "at_height": "length", "figure": "time", "minutes": "time"}
)
