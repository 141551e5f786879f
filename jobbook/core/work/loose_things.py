"""End rules about single things: a joint, a line, a part, a connector, an aid."""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from jobbook.core.work.model import Joint, LooseEnd, Part
from jobbook.core.work.state import JointNow, State, called

TO_DO = "still to do"


def joint_left_loose(state: State) -> Iterator[LooseEnd]:
    for name, now in state.joints.items():
        joint = state.things[name]
        if isinstance(joint, Joint) and (end := _joint_end(called(state, name), joint, now)):
            sentence, group, mark = end
            since, loud = state.since.get(name, ""), now.word == "part-tightened"
            yield LooseEnd("joint-left-loose", name, sentence, group, mark, since, loud)


def _joint_end(title: str, joint: Joint, now: JointNow) -> tuple[str, str, str] | None:
    when = " at ride height" if joint.loaded else " with the tyres on the ground" if joint.wheel else ""
    if now.word == "tightened" and now.touched and joint.safety:
        return f"Second check of {title} by another person.", TO_DO, "disc"
    if now.word == "part-tightened":
        return (
            f"{title} only part-tightened, stage {now.stage} of {now.stages}: finish{when}.",
            "loose now",
            "half",
        )
    if now.word == "started":
        return f"{title} by hand: tighten{when}.", "loose now", "half"
    return (f"{title} {now.word}.", "loose now", "ring") if now.word in ("loosened", "out") else None


def line_left_open(state: State) -> Iterator[LooseEnd]:
    for name, now in state.lines.items():
        title, since = called(state, name), state.since.get(name, "")
        if now.word in ("open", "plugged"):
            word = "open" if now.word == "open" else "open, plugged"
            yield LooseEnd("line-left-open", name, f"{title} {word}: join.", since=since)
        elif now.leaks:
            yield LooseEnd(
                "line-left-open",
                name,
                f"{title} found not tight: make tight and look again under pressure.",
                since=since,
            )
        elif now.word == "joined" and not now.excused:
            yield LooseEnd("line-left-open", name, f"{title}: look at under pressure.", TO_DO, "disc", since)


def left_off(state: State) -> Iterator[LooseEnd]:
    for name, word in state.parts.items():
        part, since = state.things[name], state.since.get(name, "")
        if word == "off":
            yield LooseEnd("left-off", name, f"{called(state, name)} off.", since=since)
        elif word == "on" and isinstance(part, Part) and part.renewed and not state.stopped:
            yield LooseEnd("left-off", name, f"{called(state, name)} to be renewed.", TO_DO, since=since)


def left_out(state: State) -> Iterator[LooseEnd]:
    for name, word in state.connectors.items():
        if word == "out":
            yield LooseEnd("left-out", name, f"{called(state, name)} out: plug in.", since=state.since.get(name, ""))


def left_behind(state: State) -> Iterator[LooseEnd]:
    for name, word in state.aids.items():
        if word == "placed":
            sentence = f"{called(state, name)} still there: take away."
            yield LooseEnd("left-behind", name, sentence, since=state.since.get(name, ""))


THING_RULES: Mapping[str, Callable[[State], Iterator[LooseEnd]]] = MappingProxyType(
    {
        "joint-left-loose": joint_left_loose,
        "line-left-open": line_left_open,
        "left-off": left_off,
        "left-out": left_out,
        "left-behind": left_behind,
    }
)
