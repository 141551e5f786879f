"""What the shop holds to when it judges heights and stands: common practice, wherever the shop says nothing else.

None of these is a maker's figure; where the maker gives one it comes first. They are kept with the workshop's facts.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.leakdown import USUAL, StandLimits
from jobbook.core.quantities import read_quantity

SOURCE = "common practice, changeable in The shop"
UNITS = ("mm", "in")


@dataclass(frozen=True)
class Rule:
    """One figure that the shop may set. `kind` is that of a quantity; `default` stands in `unit`."""

    key: str
    words: str
    default: str
    unit: str
    kind: str = "length"


RULES = (
    Rule("shortest", "A stand shorter than this proves nothing", "1", "h", "time"),
    Rule("longest", "A stand longer than this is said to be long", "72", "h", "time"),
    Rule("apart", "Temperatures further apart than this give no leak rate, in °C", "10", "", "ratio"),
    Rule("normal", "Beyond the others in 12 h: up to this is normal", "5", "mm"),
    Rule("leak", "more than this is a leak", "10", "mm"),
    Rule("plain", "more than this is a leak beyond argument", "20", "mm"),
    Rule("at_once", "In one hour: more than this is heard or seen at once", "10", "mm"),
    Rule("side_ask", "Left against right: more than this asks why", "10", "mm"),
    Rule("side_defect", "more than this is a defect", "15", "mm"),
    Rule("slow", "A filling this much longer than reckoned is slow, in %", "25", "", "ratio"),
    Rule("single", "One reading by hand may be off by (k = 2)", "2", "mm"),
)
RISING = (("shortest", "longest"), ("normal", "leak"), ("leak", "plain"), ("side_ask", "side_defect"))
BY_KEY: Mapping[str, Rule] = {rule.key: rule for rule in RULES}


@dataclass(frozen=True)
class Practice:
    """The shop's rules as figures."""

    stand: StandLimits
    side_ask_mm: Decimal
    side_defect_mm: Decimal
    single_mm: Decimal
    slow_percent: Fraction


def practice_of(told: Mapping[str, str]) -> Practice:
    """Return the shop's rules; what it does not say is common practice."""
    figures = {rule.key: Fraction(Decimal(told.get(rule.key, "") or rule.default)) for rule in RULES}
    stand = StandLimits(
        figures["shortest"],
        figures["longest"],
        figures["apart"],
        USUAL.band_mm_k,
        USUAL.counted_h,
        figures["normal"],
        figures["leak"],
        figures["plain"],
        figures["at_once"],
        USUAL.read_to_mm,
    )
    ask, defect, single = (Decimal(told.get(k, "") or BY_KEY[k].default) for k in ("side_ask", "side_defect", "single"))
    return Practice(stand, ask, defect, single, figures["slow"])


def read_practice(typed: Mapping[str, str]) -> dict[str, str]:
    """Return what the shop sets, as exact texts by key; what equals common practice or is empty is left out.

    Refused: what is no figure of its kind, nothing or less, and limits that stand in the wrong order.
    """
    read = {rule.key: _read(rule, typed[rule.key]) for rule in RULES if typed.get(rule.key, "").strip()}
    whole = {rule.key: Decimal(read.get(rule.key, rule.default)) for rule in RULES}
    for lower, higher in RISING:
        if whole[lower] > whole[higher]:
            raise Refused(
                f"Nothing was changed: “{BY_KEY[lower].words}” says {whole[lower]:f} and “{BY_KEY[higher].words}” "
                f"{whole[higher]:f}, which is less. Look at both."
            )
    return {key: text for key, text in read.items() if Decimal(text) != Decimal(BY_KEY[key].default)}


def _read(rule: Rule, typed: str) -> str:
    try:
        found = read_quantity(typed, rule.kind, default_unit=rule.unit or "1")
    except Refused as error:
        raise Refused(f"Nothing was changed: {rule.words}: {error}") from error
    amount = found.to(rule.unit or "1")
    if not 0 < amount <= 10_000:
        raise Refused(f"Nothing was changed: “{rule.words}” is more than nothing and no more than 10 000.")
    return f"{amount:f}"
