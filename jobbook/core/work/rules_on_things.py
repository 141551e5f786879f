"""Rules about a joint, a line, a part or a connector. Each returns what the act needs, or "" where it may be done."""

from collections.abc import Mapping
from types import MappingProxyType

from jobbook.core.work import words
from jobbook.core.work.begin import TITLES
from jobbook.core.work.effects_on_things import new_pieces
from jobbook.core.work.model import CORNERS, RESERVOIR, Act, Connector, Joint, Line, Part
from jobbook.core.work.state import (
    State,
    air,
    called,
    carries,
    empty_corners,
    line_open,
    listed,
    pressed,
    stages_of,
    standing_of,
)

FITS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "loosen": ("untouched", "loosened", "started", "part-tightened", "tightened", "checked"),
        "take_out": ("untouched", "loosened", "started", "part-tightened", "tightened", "checked"),
        "start": ("loosened", "out"),
        # Whether one that is out may be tightened is for hand-first to say.
        "tighten": ("untouched", "loosened", "out", "started", "part-tightened", "tightened"),
        "second_check": ("tightened",),
        "open": ("connected", "joined", "proved"),
        "plug": ("open",),
        "join": ("open", "plugged"),
        "prove": ("connected", "joined", "proved"),
        "take_off": ("on", "renewed"),
        "put_on": ("off",),
        "unplug": ("in",),
        "plug_in": ("out",),
        "place": ("away",),
        "clear": ("placed",),
    }
)
UP = ("lift", "propped")


def out_of_state(state: State, act: Act) -> str:
    kind, fits = words.ACTS_ON[act.do], FITS[act.do]
    now = standing_of(state, act.on, kind)
    if not now:
        return f"No {kind} of the name {act.on!r} is known in this job: begin its method, or add it on the spot."
    if now not in fits:
        return f"{_said(state, act)}: {now} now, and that starts only from {' or '.join(fits)}."
    if act.do == "prove" and act.ends not in ("tight", "not tight"):
        return f"{_said(state, act)}: say whether it was tight or not tight."
    return _stage_order(state, act) if act.do == "tighten" else ""


def _stage_order(state: State, act: Act) -> str:
    now, stages = state.joints[act.on], max(len(stages_of(state, act.on)), 1)
    due = now.stage + 1 if now.word == "part-tightened" else 1
    if not act.stage or act.stage == due <= stages:
        return ""
    return f"{_said(state, act)}: stage {min(due, stages)} of {stages} is the next, not stage {act.stage}."


def under_load(state: State, act: Act) -> str:
    """Free things are worked on wherever levelling is off; so is a line that holds back the reservoir's air only."""
    thing, support = state.things.get(act.on), state.conditions["support"]
    if support in UP or thing is None:
        return ""
    wheel = isinstance(thing, Joint) and thing.wheel and act.do == "loosen"
    free = isinstance(thing, Joint | Part) and thing.free
    free = free or (isinstance(thing, Line) and thing.places == (RESERVOIR,))
    if wheel or (free and state.conditions["levelling"] == "off"):
        return ""
    if free:
        return f"{_said(state, act)} with levelling off: it is still active and could move the vehicle. Switch it off."
    return f"{_said(state, act)} only with the body carried: lift the vehicle, or prop it, with levelling off first."


def under_pressure(state: State, act: Act) -> str:
    if act.do == "prove":
        line = state.things.get(act.on)
        empty = [place for place in line.places if not carries(state, place)] if isinstance(line, Line) else []
        return f"{_said(state, act)}: there is no air at {listed(empty)}. Fill it first." if empty else ""
    held = (act.on,) if act.do in ("open", "take_off") else state.held.get(act.on, ())
    things = [thing for thing in map(state.things.get, held) if isinstance(thing, Line | Part)]
    if charged := pressed(state, dict.fromkeys(place for thing in things for place in thing.places)):
        return f"{_said(state, act)} only without pressure: {listed(charged)} is still charged. Vent it first."
    return ""


def open_line_left(state: State, act: Act) -> str:
    left = [name for name, now in state.lines.items() if now.word == "open"]
    left = [name for name in left if name != act.on or act.do not in ("plug", "join")]
    if not left:
        return ""
    return f"{called(state, left[0])} stands open: plug it or join it before anything else is worked on."


def still_held(state: State, act: Act) -> str:
    if act.do == "take_off":
        part = state.things.get(act.on)
        holders = part.held_by if isinstance(part, Part) else ()
        held = [called(state, name) for name in holders if _holds(state, name)]
        return f"{_said(state, act)}: it is still held by {listed(held)}. Undo that first." if held else ""
    for name in state.held.get(act.on, ()):
        if state.parts.get(name) == "off":
            return f"{_said(state, act)}: {called(state, name)} is off. Put it on first."
        if act.do == "start" and name in state.lines and line_open(state, name):
            return f"{_said(state, act)}: {called(state, name)} is {state.lines[name].word}. Join it first."
    return ""


def single_use_again(state: State, act: Act) -> str:
    thing = state.things.get(act.on)
    if act.do == "join":
        if not isinstance(thing, Line) or not thing.seal or new_pieces(state, act, (thing.seal,)):
            return ""
        return (
            f"{_said(state, act)} with a new seal ({thing.seal}) issued to this job: the old one is never used again."
        )
    now = state.joints.get(act.on)
    if not isinstance(thing, Joint) or now is None or not thing.single_use or not now.used:
        return ""
    pieces = listed(thing.pieces) or "fasteners"
    return (
        f"{called(state, act.on)}: loosened, so {pieces} may not be used again. "
        "Take out, have new ones issued to this job, start them by hand, then tighten."
    )


def hand_first(state: State, act: Act) -> str:
    now = state.joints.get(act.on)
    out = now is not None and now.word == "out"
    return f"{called(state, act.on)} out: start by hand before you tighten." if out else ""


def tightened_hanging(state: State, act: Act) -> str:
    joint, support = state.things.get(act.on), state.conditions["support"]
    if not isinstance(joint, Joint):
        return ""
    if joint.wheel and support not in ("touching", "wheels"):
        return f"{_said(state, act)} with the tyres on the ground: lower the vehicle until they touch."
    return _not_at_height(state, act, joint, support) if joint.loaded else ""


def _not_at_height(state: State, act: Act, joint: Joint, support: str) -> str:
    said = f"{_said(state, act)} at ride height"
    empty = empty_corners(state) if support == "wheels" else _propped_empty(state, joint)
    if support == "propped" and state.propped_at not in ("", joint.corner) and joint.corner:
        return f"{said}: the hub is propped at {state.propped_at}. Prop it at {joint.corner}, or lower to the wheels."
    if support not in ("wheels", "propped"):
        how = "hangs" if support == "lift" else "is still carried by the lift"
        return f"{said}: the vehicle {how}. Lower it to its wheels with levelling off, or prop the hub."
    if empty:
        return f"{said}: {listed(empty)} has no air. Fill it first."
    if state.conditions["levelling"] != "off":
        return f"{said}: levelling is active and could move the vehicle under the wrench. Switch it off first."
    if not state.order.heights_fresh:
        return f"{said}: measure the heights first; they may have changed since they were read."
    return ""


def _propped_empty(state: State, joint: Joint) -> list[str]:
    corners = (joint.corner,) if joint.corner else CORNERS
    return [corner for corner in corners if air(state, corner) == "vented"]


def restraints_live(state: State, act: Act) -> str:
    """Near restraints nothing goes off or on while they are live. (How they become isolated is judged with `set`.)"""
    thing = state.things.get(act.on)
    near = isinstance(thing, Part | Connector) and thing.near_restraints
    if not near or state.conditions["restraints"] == "isolated":
        return ""
    return (
        f"{_said(state, act)} only with the restraints isolated: they are live. Isolate them first, as the maker says."
    )


def _holds(state: State, name: str) -> bool:
    if name in state.joints:
        return state.joints[name].word != "out"
    if name in state.lines:
        return not line_open(state, name)
    return state.connectors.get(name) == "in"


def _said(state: State, act: Act) -> str:
    title = called(state, act.on)
    title = title[:1].lower() + title[1:] if title[1:2].islower() else title
    return TITLES[act.do].format(title)
