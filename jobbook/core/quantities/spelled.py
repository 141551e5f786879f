"""Which unit a spelling stands for, where a kind of quantity is wanted."""

import re

from jobbook.core.errors import Refused
from jobbook.core.quantities.typed import shown, turned_away
from jobbook.core.quantities.units import ABSOLUTE, ASKED, SPELLED, UNIT, case_aside, kinds_of


def unit_text(text: str) -> str:
    """Return the unit behind a number, every product with one kind of dot, and m2, m^2, m**2 as m²."""
    raised = re.sub(r"(?<=[mnt])(?:\*\*|\^)?([23])(?![0-9])", lambda power: "²³"[int(power[1]) - 2], text.strip())
    return re.sub(r" ?[·*\u22c5\u2219\u2022\u2027] ?", "·", raised)


def units_for(text: str, spelling: str, kind: str, default: str | None) -> tuple[tuple[str, ...], bool]:
    """Return the units that the spelling can stand for, and whether it certainly does."""
    if not spelling:
        return (_default(text, kind, default),), True
    if spelling in SPELLED[kind]:
        return (SPELLED[kind][spelling].name,), True
    asked = ASKED.get(kind, {}).get(spelling) or case_aside(spelling, kind)
    if not asked:
        raise _no_unit(text, spelling, kind)
    return asked, False


def _default(text: str, kind: str, default: str | None) -> str:
    if kind == "count":
        return "pieces"
    if default is None:
        raise turned_away(text, f"it has no unit, and {a_kind(kind)} needs one", "type the unit behind the number")
    if UNIT[default].kind != kind:
        raise ValueError(f"{default} is no unit of {kind}")
    return default


def _no_unit(text: str, spelling: str, kind: str) -> Refused:
    if spelling in ABSOLUTE:
        why = "it says absolute, and the field itself says gauge or absolute"
        return turned_away(text, why, "type what the field asks for, with the plain unit")
    letter = re.search(r"[0-9]([OoIlSBZ])", text)
    others = kinds_of(spelling)
    if letter and not others:
        return turned_away(text, f"“{letter[1]}” is a letter and not a digit", "type the digits again")
    if others:
        why = f"{shown(spelling)} is {a_kind(others[0])}, {a_kind(kind)} is wanted"
        return turned_away(text, why, "look at the unit again")
    known = ", ".join(label for label in _labels(kind) if label)
    do = f"use one of {known}" if known else "type the number alone"
    return turned_away(text, f"“{shown(spelling)}” is no unit of {kind}", do)


def a_kind(kind: str) -> str:
    """Return the kind with its article, for a sentence."""
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def _labels(kind: str) -> tuple[str, ...]:
    return tuple(unit.label for unit in UNIT.values() if unit.kind == kind)[:6]
