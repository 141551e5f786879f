"""A second account of one corner, kept by the tests alone: what an act does to joint, line, spring and weight.

It is written from the table of states and shares nothing with the rules, so that the search for an unsafe sequence
does not believe what it is meant to doubt.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from jobbook.core.work.model import Act


@dataclass(frozen=True)
class Shadow:
    """One joint, one line, one part at the front left."""

    support: str = "wheels"
    levelling: str = "active"
    air: str = "charged"
    promised: bool = False
    single_use: bool = False
    joint: str = "untouched"
    used: bool = False  # the pieces in the joint have been loosened
    bolts: int = 0  # new sets issued and not yet fitted
    line: str = "connected"
    seals: int = 0
    old_seal: bool = False
    part: str = "on"  # on, off, same (put back), renewed
    measured: bool = False  # heights since the last fill, change of support or of levelling


@dataclass(frozen=True)
class Owed:
    """What is owed once something other than wheel joints was worked on: flags say that it is no longer owed."""

    worked: bool = False
    raised: bool = False
    heights: bool = False
    heights_before: bool = True
    heights_after: bool = True
    codes: bool = False
    codes_before: bool = True
    codes_after: bool = True
    driven: bool = True
    aligned: bool = True
    calibrated: frozenset[str] = frozenset({"heights", "headlamps", "driver_assistance"})
    calibrated_before_aligned: bool = True


Effect = Callable[[Shadow, Act], Shadow]


def after(shadow: Shadow, act: Act) -> Shadow:
    """The corner after the act; whether the act was wise is not asked."""
    return EFFECTS.get(act.do, lambda same, _: same)(shadow, act)


def _set(shadow: Shadow, act: Act) -> Shadow:
    promised = shadow.promised
    if act.what == "support":
        still = promised and act.to == shadow.support
        promised = shadow.air == "vented" and (bool(act.fills) or still)
    return replace(shadow, **{"measured": False, "promised": promised, act.what: act.to})


def _start(shadow: Shadow, act: Act) -> Shadow:
    new = bool(act.pieces) and shadow.bolts > 0 and shadow.joint == "out"
    used = shadow.used and not new
    return replace(shadow, joint="started", used=used, bolts=shadow.bolts - new)


def _join(shadow: Shadow, act: Act) -> Shadow:
    new = bool(act.pieces) and shadow.seals > 0
    return replace(shadow, line="joined", seals=shadow.seals - new, old_seal=shadow.old_seal and not new)


def _issue(shadow: Shadow, act: Act) -> Shadow:
    if act.on == "joint@FL":
        return replace(shadow, bolts=shadow.bolts + 1)
    return replace(shadow, seals=shadow.seals + 1)


def _measure(shadow: Shadow, act: Act) -> Shadow:
    return replace(shadow, measured=True) if act.what == "heights" else shadow


EFFECTS: dict[str, Effect] = {
    "set": _set,
    "vent": lambda shadow, _: replace(shadow, air="vented"),
    "fill": lambda shadow, _: replace(shadow, air="charged", promised=False, measured=False),
    "loosen": lambda shadow, _: replace(shadow, joint="loosened", used=shadow.single_use),
    "take_out": lambda shadow, _: replace(shadow, joint="out", used=shadow.single_use),
    "start": _start,
    "tighten": lambda shadow, _: replace(shadow, joint="tightened"),
    "second_check": lambda shadow, _: replace(shadow, joint="checked"),
    "open": lambda shadow, _: replace(shadow, line="open", old_seal=True),
    "plug": lambda shadow, _: replace(shadow, line="plugged"),
    "join": _join,
    "prove": lambda shadow, _: replace(shadow, line="proved"),
    "take_off": lambda shadow, _: replace(shadow, part="off"),
    "put_on": lambda shadow, act: replace(shadow, part="renewed" if act.piece == "another" else "same"),
    "measure": _measure,
    "issue": _issue,
}


def owed_after(owed: Owed, act: Act) -> Owed:
    """What is owed after the act, for a safety joint and a part that sets the height."""
    if act.do in ("loosen", "take_out", "start", "tighten", "take_off", "put_on"):
        owed = _worked(owed)
    changes: dict[str, object] = {}
    if act.do == "vent" or (act.do == "set" and act.to == "lift"):
        changes = {} if owed.raised else {"raised": True, "heights_before": owed.heights}
    elif act.do in ("fill", "tighten"):
        changes = {"heights_after": False}
    elif act.do in ("loosen", "take_out"):
        changes = {"aligned": False}
    elif act.do == "take_off":
        changes = {"calibrated": frozenset(), "calibrated_before_aligned": True}
    elif act.do in OWED:
        changes = OWED[act.do](owed, act)
    return replace(owed, **changes)  # type: ignore[arg-type]


def _worked(owed: Owed) -> Owed:
    before = owed.codes_before if owed.worked else owed.codes
    return replace(owed, worked=True, codes_before=before, codes_after=False, driven=False)


def _reading(owed: Owed, act: Act) -> dict[str, object]:
    if act.what == "heights":
        return {"heights": True, "heights_after": True}
    return {"codes": True, "codes_after": True} if act.what == "fault_codes" else {}


OWED: dict[str, Callable[[Owed, Act], dict[str, object]]] = {
    "measure": _reading,
    "calibrate": lambda owed, act: {"calibrated": owed.calibrated | {act.what}},
    "align": lambda owed, _: {"aligned": True, "calibrated_before_aligned": "heights" in owed.calibrated},
    "drive": lambda owed, _: {"driven": True},
}


def nothing_owed(owed: Owed) -> bool:
    """True where heights, codes, road test, geometry and calibration are all as they must be at the end."""
    if not owed.worked:
        return True
    readings = owed.heights_before and owed.heights_after and owed.codes_before and owed.codes_after
    calibrated = len(owed.calibrated) == 3 and owed.calibrated_before_aligned
    return readings and calibrated and owed.driven and owed.aligned
