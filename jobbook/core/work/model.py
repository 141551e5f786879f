"""What the work consists of: things that can be loose, acts, and the state they lead to.

Names: a thing declared under the key `lower_bolt` by a method used at RL is `lower_bolt@RL`; a thing of a
whole-vehicle method is just its key. Places are the four corners and `reservoir`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

CORNERS = ("FL", "FR", "RL", "RR")
AXLES = MappingProxyType({"FL": ("FL", "FR"), "FR": ("FL", "FR"), "RL": ("RL", "RR"), "RR": ("RL", "RR")})
RESERVOIR = "reservoir"
PLACES = (*CORNERS, RESERVOIR)

NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True)
class Joint:
    """One threaded connection of `count` fasteners that are tightened alike."""

    name: str
    title: str
    count: int = 1
    thread: str = ""
    grade: str = ""
    figure: str = ""
    single_use: bool = False
    by_variant: bool = False  # whether it is single-use is asked for this variant; unknown counts as yes
    pieces: tuple[str, ...] = ()  # one name stands for as many alike as the joint has fasteners
    safety: bool = False
    loaded: bool = False
    wheel: bool = False
    free: bool = False
    turn: str = ""
    corner: str = ""


@dataclass(frozen=True)
class Line:
    """One air line connection; `places` are those whose air stands behind it."""

    name: str
    title: str
    places: tuple[str, ...] = ()
    seal: str = ""
    held_by: tuple[str, ...] = ()
    corner: str = ""


@dataclass(frozen=True)
class Part:
    """A part that comes off; `renewed` when a new one is to go on."""

    name: str
    title: str
    renewed: bool = False
    serial: bool = False
    places: tuple[str, ...] = ()
    held_by: tuple[str, ...] = ()
    sets_height: bool = False
    near_restraints: bool = False
    free: bool = False
    corner: str = ""


@dataclass(frozen=True)
class Connector:
    """An electrical connector."""

    name: str
    title: str
    near_restraints: bool = False
    corner: str = ""


@dataclass(frozen=True)
class Aid:
    """What the shop puts in or under for the work and must take away."""

    name: str
    title: str
    corner: str = ""


Thing = Joint | Line | Part | Connector | Aid


@dataclass(frozen=True)
class Figure:
    """A figure that the shop entered for this variant, with its source. `stages` are exact texts, one a stage."""

    key: str
    kind: str
    text: str
    stages: tuple[str, ...] = ()
    tolerance: str = ""
    document: str = ""
    edition: str = ""
    read_by: str = ""


@dataclass(frozen=True)
class ToolUse:
    """The tool as it stood when it was chosen. `unfit` is the sentence that says why it must not be used, or empty."""

    number: str
    kind: str = ""
    range_text: str = ""
    calibrated_on: str = ""
    certificate: str = ""
    unfit: str = ""


@dataclass(frozen=True)
class Act:
    """One thing done, by one person, at one time.

    `do` is a word of the method file (confirm, inspect, photo, note, measure, set, vent, fill, loosen, take_out,
    start, tighten, second_check, open, plug, join, prove, take_off, put_on, unplug, plug_in, place, clear, wait,
    calibrate, align, drive) or one of the record's own:

    begin (method, options, corner) · declare (thing) · arrive (conditions) · permit · ask_authority · authority ·
    figure (figure) · issue (on, pieces) · allow (rule, reason) · let_go (on: a loose end, reason) · repaired,
    declined, referred (on: id of the finding) · cleared (on: a corner, a spring that stood empty) · stop (the
    customer stops the job) · price (text: why it is not covered by what was allowed; reason: why what is done is not) ·
    said (on: a finding of the desk; what: its answer, empty where it has none any more).
    """

    do: str
    id: str = ""
    on: str = ""  # full name of the thing; the id or name that the record's own acts speak of
    places: tuple[str, ...] = ()  # vent, fill
    fills: tuple[str, ...] = ()  # set support = touching
    what: str = ""  # measure, calibrate; for set: which condition
    to: str = ""  # set: its new value
    figure: Figure | None = None  # the record's own act `figure`
    figure_key: str = ""  # vent down_to, fill at_height, wait
    minutes: str = ""
    piece: str = ""  # put_on: "same" or "another"
    serial: str = ""
    pieces: tuple[str, ...] = ()  # new single-use pieces: issued now, or fitted by this act
    plugs: int = 0  # plug: put in; join: taken out; take_off: gone with the part
    tool: ToolUse | None = None
    stage: int = 0  # tighten: 1-based; 0 stands for every stage in one go
    reached: str = ""
    readings: tuple[tuple[str, str], ...] = ()
    finding: str = ""  # "", "found wrong", "must not leave so"; the desk's own: "to be asked"
    ends: str = ""  # prove: "tight", "not tight"; wait: "early" when it was cut short, with its reason
    text: str = ""
    how: str = ""
    answer: str = "done"  # done, not possible, declined, not applicable, sublet
    reason: str = ""
    rule: str = ""  # allow: the rule allowed to be broken
    kept_after: tuple[str, ...] = ()  # rules that this act broke when it was kept as already done
    by: str = ""
    at: str = ""
    step: int = 0  # number of the method's step that it answers, in the method begun last with `method_key`
    method_key: str = ""
    corner: str = ""  # begin, declare; for other acts the corner of the method that they answer
    options: Mapping[str, bool] = field(default_factory=dict)
    things: tuple[Thing, ...] = ()  # begin, declare
    digest: str = ""  # begin: of the method's text, so that a job keeps the revision that it began with
    conditions: Mapping[str, str] = field(
        default_factory=lambda: NOTHING
    )  # arrive: e.g. {"air FL": "vented", "support": "wheels"}


@dataclass(frozen=True)
class Refusal:
    """One rule that an act would break: its name and a whole sentence that says what it needs."""

    rule: str
    sentence: str


@dataclass(frozen=True)
class LooseEnd:
    """What is still loose or still to do. `group` is "loose now" or "still to do"; `mark` names its shape."""

    rule: str
    on: str
    sentence: str
    group: str = "loose now"
    mark: str = "ring"  # ring, half, disc, double, bar
    since: str = ""
    loud: bool = False  # a part-tightened joint: the one to shout about
