"""What the job page shows, decided below the window: records of words, marks and choices.

The page draws these and hands back a choice with its answers; it never works out a rule of its own.
"""

from dataclasses import dataclass
from datetime import date

from jobbook.core.quantities import Quantity
from jobbook.core.tools import Tool
from jobbook.core.work.model import Act, LooseEnd, Refusal
from jobbook.services.sheet.questions import Ask, Option, Reckoned, options_of

__all__ = ["Ask", "Option", "Reckoned", "options_of"]


@dataclass(frozen=True)
class Fact:
    """One line of the left page: a label, its value, and what is said beside it in soft ink."""

    label: str
    value: str
    beside: str = ""
    strong: bool = False


@dataclass(frozen=True)
class Staff:
    """The heights of one corner in whole or tenth millimetres as text; empty where there is none.

    `verdict` is what the newest reading was judged to be, with `guard` as its guard band; `unit` is the one to show."""

    corner: str
    lower: str = ""
    target: str = ""
    upper: str = ""
    before: str = ""
    after: str = ""
    guard: str = ""
    verdict: str = ""
    unit: str = "mm"


@dataclass(frozen=True)
class StateWord:
    """One condition in words, for the lines "As it stands now"; `strong` where it is not as on the road."""

    text: str
    strong: bool = False


@dataclass(frozen=True)
class Tab:
    """One tab of the right page with the mark of how far it is: ring, half, disc, double or bar."""

    key: str
    title: str
    mark: str


@dataclass(frozen=True)
class WithAdapter:
    """What a setting with an adapter is worked out from: the torque wanted, and the tools as they stand that day. An
    unfit tool may be taken where that was `allowed`."""

    torque: Quantity
    tools: tuple[Tool, ...]
    today: date
    allowed: bool = False


@dataclass(frozen=True)
class Choice:
    """One thing that may be done at the open step. `signs`: this act asks for a PIN or badge at once. `adapter` stands
    where the setting is worked out while the measures are typed."""

    key: str
    label: str
    shortcut: str
    act: Act
    asks: tuple[Ask, ...] = ()
    main: bool = False
    signs: bool = False
    second_person: bool = False
    adapter: WithAdapter | None = None


@dataclass(frozen=True)
class Blocked:
    """A choice that the rules refuse now, and why. `may_allow` names the rules that a permitted person may allow
    beforehand; the choice's asks are those for keeping it as already happened."""

    choice: Choice
    refusals: tuple[Refusal, ...]
    may_allow: tuple[str, ...] = ()


@dataclass(frozen=True)
class Done:
    """An act that answers the open step. Once signed it can only be corrected: `asks` hold what was answered."""

    entry: int
    act_id: str
    words: str
    by: str
    at: str
    signed: bool = True
    asks: tuple[Ask, ...] = ()
    corrected: str = ""  # the words of the entry that this one replaces


@dataclass(frozen=True)
class JointRow:
    """One row of the joint sheet: cells are (heading, mark or empty, words)."""

    title: str
    cells: tuple[tuple[str, str, str], ...]
    source: str = ""
    loud: bool = False


@dataclass(frozen=True)
class StepRow:
    """One step of a method begun on the job. `begun` numbers the method on this job from 0."""

    begun: int
    number: int
    title: str
    corner: str
    mark: str
    note: str = ""
    at: str = ""
    needs: str = ""
    skipped: bool = False


@dataclass(frozen=True)
class Card:
    """The open step: only the choices that the rules allow, or what it needs."""

    step: StepRow
    text: str
    caution: str
    joints: tuple[JointRow, ...] = ()
    sources: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    needs: tuple[str, ...] = ()
    waits_until: str = ""  # ISO time at which a running wait is over
    blocked: tuple[Blocked, ...] = ()
    done: tuple[Done, ...] = ()
    figures: tuple[str, ...] = ()  # keys of the method's figures that this step lacks for the variant


@dataclass(frozen=True)
class Unsigned:
    """An act that is kept but not yet signed: it can be undone plainly."""

    act_id: str
    entry: int
    words: str
    by: str
    at: str
    grouped: bool = True


@dataclass(frozen=True)
class BegunMethod:
    """A method begun on this job at a corner."""

    begun: int
    title: str
    corner: str


@dataclass(frozen=True)
class Passing:
    """A job on its way from one person to the next. `to` is empty where whoever comes next takes it on; `open` says, in
    sentences, what was loose at that moment."""

    entry: int
    by: str
    to: str
    at: str
    note: str
    open: tuple[str, ...]


@dataclass(frozen=True)
class JobSheet:
    """The two facing pages of one job."""

    number: int
    stage: str
    stage_words: str
    vehicle: str
    plate: str
    concern: str
    facts: tuple[Fact, ...]
    cry: str
    staffs: tuple[Staff, ...]
    heights_from: str  # reference point and unit: "hub centre to arch edge, mm"
    state: tuple[StateWord, ...]
    loose_now: tuple[LooseEnd, ...]
    still_to_do: tuple[LooseEnd, ...]
    held: str  # what holds the release, or empty
    tabs: tuple[Tab, ...]
    methods: tuple[BegunMethod, ...]
    steps: tuple[StepRow, ...]
    card: Card | None
    unsigned: tuple[Unsigned, ...]
    passing: Passing | None = None  # passed on, and not taken on yet
    from_paper: str = ""  # number and day of the paper that an old job was taken from
    files: int = 0  # how many pictures and files it has
