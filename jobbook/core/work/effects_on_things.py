"""What acts do to joints, lines, parts, connectors and aids."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act, Joint, Line, Part
from jobbook.core.work.state import JointNow, LineNow, State, is_kind, stages_of

JOINT_TURNS = {"loosen": "loosened", "take_out": "out"}
WORDS_AFTER: Mapping[str, str] = MappingProxyType(
    {"unplug": "out", "plug_in": "in", "place": "placed", "clear": "away", "take_off": "off"}
)
CALIBRATED_AFTER = ("heights", "headlamps", "driver_assistance")


def undo_joint(state: State, act: Act) -> State:
    """Loosen or take out: a new cycle begins, single-use pieces are spent and geometry may have to be set."""
    joint = state.things.get(act.on)
    if not isinstance(joint, Joint):
        return state
    state = _joint(state, act, JointNow(JOINT_TURNS[act.do], touched=True, undone=True, used=joint.single_use))
    state = _spent(state, act.on)
    if (joint.loaded or joint.safety) and not joint.wheel:
        order = replace(state.order, unaligned=True)
        state = replace(state, order=order, since={**state.since, "geometry": act.at})
    return state


def start_joint(state: State, act: Act) -> State:
    """Start by hand. Pieces count as new only where they were issued, and the joint was out to take them."""
    joint, now = state.things.get(act.on), state.joints.get(act.on)
    if not isinstance(joint, Joint) or now is None:
        return state
    fresh = now.word == "out" and new_pieces(state, act, joint.pieces)
    by_hand = ((0, act.by, act.at),)
    started = JointNow("started", touched=True, undone=now.undone, used=now.used and not fresh, done_by=by_hand)
    state = _joint(state, act, started)
    return _fitted(state, act) if fresh else state


def tighten_joint(state: State, act: Act) -> State:
    now = state.joints.get(act.on)
    if now is None:
        return state
    stages = max(len(stages_of(state, act.on)), 1)
    stage = act.stage or stages
    word = "tightened" if stage >= stages else "part-tightened"
    done_by = tuple(dict.fromkeys((*now.done_by, (stage, act.by, act.at))))
    state = _joint(state, act, replace(now, word=word, stage=stage, stages=stages, touched=True, done_by=done_by))
    order = replace(state.order, heights_after=False)
    return replace(state, order=order, since={**state.since, "heights": act.at})


def check_joint(state: State, act: Act) -> State:
    now = state.joints.get(act.on)
    if now is None:
        return state
    return _joint(state, act, replace(now, word="checked", checked_by=act.by))


def open_line(state: State, act: Act) -> State:
    now = state.lines.get(act.on)
    return _line(_spent(state, act.on), act, replace(now, word="open", leaks=False, excused=False)) if now else state


def plug_line(state: State, act: Act) -> State:
    now = state.lines.get(act.on)
    return _line(state, act, replace(now, word="plugged", plugs_in=now.plugs_in + act.plugs)) if now else state


def join_line(state: State, act: Act) -> State:
    line, now = state.things.get(act.on), state.lines.get(act.on)
    if not isinstance(line, Line) or now is None:
        return state
    fresh = bool(line.seal) and new_pieces(state, act, (line.seal,))
    state = _line(
        state, act, replace(now, word="joined", leaks=False, excused=False, plugs_out=now.plugs_out + act.plugs)
    )
    return _fitted(state, act) if fresh else state


def prove_line(state: State, act: Act) -> State:
    now = state.lines.get(act.on)
    if now is None:
        return state
    tight = act.ends == "tight"
    return _line(state, act, replace(now, word="proved" if tight else "joined", leaks=not tight, excused=False))


def take_off_part(state: State, act: Act) -> State:
    part = state.things.get(act.on)
    if not isinstance(part, Part):
        return state
    return _height_part(_turned(replace(state, plugs_gone=state.plugs_gone + act.plugs), act), act, part)


def put_on_part(state: State, act: Act) -> State:
    """Put a part on. Another one at a single corner takes the place of a spring that stood on empty there."""
    part = state.things.get(act.on)
    if not isinstance(part, Part):
        return state
    another = (act.piece or ("another" if part.renewed else "same")) != "same"
    parts = {**state.parts, act.on: "renewed" if another else "on"}
    serials = {**state.serials, act.on: act.serial} if act.serial else state.serials
    state = replace(state, parts=parts, serials=serials, since={**state.since, act.on: act.at})
    if another and len(part.places) == 1 and part.places[0] in state.stood_empty:
        stood = {corner: since for corner, since in state.stood_empty.items() if corner != part.places[0]}
        state = replace(state, stood_empty=stood)
    return _height_part(state, act, part)


def new_pieces(state: State, act: Act, needed: tuple[str, ...]) -> bool:
    """Tell whether an act fits new pieces of every kind that is needed, all of them issued for that thing."""
    if not act.pieces or not all(any(is_kind(piece, kind) for piece in act.pieces) for kind in needed):
        return False
    stock = list(state.issued.get(act.on, ()))
    for piece in () if state.given else act.pieces:
        if piece not in stock:
            return False
        stock.remove(piece)
    return True


def _fitted(state: State, act: Act) -> State:
    stock = list(state.issued.get(act.on, ()))
    for piece in act.pieces:
        if piece in stock:
            stock.remove(piece)
    issued = {**state.issued, act.on: tuple(stock)}
    return replace(state, issued=issued, fitted={**state.fitted, act.on: act.pieces})


def _spent(state: State, name: str) -> State:
    """What is undone has used up the pieces that were fitted to it."""
    pieces = state.fitted.get(name, ())
    if not pieces:
        return state
    discarded = {**state.discarded, name: state.discarded.get(name, ()) + pieces}
    return replace(state, fitted={**state.fitted, name: ()}, discarded=discarded)


def _height_part(state: State, act: Act, part: Part) -> State:
    """Heights are calibrated after a part that sets them came off; going back on makes an earlier calibration idle."""
    if not part.sets_height:
        return state
    order = replace(state.order, uncalibrated=CALIBRATED_AFTER)
    return replace(state, order=order, since={**state.since, "sets height": act.at})


def _turned(state: State, act: Act) -> State:
    since, word = {**state.since, act.on: act.at}, WORDS_AFTER[act.do]
    if act.on in state.parts:
        return replace(state, since=since, parts={**state.parts, act.on: word})
    if act.on in state.connectors:
        return replace(state, since=since, connectors={**state.connectors, act.on: word})
    return replace(state, since=since, aids={**state.aids, act.on: word}) if act.on in state.aids else state


def _joint(state: State, act: Act, now: JointNow) -> State:
    return replace(state, joints={**state.joints, act.on: now}, since={**state.since, act.on: act.at})


def _line(state: State, act: Act, now: LineNow) -> State:
    return replace(state, lines={**state.lines, act.on: now}, since={**state.since, act.on: act.at})


THING_EFFECTS: Mapping[str, Callable[[State, Act], State]] = MappingProxyType(
    {
        "loosen": undo_joint,
        "take_out": undo_joint,
        "start": start_joint,
        "tighten": tighten_joint,
        "second_check": check_joint,
        "open": open_line,
        "plug": plug_line,
        "join": join_line,
        "prove": prove_line,
        "take_off": take_off_part,
        "put_on": put_on_part,
        "unplug": _turned,
        "plug_in": _turned,
        "place": _turned,
        "clear": _turned,
    }
)
