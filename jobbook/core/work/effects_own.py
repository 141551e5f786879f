"""What the record's own acts do: begin, declare, arrive, permission, authority, figures, kit, findings, allowances."""

from collections.abc import Callable, Mapping
from dataclasses import fields
from types import MappingProxyType
from typing import Any, TypeVar

from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act, Aid, Connector, Joint, Line, Part, Thing
from jobbook.core.work.state import Allowance, Answered, Found, JointNow, LineNow, State

T = TypeVar("T")

ENDED = {"repaired": "repaired", "declined": "declined", "referred": "referred"}
SAID = {
    "": "",
    "allowed": "allowed",
    "covered": "allowed",
    "declined": "declined",
    "told": "referred",
    "put right": "repaired",
    "withdrawn": "withdrawn",
}


def begin(state: State, act: Act) -> State:
    """Begin a method: what it declares joins what is declared; where both know a thing the stricter word holds."""
    steps = {key: told for key, told in state.steps.items() if key[:2] != (act.method_key, act.corner)}
    state = replace(state, begun={**state.begun, act.method_key: act.corner}, steps=steps)
    return _declared(state, [_stricter(state.things.get(thing.name), thing) for thing in act.things])


def declare(state: State, act: Act) -> State:
    """Declare things on the spot, or answer for one what the variant decides: the new word replaces the old."""
    return _declared(state, list(act.things))


def arrive(state: State, act: Act) -> State:
    known = {name: value for name, value in act.conditions.items() if name in state.conditions}
    since = dict.fromkeys(known, act.at)
    return replace(state, conditions={**state.conditions, **known}, since={**state.since, **since})


def permit(state: State, act: Act) -> State:
    """Keep the permission to dismantle. Given after the payer refused, it stands without the payer. Withdrawn, the
    customer has stopped the job: what is on needs no renewing any more."""
    if act.answer != "done":
        return replace(state, permitted=False, stopped=True, since={**state.since, "stopped": act.at})
    alone = "" if state.authority in ("refused", "expired") else state.authority
    return replace(state, permitted=True, stopped=False, authority=alone)


def price(state: State, act: Act) -> State:
    """Keep how the price stands against what was allowed; an empty text says that it is covered."""
    since = {**state.since, "price": act.at}
    return replace(state, price=act.text, price_used=act.reason, since=since)


def ask_authority(state: State, act: Act) -> State:
    return replace(state, authority="asked", since={**state.since, "authority": act.at})


def authority(state: State, act: Act) -> State:
    return replace(state, authority="given" if act.answer == "done" else "refused", authority_until=act.text)


def know_figure(state: State, act: Act) -> State:
    return replace(state, figures={**state.figures, act.figure.key: act.figure}) if act.figure else state


def issue(state: State, act: Act) -> State:
    return replace(state, issued={**state.issued, act.on: state.issued.get(act.on, ()) + act.pieces})


def inspect(state: State, act: Act) -> State:
    if not act.finding:
        return state
    name = act.id or f"finding {len(state.findings) + 1}"
    return replace(state, findings={**state.findings, name: Found(act.finding, act.text or act.reason, act.at)})


def end_finding(state: State, act: Act) -> State:
    """End a finding, or say that what an act broke has been put right. `must not leave so` ends only repaired."""
    found = state.findings.get(act.on)
    if found and (act.do == "repaired" or found.kind != "must not leave so"):
        return replace(state, findings={**state.findings, act.on: replace(found, ended=ENDED[act.do])})
    if act.do == "repaired" and act.on in state.broken:
        return replace(state, broken={name: one for name, one in state.broken.items() if name != act.on})
    return state


def said(state: State, act: Act) -> State:
    """Note what became of a finding of the desk. What must not leave so is not ended by being allowed."""
    found = state.findings.get(act.on)
    if found is None:
        return state
    ended = SAID[act.what]
    if found.kind == "must not leave so" and ended == "allowed":
        ended = ""
    now = replace(found, ended=ended, said=act.what)
    return replace(state, findings={**state.findings, act.on: now})


def clear_spring(state: State, act: Act) -> State:
    return replace(state, stood_empty={corner: at for corner, at in state.stood_empty.items() if corner != act.on})


def allow(state: State, act: Act) -> State:
    return replace(state, allowances=(*state.allowances, Allowance(act.rule, act.reason, act.by, act.at)))


def stop(state: State, act: Act) -> State:
    return replace(state, stopped=True, since={**state.since, "stopped": act.at})


def answered(act: Act) -> Answered:
    return Answered(act.answer, act.reason or act.how, act.by, act.at)


def _declared(state: State, things: list[Thing]) -> State:
    known = {**state.things, **{thing.name: thing for thing in things}}
    held: dict[str, tuple[str, ...]] = {}
    for thing in known.values():
        for holder in thing.held_by if isinstance(thing, Line | Part) else ():
            held[holder] = (*held.get(holder, ()), thing.name)
    return replace(
        state,
        things=known,
        held=held,
        joints=_added(state.joints, things, Joint, JointNow()),
        lines=_added(state.lines, things, Line, LineNow()),
        parts=_added(state.parts, things, Part, "on"),
        connectors=_added(state.connectors, things, Connector, "in"),
        aids=_added(state.aids, things, Aid, "away"),
    )


def _added(standing: Mapping[str, T], things: list[Thing], kind: type[Thing], fresh: T) -> Mapping[str, T]:
    return {**{thing.name: fresh for thing in things if isinstance(thing, kind)}, **standing}


def _stricter(old: Thing | None, new: Thing) -> Thing:
    if type(old) is not type(new) or old is None:
        return new
    merged = {one.name: _merged(one.name, getattr(old, one.name), getattr(new, one.name)) for one in fields(new)}
    return replace(new, **merged)


def _merged(name: str, old: Any, new: Any) -> Any:
    if isinstance(old, bool) and isinstance(new, bool):
        return old and new if name == "free" else old or new
    if isinstance(old, tuple) and isinstance(new, tuple):
        return tuple(dict.fromkeys((*old, *new)))
    return new or old


OWN_EFFECTS: Mapping[str, Callable[[State, Act], State]] = MappingProxyType(
    {
        "begin": begin,
        "declare": declare,
        "arrive": arrive,
        "permit": permit,
        "ask_authority": ask_authority,
        "authority": authority,
        "price": price,
        "figure": know_figure,
        "issue": issue,
        "inspect": inspect,
        "repaired": end_finding,
        "declined": end_finding,
        "referred": end_finding,
        "said": said,
        "cleared": clear_spring,
        "allow": allow,
        "stop": stop,
    }
)
