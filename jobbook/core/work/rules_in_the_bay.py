"""Rules that only the bay can judge: permission, figures, tools, persons; and the form of the record's own acts.

In the checker, where the state says `given`, the first four are taken as right.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from jobbook.core.work import words
from jobbook.core.work.model import Act, Joint
from jobbook.core.work.state import State, called, is_angle, stages_of


def no_permission(state: State, act: Act) -> str:
    if state.given:
        return ""
    if not state.permitted:
        return "Nothing is loosened, opened, vented or taken off before the customer's permission to dismantle is kept."
    if state.authority == "asked":
        return "The payer was asked for authority and has not given it: wait for it, and keep it before you go on."
    if state.authority == "refused":
        return "The payer refused authority: ask the customer, and keep a new permission before you go on."
    if state.authority == "expired":
        return f"The payer's authority ended on {state.authority_until}: ask for a new one before you go on."
    return state.price_used


def figure_unknown(state: State, act: Act) -> str:
    joint = state.things.get(act.on)
    key = joint.figure if act.do == "tighten" and isinstance(joint, Joint) else act.figure_key
    if state.given or not key:
        return ""
    what = called(state, act.on) if act.on else key.replace("_", " ")
    figure = state.figures.get(key)
    if figure is None:
        return f"The figure for {what} is not known for this variant: enter it, with the document it stands in."
    if not figure.document:
        return f"The figure for {what} has no source: enter the document and edition it was read from."
    return ""


def wrong_tool(state: State, act: Act) -> str:
    joint = state.things.get(act.on)
    if state.given or not isinstance(joint, Joint):
        return ""
    if act.tool is None:
        return f"Choose the tool for {called(state, act.on)} before tightening." if joint.figure else ""
    return act.tool.unfit


def same_person(state: State, act: Act) -> str:
    now, stages = state.joints.get(act.on), stages_of(state, act.on)
    if state.given or now is None:
        return ""
    if not act.by or any(act.by == person for stage, person, _ in now.done_by if stage):
        return f"The second check of {called(state, act.on)} belongs to somebody who tightened none of its stages."
    if stages and is_angle(stages[-1]) and not act.how.startswith("witness"):
        return f"{called(state, act.on)} ends with an angle: its second check is witnessed, never tightened again."
    return ""


def own_form(state: State, act: Act) -> str:
    """Judge the form of an act that is on no thing: a value that is none, a word nobody knows, a reason left out."""
    if act.do not in words.ACT_WORDS:
        return f"{act.do!r} is no act that this book knows."
    judge = FORMS.get(act.do)
    return judge(state, act) if judge else ""


def _set(state: State, act: Act) -> str:
    if act.to in words.CONDITION_VALUES.get(act.what, ()):
        return ""
    return f"{act.what or 'A condition'} cannot be set to {act.to or 'nothing'}: choose one of its values."


def _arrive(state: State, act: Act) -> str:
    if state.order.worked or state.order.raised:
        return "How the vehicle arrived is kept before work begins: it has been lifted, vented or worked on already."
    for name, value in act.conditions.items():
        known = words.AIR_VALUES if name.startswith("air ") else words.CONDITION_VALUES.get(name, ())
        if name not in state.conditions or value not in known:
            return f"{name} cannot be {value}: choose one of its values."
    return ""


def _begin(state: State, act: Act) -> str:
    for thing in act.things:
        known = state.things.get(thing.name)
        if known is not None and type(known) is not type(thing):
            return f"{thing.title} is already known in this job as another kind of thing: give it another key."
    return "" if act.do == "begin" or act.things else "Name what is added."


def _figure(state: State, act: Act) -> str:
    return "" if act.figure and act.figure.key else "Enter the figure with its key, its value and its source."


def _issue(state: State, act: Act) -> str:
    if act.on not in state.things:
        return f"No thing of the name {act.on!r} is known in this job: pieces are issued for a joint, a line or a part."
    return "" if act.pieces else f"Name the pieces issued for {called(state, act.on)}."


def _wait(state: State, act: Act) -> str:
    return "Say why the wait was cut short." if act.ends == "early" and not act.reason else ""


def _end_finding(state: State, act: Act) -> str:
    found = state.findings.get(act.on)
    if found is None:
        put_right = act.do == "repaired" and act.on in state.broken
        return "" if put_right else "There is no such finding in this job."
    if found.kind == "must not leave so" and act.do != "repaired":
        return "This must not leave so: it is repaired, or the vehicle is let go with a restriction."
    return ""


def _cleared(state: State, act: Act) -> str:
    if act.on not in state.stood_empty:
        return f"No spring at {act.on or 'that corner'} is held for having stood on empty."
    return "" if act.by else "A spring that stood on empty is cleared by a named person."


FORMS: Mapping[str, Callable[[State, Act], str]] = MappingProxyType(
    {
        "set": _set,
        "arrive": _arrive,
        "begin": _begin,
        "declare": _begin,
        "figure": _figure,
        "issue": _issue,
        "wait": _wait,
        "repaired": _end_finding,
        "declined": _end_finding,
        "referred": _end_finding,
        "cleared": _cleared,
    }
)
