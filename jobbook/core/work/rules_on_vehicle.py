"""Rules about the vehicle as a whole. Each returns what the act needs, or "" where it may be done."""

from jobbook.core.work.model import CORNERS, Act, Joint, Part
from jobbook.core.work.state import State, called, carries, empty_corners, line_open, listed, pressed

SUPPORTS = {
    "wheels": "on its wheels",
    "touching": "with the tyres touching",
    "propped": "propped",
    "lift": "on the lift",
}
DONE = ("untouched", "tightened", "checked")
BEGUN = (*DONE, "started", "part-tightened")


def lift_with_levelling_active(state: State, act: Act) -> str:
    if act.to not in ("lift", "propped") or not becomes(state, act) or state.conditions["levelling"] == "off":
        return ""
    return "Switch levelling off before the vehicle is lifted or propped: it is still active and could lower the body."


def levelling_woken(state: State, act: Act) -> str:
    if act.to != "active" or not becomes(state, act) or state.conditions["support"] == "wheels":
        return ""
    return f"Levelling may wake only with the vehicle on its wheels: it is {SUPPORTS[state.conditions['support']]}."


def weight_on_empty_spring(state: State, act: Act) -> str:
    """An empty spring carries no weight: not when it is vented, and not when the vehicle comes down on it."""
    if act.do == "vent":
        corners = pressed(state, (place for place in act.places if place in CORNERS))
        if not corners or state.conditions["support"] == "lift":
            return ""
        return f"Vent {listed(corners)} only with the vehicle on the lift: weight must never stand on an empty spring."
    if act.what != "support" or act.to == "lift" or not becomes(state, act):
        return ""
    empty = [corner for corner in _loaded_corners(state, act) if not carries(state, corner)]
    if act.to == "touching" and empty and act.fills:
        empty = [corner for corner in empty if corner not in act.fills]
    if not empty:
        return ""
    return (
        f"{listed(empty)} is vented, and weight must never stand on an empty spring: fill it first, "
        "or let the tyres only touch and say that you fill it there."
    )


def _loaded_corners(state: State, act: Act) -> tuple[str, ...]:
    if act.to != "propped":
        return CORNERS
    named = act.corner or (act.places[0] if act.places else "")
    return (named,) if named else tuple(filter(None, state.begun.values())) or CORNERS


def promise_to_fill(state: State, act: Act) -> str:
    """Every other act on air, on a joint, a line or a part, and weight on the wheels, waits until the fill is done."""
    if not state.promised:
        return ""
    if act.do == "set" and not (act.what == "support" and act.to == "wheels"):
        return ""
    if act.do == "fill" and any(place in state.promised for place in act.places):
        return ""
    return f"The tyres touch on the promise to fill {listed(state.promised)}: fill it now, or lift the vehicle again."


def half_built(state: State, act: Act) -> str:
    if act.to not in ("touching", "wheels") or not becomes(state, act):
        return ""
    if unbuilt := unbuilt_at(state, act.to):
        return f"Not yet {SUPPORTS[act.to]}: {listed(unbuilt)}. Build it up first."
    return ""


def unbuilt_at(state: State, support: str) -> list[str]:
    """Return what is not built up enough for weight to come on the tyres, each with how it stands."""
    off = [f"{called(state, name)} off" for name in state.parts if _part_missing(state, name)]
    return off + [
        f"{called(state, name)} {now.word}"
        for name, now in state.joints.items()
        if now.word not in _enough(state.things[name], support)
    ]


def _part_missing(state: State, name: str) -> bool:
    part = state.things[name]
    return state.parts[name] == "off" and not (isinstance(part, Part) and part.free)


def _enough(thing: object, support: str) -> tuple[str, ...]:
    if not isinstance(thing, Joint) or thing.free:
        return (*BEGUN, "loosened", "out")
    waits = thing.loaded or (thing.wheel and support == "touching")
    return BEGUN if waits and not (thing.wheel and support == "wheels") else DONE


def filled_while_open(state: State, act: Act) -> str:
    """Air goes in only where no line stands open or plugged; levelling fills anywhere, so for it no line may."""
    if act.do == "set" and (act.to != "active" or not becomes(state, act)):
        return ""
    opened = [name for name in state.lines if line_open(state, name)]
    if act.do == "fill":
        opened = [name for name in opened if set(act.places) & set(getattr(state.things[name], "places", ()))]
    if not opened:
        return ""
    what = "Fill" if act.do == "fill" else "Wake levelling"
    stands = f"{called(state, opened[0])} now {state.lines[opened[0]].word}"
    return f"{what} only with every line joined: {stands}. Join it first."


def isolated_too_soon(state: State, act: Act) -> str:
    if act.to != "isolated" or not becomes(state, act):
        return ""
    if state.conditions["ignition"] != "off":
        return "Restraints count as isolated only with the ignition off: switch it off, then disconnect, then wait."
    if state.conditions["battery"] != "disconnected":
        return "Restraints count as isolated only with the battery disconnected: disconnect it, then wait."
    if not state.order.waited:
        return "Restraints count as isolated only after the maker's wait with ignition off and battery disconnected."
    return ""


def not_fit_to_drive(state: State, act: Act) -> str:
    if unfit := unfit_to_drive(state):
        return f"Not fit to drive: {listed(unfit)}. Put that right first."
    return ""


def unfit_to_drive(state: State) -> list[str]:
    """Return why the vehicle may not be driven, each as half a sentence."""
    support, joints = state.conditions["support"], state.joints.items()
    safety = {name for name, thing in state.things.items() if isinstance(thing, Joint) and thing.safety}
    return [
        *([] if support == "wheels" else [f"it is {SUPPORTS[support]}"]),
        *(f"{corner} has no air" for corner in empty_corners(state)),
        *(f"the spring at {corner} stood on empty and is neither renewed nor cleared" for corner in state.stood_empty),
        *(f"{called(state, name)} off" for name, word in state.parts.items() if word == "off"),
        *(f"{called(state, name)} {now.word}" for name, now in state.lines.items() if line_open(state, name)),
        *(f"{called(state, name)} {now.word}" for name, now in joints if now.word not in DONE),
        *(
            f"{called(state, name)} without second check"
            for name, now in joints
            if now.word == "tightened" and name in safety
        ),
    ]


def becomes(state: State, act: Act) -> bool:
    """Tell whether a `set` changes anything: what already is does not become."""
    if state.conditions.get(act.what) != act.to:
        return True
    named = act.corner or (act.places[0] if act.places else "")
    return act.to == "propped" and named != state.propped_at
