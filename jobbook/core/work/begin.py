"""A method begun at a corner: what it declares there, which steps it has, and the act that a step suggests."""

from collections.abc import Iterable, Mapping

from jobbook.core.errors import Refused
from jobbook.core.work import words
from jobbook.core.work.changing import replace
from jobbook.core.work.model import AXLES, CORNERS, RESERVOIR, Act, Joint, Line, Part, Thing
from jobbook.core.work.reading import Declared, Method, Step
from jobbook.core.work.state import State, is_angle, is_kind, stages_of

TITLES: Mapping[str, str] = {
    "loosen": "Loosen {}",
    "take_out": "Take out {}",
    "start": "Start {} by hand",
    "tighten": "Tighten {}",
    "second_check": "Second check of {} by another person",
    "open": "Open {}",
    "plug": "Plug {} at both ends",
    "join": "Join {}",
    "prove": "Look at {} under pressure",
    "take_off": "Take off {}",
    "put_on": "Put on {}",
    "unplug": "Unplug {}",
    "plug_in": "Plug in {}",
    "place": "Place {}",
    "clear": "Clear away {}",
    "measure": "Measure {}",
    "calibrate": "Calibrate {}",
    "set": "Set {}",
    "vent": "Vent {}",
    "fill": "Fill {}",
    "wait": "Wait {}",
    "align": "Measure and set the wheel geometry",
    "drive": "Road test",
    "confirm": "Confirm",
    "inspect": "Inspect",
    "photo": "Take a picture",
    "note": "Write a note",
}
PLACE_TITLES: Mapping[str, str] = {
    "here": "this corner",
    "axle": "both corners of this axle",
    "all": "all four corners",
    "reservoir": "the reservoir",
}


def begin(method: Method, corner: str, options: Mapping[str, bool]) -> Act:
    """Return the act that begins a method at a corner ("" for the whole vehicle), its questions answered.

    Refused where the method is not for that corner, or a question has no answer or is none of the method's.
    """
    if (corner or "") not in (method.corners or ("",)):
        allowed = ", ".join(method.corners) or "the whole vehicle"
        raise Refused(f"{method.title} is for {allowed}: nothing was begun; choose one of these.")
    if unanswered := [text for name, text in method.options.items() if name not in options]:
        raise Refused(f"{method.title} first asks: {unanswered[0]} Nothing was begun; answer yes or no.")
    if strange := [name for name in options if name not in method.options]:
        raise Refused(f"{method.title} does not ask about {strange[0]}: nothing was begun; leave that answer out.")
    there = [one for one in method.declared if holds(one.when, one.unless, options)]
    known = {one.thing.name for one in there}
    things = tuple(_resolved(one, corner, known) for one in there)
    return Act(
        "begin",
        text=method.title,
        method_key=method.key,
        corner=corner,
        options=dict(options),
        things=things,
        digest=method.digest,
    )


def steps_for(method: Method, corner: str, options: Mapping[str, bool]) -> tuple[Step, ...]:
    """Return the steps that these answers leave, with the numbers that they have in the file. `corner` changes none."""
    return tuple(step for step in method.steps if holds(step.when, step.unless, options))


def holds(when: str, unless: str, options: Mapping[str, bool]) -> bool:
    """Tell whether something asked for by `when` and `unless` is there; an unknown question decides nothing."""
    return options.get(when, True) and not options.get(unless, False)


def name_at(key: str, corner: str) -> str:
    return f"{key}@{corner}" if key and corner else key


def places_at(word: str, corner: str) -> tuple[str, ...]:
    """Return the places that a word of the method file means at a corner; () where it means none."""
    if word == "all":
        return CORNERS
    if word == "axle":
        return AXLES.get(corner, ())
    if word == "here":
        return (corner,) if corner else ()
    return (word,) if word in (*CORNERS, RESERVOIR) else ()


def propose(step: Step, corner: str, state: State) -> Act:
    """Return the act that a step suggests as things stand. What only the bay can tell is left open."""
    args = step.args
    condition = next((name for name in words.CONDITION_VALUES if name in args), "")
    act = Act(
        step.do,
        on=name_at(step.key, corner),
        places=places_at(args.get("at", ""), corner),
        fills=places_at(args.get("fills", ""), corner),
        what=args.get("what", condition),
        to=args.get(condition, ""),
        text=step.text if step.do in ("confirm", "inspect", "photo", "note") else "",
        step=step.number,
        method_key=step.method_key,
        corner=corner,
    )
    return _measured_out(step, _on_thing(step, act, state))


def title_of(step: Step, things: Mapping[str, Thing] | Iterable[Thing]) -> str:
    """Return what a step says: its own text, or a plain sentence made of the act and the thing."""
    if step.text:
        return step.text
    known = things.values() if isinstance(things, Mapping) else things
    title = next((thing.title for thing in known if thing.name.split("@")[0] == step.key), step.key)
    return TITLES.get(step.do, step.do).format(_in_sentence(title) if step.key else _object(step)).strip() + "."


def _object(step: Step) -> str:
    args = step.args
    if step.do == "set":
        return next((f"{name} to {args[name]}" for name in words.CONDITION_VALUES if name in args), "")
    if step.do == "wait":
        minutes = args.get("minutes", "")
        return f"{minutes} minutes" if minutes[:1].isdigit() else "as long as the maker says"
    at = args.get("at", "")
    return PLACE_TITLES.get(at, at) or args.get("what", "").replace("_", " ")


def _in_sentence(title: str) -> str:
    return title[:1].lower() + title[1:] if title[1:2].islower() else title


def _resolved(one: Declared, corner: str, known: set[str]) -> Thing:
    thing = replace(one.thing, name=name_at(one.thing.name, corner), corner=corner)
    if isinstance(thing, Line | Part):
        held_by = tuple(name_at(key, corner) for key in thing.held_by if key in known)
        return replace(thing, places=places_at(one.at, corner), held_by=held_by)
    return thing


def _on_thing(step: Step, act: Act, state: State) -> Act:
    thing = state.things.get(act.on)
    if step.do == "tighten":
        return replace(act, stage=_next_stage(state, act.on))
    if step.do == "second_check" and (stages := stages_of(state, act.on)):
        return replace(act, how="witnessed" if is_angle(stages[-1]) else "")
    if step.do == "start" and isinstance(thing, Joint) and thing.single_use:
        return replace(act, pieces=_new_pieces(state, act.on, thing.pieces))
    if step.do == "join" and isinstance(thing, Line):
        plugs = state.lines[act.on].plugs_in - state.lines[act.on].plugs_out if state.given else 0
        return replace(act, pieces=_new_pieces(state, act.on, (thing.seal,) if thing.seal else ()), plugs=plugs)
    if step.do == "plug" and state.given:
        return replace(act, plugs=1)
    if step.do == "put_on" and isinstance(thing, Part):
        return replace(act, piece=step.args.get("piece", "another" if thing.renewed else "same"))
    return replace(act, ends="tight") if step.do == "prove" else act


def _measured_out(step: Step, act: Act) -> Act:
    args = step.args
    minutes = args.get("minutes", "")
    key = args.get("down_to") or args.get("at_height") or args.get("figure") or ""
    if minutes and not minutes[0].isdigit():
        return replace(act, figure_key=minutes)
    return replace(act, figure_key=key, minutes=minutes)


def _next_stage(state: State, name: str) -> int:
    stages, now = len(stages_of(state, name)), state.joints.get(name)
    if not stages or now is None:
        return 0
    return now.stage + 1 if now.word == "part-tightened" and now.stage < stages else 1


def _new_pieces(state: State, name: str, needed: tuple[str, ...]) -> tuple[str, ...]:
    """Return one set of the pieces that are needed out of those issued, () where the set is not whole."""
    if state.given:
        return needed
    stock = state.issued.get(name, ())
    taken = [next((piece for piece in stock if is_kind(piece, kind)), "") for kind in needed]
    return tuple(taken) if all(taken) else ()
