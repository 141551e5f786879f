"""What acts do to the vehicle as a whole: conditions, air, readings, calibrations, geometry, road test."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from jobbook.core.work import words
from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act
from jobbook.core.work.state import Order, State, carries


def set_condition(state: State, act: Act) -> State:
    """Change one condition. What rested on the old one (fresh heights, a wait, a promise to fill) lapses with it."""
    if act.to not in words.CONDITION_VALUES.get(act.what, ()):
        return state
    at = act.corner or (act.places[0] if act.places else "")
    before, propped_at = state.conditions[act.what], at if act.to == "propped" else state.propped_at
    changed = before != act.to or (act.to == "propped" and propped_at != state.propped_at)
    state = replace(
        state,
        conditions={**state.conditions, act.what: act.to},
        order=_lapsed(state.order, act) if changed else state.order,
        since={**state.since, act.what: act.at} if changed else state.since,
    )
    if act.what != "support":
        return state
    # A promise to fill stands as long as the tyres touch: saying "touching" once more does not take it back.
    earlier = state.promised if before == "touching" else ()
    named = dict.fromkeys((*earlier, *act.fills)) if act.to == "touching" else ()
    promised = tuple(corner for corner in named if not carries(state, corner))
    return replace(state, promised=promised, propped_at=propped_at if act.to == "propped" else "")


def vent(state: State, act: Act) -> State:
    order = replace(state.order, raised=True)
    return replace(_aired(state, act, "charged", "vented"), order=order)


def fill(state: State, act: Act) -> State:
    order = replace(state.order, heights_after=False, heights_fresh=False)
    promised = tuple(corner for corner in state.promised if corner not in act.places)
    state = replace(_aired(state, act, "vented", "charged"), order=order, promised=promised)
    return replace(state, since={**state.since, "heights": act.at})


def measure(state: State, act: Act) -> State:
    """Take a reading. An answer other than done stands in for it where work ends, never where an act rests on it."""
    order = state.order
    if act.what == "heights":
        order = replace(
            order,
            heights_before=order.heights_before or not order.raised,
            heights_after=True,
            heights_fresh=act.answer == "done" or order.heights_fresh,
        )
    if act.what == "fault_codes":
        order = replace(order, codes_before=order.codes_before or not order.worked, codes_after=True)
    return replace(state, order=order)


def wait(state: State, act: Act) -> State:
    """A wait counts for the restraints only with ignition off and battery disconnected, and to its end."""
    off = state.conditions["ignition"] == "off" and state.conditions["battery"] == "disconnected"
    return replace(state, order=replace(state.order, waited=True)) if off and act.ends != "early" else state


def calibrate(state: State, act: Act) -> State:
    left = tuple(what for what in state.order.uncalibrated if what != act.what)
    return replace(state, order=replace(state.order, uncalibrated=left))


def align(state: State, act: Act) -> State:
    """Geometry set before the heights were calibrated has to be set again after."""
    too_soon = act.answer == "done" and "heights" in state.order.uncalibrated
    return replace(state, order=replace(state.order, unaligned=False, aligned_too_soon=too_soon))


def drive(state: State, act: Act) -> State:
    return replace(state, order=replace(state.order, undriven=False))


def excuse_proof(state: State, act: Act) -> State:
    now = state.lines.get(act.on)
    return replace(state, lines={**state.lines, act.on: replace(now, excused=True)}) if now else state


def _lapsed(order: Order, act: Act) -> Order:
    if act.what == "support":
        return replace(order, heights_fresh=False, raised=order.raised or act.to in ("lift", "propped"))
    if act.what == "levelling":
        return replace(order, heights_fresh=False)
    return (
        replace(order, waited=False) if (act.what, act.to) in (("ignition", "on"), ("battery", "connected")) else order
    )


def _aired(state: State, act: Act, before: str, after: str) -> State:
    changed = [place for place in act.places if state.conditions.get(f"air {place}") == before]
    conditions = {**state.conditions, **{f"air {place}": after for place in changed}}
    return replace(state, conditions=conditions, since={**state.since, **{f"air {place}": act.at for place in changed}})


VEHICLE_EFFECTS: Mapping[str, Callable[[State, Act], State]] = MappingProxyType(
    {
        "set": set_condition,
        "vent": vent,
        "fill": fill,
        "measure": measure,
        "wait": wait,
        "calibrate": calibrate,
        "align": align,
        "drive": drive,
    }
)
# What an answer other than done does: it stands in for the act where the end of work asks for it by name.
EXCUSES: Mapping[str, Callable[[State, Act], State]] = MappingProxyType(
    {"measure": measure, "calibrate": calibrate, "align": align, "drive": drive, "prove": excuse_proof}
)
