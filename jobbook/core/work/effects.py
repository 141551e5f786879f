"""What an act does to the state. Nothing here judges: an act that does not fit changes what it names all the same.

`EFFECTS` names a function for each word that changes something; what it does not name leaves only its answer behind.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from jobbook.core.work import words
from jobbook.core.work.changing import replace
from jobbook.core.work.effects_on_things import THING_EFFECTS
from jobbook.core.work.effects_on_vehicle import EXCUSES, VEHICLE_EFFECTS
from jobbook.core.work.effects_own import OWN_EFFECTS, answered
from jobbook.core.work.model import Act, Joint
from jobbook.core.work.state import State, standing_of

Effect = Callable[[State, Act], State]

EFFECTS: Mapping[str, Effect] = MappingProxyType({**THING_EFFECTS, **VEHICLE_EFFECTS, **OWN_EFFECTS})


ANSWERABLE = ("measure", "prove", "calibrate", "align", "drive")


def effect(state: State, act: Act) -> State:
    """Return the state after an act, whatever it broke. What was answered otherwise than done changed nothing."""
    change = (EFFECTS if act.answer == "done" or act.do in ("authority", "permit") else EXCUSES).get(act.do)
    after = change(state, act) if change else state
    if act.answer == "done" and act.do in words.WORK_WORDS and act.on in state.things:
        after = _worked(after, act)
    if act.do in ANSWERABLE:
        name = " ".join(filter(None, (act.do, act.what or act.on)))
        after = replace(after, answers={**after.answers, name: answered(act)})
    return _step_answered(after, act) if act.step else after


def _worked(state: State, act: Act) -> State:
    """Work on anything but wheel joints wants a road test and fault codes read after it."""
    thing = state.things[act.on]
    if isinstance(thing, Joint) and thing.wheel:
        return state
    order = replace(state.order, worked=True, codes_after=False, undriven=True)
    return replace(state, order=order, since={**state.since, "work": act.at})


def _step_answered(state: State, act: Act) -> State:
    """Note that a step was answered; a joint's step is done with its last stage."""
    if act.do == "tighten" and act.answer == "done" and standing_of(state, act.on, "joint") == "part-tightened":
        return state
    corner = act.corner or state.begun.get(act.method_key, "")
    return replace(state, steps={**state.steps, (act.method_key, corner, act.step): answered(act)})
