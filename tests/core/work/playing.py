"""A method played in the bay: figures entered, pieces issued, tools and persons named, as the paper would have them."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.work.method import Method, begin
from jobbook.core.work.model import Act, Figure, Joint, Line
from jobbook.core.work.rules import perform
from jobbook.core.work.state import START, State
from tests.core.work.building import BRAM, NADIA, WRENCH, done, issue

TYPICAL = {
    "torque": "50 N*m",
    "length": "400 mm",
    "pressure": "3 bar",
    "angle": "90 deg",
    "time": "10 min",
    "temperature": "20 degC",
    "count": "2",
}


def figures_of(method: Method) -> list[Act]:
    """An act for each figure of the method, entered with its source; the values are invented."""
    return [
        done("figure", figure=Figure(key, kind, TYPICAL[kind], (TYPICAL[kind],), "", "Sheet 12", "3", BRAM))
        for key, kind in ((figure.key, figure.kind) for figure in method.figures)
    ]


def prepared(method: Method, corner: str, options: Mapping[str, bool], state: State = START) -> State:
    """The method begun at a corner with permission, figures and the whole kit."""
    start = replace(begin(method, corner, options), by=BRAM)
    kit = [issue(thing.name, *pieces_of(thing)) for thing in start.things if pieces_of(thing)]
    for act in (start, done("permit"), *figures_of(method), *kit):
        state = perform(state, act)
    return state


def pieces_of(thing: object) -> tuple[str, ...]:
    """The new pieces that the thing takes."""
    if isinstance(thing, Joint) and thing.single_use:
        return thing.pieces or ("set",)
    if isinstance(thing, Line) and thing.seal:
        return (thing.seal,)
    return ()


def in_the_bay(act: Act, state: State) -> Act:
    """The proposed act with what only the person can add."""
    thing = next((known for known in things_of(state) if known.name == act.on), None)
    by = NADIA if act.do == "second_check" else BRAM
    tool = WRENCH if act.do == "tighten" else None
    pieces = pieces_of(thing) if act.do in ("start", "join") else ()
    return replace(act, by=by, tool=tool, pieces=pieces or act.pieces)


def things_of(state: State) -> list[object]:
    return list(state.things.values())
