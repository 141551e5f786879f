"""The evidence pack's paper: what goes to the warranty desk with a claim."""

from dataclasses import dataclass

from jobbook.paperwork.answers import Answer, Correction, Release
from jobbook.paperwork.codes import CodeRow, Test
from jobbook.paperwork.concerns import Concern
from jobbook.paperwork.heights import Heights, LeakDown
from jobbook.paperwork.issue import Identity, Issue
from jobbook.paperwork.joints import JointRow, Source
from jobbook.paperwork.parts import FittedPart, Piece, Tool


@dataclass(frozen=True)
class Fitting:
    """The first block: when the part was fitted."""

    part: str = ""
    number: str = ""
    serial: str = ""
    corner: str = ""
    fitted: str = ""  # date, by whom, job
    odometer: str = ""
    bought: str = ""  # supplier, delivery note
    purchase_invoice: str = ""
    fitting_invoice: str = ""
    kit: str = ""


@dataclass(frozen=True)
class Failure:
    """The second block: when the part failed."""

    noticed: str = ""
    reported: str = ""
    removed: str = ""
    odometer: str = ""
    in_service: str = ""  # time and distance
    term: str = ""
    where_it_is: str = ""
    replaced_by: str = ""
    authority: str = ""


@dataclass(frozen=True)
class Deed:
    """Who did what when; `meaning` is did, checked, allowed or released."""

    at: str
    who: str
    what: str
    meaning: str = "did"


@dataclass(frozen=True)
class Evidence:
    """Every word and figure of the paper, decided before it is set. Empty text prints "not recorded".

    `failure` is None where no failure is recorded (the paper then shows the fitting only), `leak_down` where there was
    no stand. `excluded` are the tests that rule other causes out. `attached` names files within the PDF and what is in
    them.
    """

    issue: Issue
    title: str
    recipient: str = ""
    claim: str = ""
    identity: Identity = Identity()
    fitting: Fitting = Fitting()
    failure: Failure | None = None
    concerns: tuple[Concern, ...] = ()
    excluded: tuple[Test, ...] = ()
    heights: Heights = Heights()
    leak_down: LeakDown | None = None
    parts: tuple[FittedPart, ...] = ()
    joints: tuple[JointRow, ...] = ()
    sources: tuple[Source, ...] = ()
    pieces: tuple[Piece, ...] = ()
    tools: tuple[Tool, ...] = ()
    codes: tuple[CodeRow, ...] = ()
    answers: tuple[Answer, ...] = ()
    corrections: tuple[Correction, ...] = ()
    deeds: tuple[Deed, ...] = ()
    release: Release = Release()
    attached: tuple[str, ...] = ()
