"""What is said of a figure beside its result: formula, range of validity, source, and how well that is known."""

import inspect
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jobbook.services.measured.reckoning import figure

PUBLISHED, LIBRARIES = "published", "agrees with independent libraries"
COMPUTED, MEMORY, PRACTICE = "computed from the published formula", "from memory", "common practice"

# How well each figure's values are known. Where there are cases with published values, their standings stand here;
# docs/standards.md says the rest.
STANDING: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "convert": (LIBRARIES,),
        "thread": (PUBLISHED, COMPUTED, MEMORY),
        "bolt": (PUBLISHED,),
        "assembly": (PUBLISHED, MEMORY),
        "plausible": (PUBLISHED, MEMORY, PRACTICE),
        "prevailing": (PUBLISHED, MEMORY),
        "adapter": (PUBLISHED, COMPUTED),
        "drag": (PUBLISHED,),
        "tool-deviation": (COMPUTED, MEMORY),
        "tool-range": (PRACTICE,),
        "stages": (PRACTICE,),
        "vin": (PUBLISHED, COMPUTED),
        "toe": (COMPUTED,),
        "degrees": (COMPUTED,),
        "thrust": (COMPUTED,),
        "caster": (COMPUTED,),
        "leak-down": (PRACTICE,),
        "fault-code": (PUBLISHED, COMPUTED),
        "pressure-decay": (COMPUTED,),
        "cooling": (COMPUTED,),
        "sinking": (COMPUTED,),
        "height-loss": (COMPUTED,),
        "flow": (COMPUTED, MEMORY),
        "hole": (LIBRARIES,),
        "air-spring": (COMPUTED,),
        "fill-time": (COMPUTED,),
        "duty": (COMPUTED,),
        "dew-point": (MEMORY,),
        "altitude": (LIBRARIES,),
        "readings": (LIBRARIES, MEMORY),
        "decide": (COMPUTED,),
        "part-life": (LIBRARIES,),
        "part-life-compare": (LIBRARIES,),
        "wear-link": (COMPUTED,),
    }
)


@dataclass(frozen=True)
class Notes:
    """Sentences for a person. `formula` says what comes out, `where` what it is made from, `holds_for` the range of
    validity."""

    formula: str
    where: str
    holds_for: str
    source: str
    standing: str


def notes(name: str) -> Notes:
    """Return what is said of the figure of that name. NotFound: there is none."""
    of = figure(name)
    # A program that was started without docstrings says the formula by its short name and leaves the rest out.
    head, _, body = (inspect.getdoc(of.compute) or of.says).replace("`", "").partition("\n\n")
    where, _, rest = " ".join(body.split()).partition("Range: ")
    return Notes(
        _sentence(_in_units_of_people(" ".join(head.split()).removeprefix("Return "))),
        _in_units_of_people(where.strip()),
        _sentence(_in_units_of_people(_until(rest, "Errors: ", "Source: "))),
        of.source,
        ", ".join(STANDING.get(name, ())),
    )


def _until(words: str, *ends: str) -> str:
    for end in ends:
        words = words.partition(end)[0]
    return words.strip()


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _in_units_of_people(words: str) -> str:
    """Return the words with their units as they are written by hand."""
    written = {"N*m": "N·m", "degC": "°C", "deg": "°", "m3/s": "m³/s", "m3": "m³", "m2": "m²", "dm3": "dm³", "*": "·"}
    words = re.sub(r"\[[^\]]*\]", lambda found: _all_replaced(found[0], written), words)
    return re.sub(r"(?<=[0-9]) deg\b", "°", words.replace("N*m", "N·m"))


def _all_replaced(words: str, written: Mapping[str, str]) -> str:
    for plain, sign in written.items():
        words = words.replace(plain, sign)
    return words
