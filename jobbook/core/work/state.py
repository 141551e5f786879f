"""How the work of a job stands: small mappings and flags, no history.

Mappings are never changed in place. Air stands under conditions as `air FL` ... `air reservoir`. `since` says when each
named thing last changed. The last functions are what screens and papers ask.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from jobbook.core.work import words
from jobbook.core.work.model import CORNERS, Figure, Thing


@dataclass(frozen=True)
class JointNow:
    """A joint as it stands. `stage` of `stages` is the last one reached; `used`: its pieces are spent."""

    word: str = "untouched"  # untouched, loosened, out, started, part-tightened, tightened, checked
    stage: int = 0
    stages: int = 0
    touched: bool = False
    undone: bool = False  # it was loosened or taken out in this job, not only tightened again
    used: bool = False
    done_by: tuple[tuple[int, str, str], ...] = ()  # stage (0: by hand), person, time; of this cycle only
    checked_by: str = ""


@dataclass(frozen=True)
class LineNow:
    """A line as it stands. `excused`: the proof was answered otherwise than by being done."""

    word: str = "connected"  # connected, open, plugged, joined, proved
    leaks: bool = False
    excused: bool = False
    plugs_in: int = 0
    plugs_out: int = 0


@dataclass(frozen=True)
class Found:
    """Something found wrong by an inspection, or a finding of the desk. `ended`: "", repaired, declined, referred,
    allowed, withdrawn; `said` is what was answered to the desk about it."""

    kind: str
    text: str
    at: str = ""
    ended: str = ""
    said: str = ""


@dataclass(frozen=True)
class Broken:
    """A rule that an act broke when it was kept (`kept`), or would break today."""

    rule: str
    act: tuple[str, str, str, str]  # do, on, what, to
    sentence: str
    kept: bool
    reason: str = ""
    by: str = ""
    at: str = ""


@dataclass(frozen=True)
class Allowance:
    """A rule that a named person allowed to be broken by the next act that needs it."""

    rule: str
    reason: str
    by: str
    at: str = ""


@dataclass(frozen=True)
class Answered:
    """How a step, a measurement, a calibration, an alignment or a road test was answered."""

    answer: str
    reason: str = ""
    by: str = ""
    at: str = ""


@dataclass(frozen=True)
class Order:
    """What has to come before or after what. A flag named for a reading is true while that reading still holds."""

    worked: bool = False
    raised: bool = False
    heights_before: bool = False
    heights_after: bool = False
    heights_fresh: bool = False
    codes_before: bool = False
    codes_after: bool = False
    waited: bool = False
    undriven: bool = False
    unaligned: bool = False
    uncalibrated: tuple[str, ...] = ()
    aligned_too_soon: bool = False


@dataclass(frozen=True)
class State:
    """How the work stands. `given`: what is judged in the bay (figures, tools, kit, persons) counts as right."""

    given: bool = False
    permitted: bool = False
    authority: str = ""  # "", asked, given, refused, expired
    authority_until: str = ""  # an ISO day, or empty
    price: str = ""  # why the price is not covered by what was allowed
    price_used: str = ""  # why what is done already is not
    stopped: bool = False
    conditions: Mapping[str, str] = field(default_factory=lambda: words.ASSUMED)
    propped_at: str = ""
    things: Mapping[str, Thing] = field(default_factory=dict)
    joints: Mapping[str, JointNow] = field(default_factory=dict)
    lines: Mapping[str, LineNow] = field(default_factory=dict)
    parts: Mapping[str, str] = field(default_factory=dict)  # on, off, renewed
    connectors: Mapping[str, str] = field(default_factory=dict)  # in, out
    aids: Mapping[str, str] = field(default_factory=dict)  # away, placed
    held: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # name of a holder: what it holds
    plugs_gone: int = 0
    figures: Mapping[str, Figure] = field(default_factory=dict)
    issued: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # new pieces not yet fitted, per thing
    fitted: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    discarded: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    serials: Mapping[str, str] = field(default_factory=dict)
    findings: Mapping[str, Found] = field(default_factory=dict)
    promised: tuple[str, ...] = ()
    stood_empty: Mapping[str, str] = field(default_factory=dict)  # corner: since when
    allowances: tuple[Allowance, ...] = ()
    broken: Mapping[str, Broken] = field(default_factory=dict)
    let_go: Mapping[tuple[str, str, str], Answered] = field(default_factory=dict)  # rule, on, since
    begun: Mapping[str, str] = field(default_factory=dict)  # method key: corner at which it was begun last
    steps: Mapping[tuple[str, str, int], Answered] = field(default_factory=dict)  # method key, corner, number
    answers: Mapping[str, Answered] = field(default_factory=dict)  # e.g. "align", "calibrate headlamps"
    since: Mapping[str, str] = field(default_factory=dict)
    order: Order = field(default_factory=Order)


START = State()


def air(state: State, place: str) -> str:
    return state.conditions.get(f"air {place}", "charged")


def carries(state: State, place: str) -> bool:
    """Tell whether weight may stand on that place: its spring is charged, or there is no air spring."""
    return air(state, place) != "vented"


def pressed(state: State, places: Iterable[str]) -> list[str]:
    """Return those places whose air is under pressure."""
    return [place for place in places if air(state, place) == "charged"]


def empty_corners(state: State) -> list[str]:
    return [corner for corner in CORNERS if not carries(state, corner)]


def line_open(state: State, name: str) -> bool:
    return state.lines[name].word in ("open", "plugged")


def called(state: State, name: str) -> str:
    """Return what people call a thing, with its corner: "Strut lower bolt FL"."""
    thing = state.things.get(name)
    return f"{thing.title} {thing.corner}".strip() if thing else name


def listed(titles: Iterable[str]) -> str:
    """Return up to three titles as people say them: "a, b and c", "a, b, c and 4 more"."""
    rest = list(titles)
    shown, more = rest[:3], len(rest) - 3
    if more > 0:
        return ", ".join(shown) + f" and {more} more"
    return " and ".join(filter(None, (", ".join(shown[:-1]), *shown[-1:])))


def standing_of(state: State, name: str, kind: str) -> str:
    """Return the word for how a joint, line, part, connector or aid stands, "" where none is declared by that name."""
    if kind == "joint":
        return state.joints[name].word if name in state.joints else ""
    if kind == "line":
        return state.lines[name].word if name in state.lines else ""
    return {"part": state.parts, "connector": state.connectors, "aid": state.aids}[kind].get(name, "")


def stages_of(state: State, name: str) -> tuple[str, ...]:
    """Return the stages of a joint's figure as they were entered; () where the figure is not known or not wanted."""
    figure = state.figures.get(getattr(state.things.get(name), "figure", ""))
    return (figure.stages or (figure.text,)) if figure else ()


def is_kind(piece: str, kind: str) -> bool:
    """Tell whether a piece is of a kind. It is named by its kind, with its batch after a space where there is one."""
    return piece == kind or piece.startswith(kind + " ")


def is_angle(stage: str) -> bool:
    return "deg" in stage or "°" in stage


CONDITION_SAID = {
    ("support", "wheels"): "on its wheels",
    ("support", "touching"): "tyres touching, the lift carries",
    ("support", "propped"): "propped at ride height",
    ("support", "lift"): "on the lift",
}


def conditions(state: State) -> tuple[tuple[str, str], ...]:
    """Return each condition by name, with its words: ("support", "on the lift"), ("air FL", "FL vented")."""
    return tuple((name, _condition_said(state, name, value)) for name, value in state.conditions.items())


def step_status(state: State, method_key: str, number: int, corner: str = "") -> str:
    """Return how a step was answered: "" not yet, "done", "declined" ... Without a corner: where it was begun last."""
    answered = state.steps.get((method_key, corner or state.begun.get(method_key, ""), number))
    return answered.answer if answered else ""


def pieces_of(state: State, name: str) -> Mapping[str, tuple[str, ...]]:
    """Return the single-use pieces of a joint or a line by what has become of them."""
    told = {"issued": state.issued, "fitted": state.fitted, "discarded": state.discarded}
    return {word: pieces[name] for word, pieces in told.items() if pieces.get(name)}


def _condition_said(state: State, name: str, value: str) -> str:
    if name.startswith("air "):
        place = name.removeprefix("air ")
        return f"no air at {place}" if value == "none" else f"{place} {value}"
    if (name, value) == ("support", "propped") and state.propped_at:
        return f"propped at ride height, {state.propped_at}"
    return CONDITION_SAID.get((name, value), f"{name} {value}")
