"""Builders for the tests of the work: one strut at the front left, its joints and its line, and the acts on them.

Every act is written out here as a person would record it; what a test does not speak of is filled in.
"""

from collections.abc import Iterable

from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Aid, Connector, Figure, Joint, Line, Part, Thing, ToolUse
from jobbook.core.work.rules import apply, perform, refusals
from jobbook.core.work.state import START, State

BRAM, NADIA, IMKE = "Bram Ferro", "Nadia Oyelaran-Pike", "Imke Tolland"
WRENCH = ToolUse(number="W-3", kind="torque wrench", range_text="40 to 200 N*m")

WHEEL = Joint("wheel@FL", "Wheel bolts", count=5, wheel=True, safety=True, corner="FL")
FORK = Joint("fork@FL", "Fork bolt", single_use=True, pieces=("bolt", "nut"), safety=True, loaded=True, corner="FL")
PLAIN = Joint("plain@FL", "Bracket bolt", corner="FL")
FREE = Joint("lock@FL", "Track rod lock nut", free=True, corner="FL")
LINE = Line("line@FL", "Air line", places=("FL",), seal="O-ring", corner="FL")
STRUT = Part(
    "strut@FL",
    "Air strut",
    renewed=True,
    serial=True,
    places=("FL",),
    held_by=("fork@FL", "line@FL", "plug@FL"),
    sets_height=True,
    corner="FL",
)
PLUG = Connector("plug@FL", "Damper connector", corner="FL")
STRAP = Aid("strap@FL", "Hub strap", corner="FL")
STRUT_JOB = (WHEEL, FORK, LINE, STRUT, PLUG, STRAP)


def done(do: str, on: str = "", by: str = BRAM, **rest: object) -> Act:
    """The act `do`; the parts of the record that a test does not speak of are left at rest."""
    return Act(do=do, on=on, by=by, **rest)  # type: ignore[arg-type]


def put(what: str, to: str, **rest: object) -> Act:
    """A condition set to a value."""
    return done("set", what=what, to=to, **rest)


def support(to: str, corner: str = "FL", **rest: object) -> Act:
    """The vehicle's support; a propped hub is the one at `corner`."""
    return put("support", to, places=(corner,) if to == "propped" else (), corner=corner, **rest)


def vent(*places: str) -> Act:
    return done("vent", places=places or ("FL",))


def fill(*places: str) -> Act:
    return done("fill", places=places or ("FL",))


def tighten(joint: str, by: str = BRAM, **rest: object) -> Act:
    """The joint tightened with a fit tool, every stage in one go unless a stage is named."""
    return done("tighten", joint, by, **{"tool": WRENCH, **rest})


def check(joint: str, by: str = NADIA, **rest: object) -> Act:
    return done("second_check", joint, by, **rest)


def measure(what: str = "heights", **rest: object) -> Act:
    return done("measure", what=what, **rest)


def calibrate(what: str = "heights", **rest: object) -> Act:
    return done("calibrate", what=what, **rest)


def issue(thing: str, *pieces: str) -> Act:
    return done("issue", thing, pieces=pieces)


def torque(key: str, *stages: str, document: str = "Sheet 12") -> Act:
    """The record's own act that enters a torque figure with its source."""
    figure = Figure(key, "torque", " ".join(stages), stages=stages, document=document, edition="3", read_by=BRAM)
    return done("figure", figure=figure)


def begun(*things: Thing, corner: str = "FL", permitted: bool = True) -> State:
    """A job with these things declared at one corner, and the permission to dismantle unless a test is about it."""
    begin = done("begin", corner=corner, things=things, method_key="test", options={})
    return replay((begin, done("permit"))[: 2 if permitted else 1])


def replay(acts: Iterable[Act], state: State = START) -> State:
    """The state after these acts, none of them judged."""
    for act in acts:
        state = apply(state, act)
    return state


def work(state: State, *acts: Act) -> State:
    """The state after these acts, every one of them judged."""
    for act in acts:
        state = perform(state, act)
    return state


def broken(state: State, act: Act) -> set[str]:
    """The names of the rules that the act would break."""
    return {refusal.rule for refusal in refusals(state, act)}


def loose(state: State) -> set[str]:
    """The names of the rules behind what is still loose."""
    return {end.rule for end in loose_ends(state)}


PERMITTED = replay((done("permit"),))
OFF, ACTIVE = put("levelling", "off"), put("levelling", "active")
LIFT, TOUCHING, WHEELS, PROPPED = (support(to) for to in ("lift", "touching", "wheels", "propped"))
HEIGHTS, CODES = measure("heights"), measure("fault_codes")
LIFTED = (HEIGHTS, CODES, OFF, LIFT)
KIT = (issue("fork@FL", "bolt", "nut"), issue("line@FL", "O-ring"))
STRIPPED = (
    done("take_out", "wheel@FL"),
    vent(),
    done("open", "line@FL"),
    done("plug", "line@FL", plugs=2),
    done("unplug", "plug@FL"),
    done("take_out", "fork@FL"),
    done("take_off", "strut@FL"),
)
BUILT = (
    done("put_on", "strut@FL", piece="another", serial="A-17"),
    *KIT,
    done("start", "fork@FL", pieces=("bolt", "nut")),
    done("join", "line@FL", pieces=("O-ring",), plugs=2),
    done("plug_in", "plug@FL"),
    done("start", "wheel@FL"),
    fill(),
    done("prove", "line@FL", ends="tight"),
)
LOWERED = (TOUCHING, tighten("wheel@FL"), check("wheel@FL"), WHEELS)
LOADED = (HEIGHTS, tighten("fork@FL"), check("fork@FL"))
SETTLED = (
    ACTIVE,
    calibrate("heights"),
    calibrate("headlamps"),
    calibrate("driver_assistance"),
    done("align"),
    done("drive"),
    HEIGHTS,
    CODES,
)
STRUT_RENEWED = (*LIFTED, *STRIPPED, *BUILT, *LOWERED, *LOADED, *SETTLED)
