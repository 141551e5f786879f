"""The evidence pack's paper: what goes to the warranty desk with a claim."""

from dataclasses import dataclass, field

from reportlab.platypus import Flowable

from jobbook.paperwork.agreed import FoundRow, found_table, price_block
from jobbook.paperwork.answers import Answer, Correction, Release, answers_table, corrections_table, let_go_table
from jobbook.paperwork.blocks import called_out, facts, ruled, section, side_by_side, spaced, two_blocks
from jobbook.paperwork.codes import CodeRow, Test, codes_table, tests_table
from jobbook.paperwork.concerns import Concern, concerns_block
from jobbook.paperwork.files import FileRow, Picture, files_table, pictures_block
from jobbook.paperwork.frame import bound, inner_width
from jobbook.paperwork.geometry import Geometry, geometry_block
from jobbook.paperwork.heights import Heights, LeakDown, heights_block
from jobbook.paperwork.issue import Head, Identity, Issue, identity_facts, under_title
from jobbook.paperwork.joints import JointRow, Source, joint_sheet
from jobbook.paperwork.parts import FittedPart, Piece, Tool, parts_table, pieces_table, tools_table
from jobbook.paperwork.typed import para
from jobbook.paperwork.years import Years, years_block

DOCUMENT = "Evidence for a warranty claim"


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
    no stand, `geometry` where none was read; `years` are drawn where several visits show something. `excluded` are the
    tests that rule other causes out. `attached` names files within the PDF and what is in them.
    """

    issue: Issue
    title: str
    recipient: str = ""
    claim: str = ""
    identity: Identity = field(default_factory=Identity)
    fitting: Fitting = field(default_factory=Fitting)
    failure: Failure | None = None
    concerns: tuple[Concern, ...] = ()
    excluded: tuple[Test, ...] = ()
    heights: Heights = field(default_factory=Heights)
    leak_down: LeakDown | None = None
    parts: tuple[FittedPart, ...] = ()
    joints: tuple[JointRow, ...] = ()
    sources: tuple[Source, ...] = ()
    pieces: tuple[Piece, ...] = ()
    tools: tuple[Tool, ...] = ()
    codes: tuple[CodeRow, ...] = ()
    pictures: tuple[Picture, ...] = ()
    files: tuple[FileRow, ...] = ()
    answers: tuple[Answer, ...] = ()
    corrections: tuple[Correction, ...] = ()
    deeds: tuple[Deed, ...] = ()
    release: Release = field(default_factory=Release)
    attached: tuple[str, ...] = ()
    geometry: Geometry | None = None
    years: tuple[Years, ...] = ()
    found: tuple[FoundRow, ...] = ()
    price: tuple[tuple[str, str], ...] = ()


def story(record: Evidence, size: str = "A4") -> list[Flowable]:
    """The paper's content in its order, for one use: flowables are spent when they are set."""
    width = inner_width(size)
    return [
        para(record.title, "title"),
        para(under_title(record.issue, _addressed(record.recipient), _claim(record.claim)), "under"),
        *_restriction(record.release, width),
        _identity(record.identity, width),
        *_blocks(record, width),
        *concerns_block(record.concerns, width),
        *heights_block(record.heights, width, record.leak_down),
        *geometry_block(record.geometry, width),
        *years_block(record.years, width),
        *tests_table("Other causes looked at", record.excluded, width),
        *parts_table(record.parts, width),
        *joint_sheet(record.joints, record.sources, width),
        *pieces_table(record.pieces, width),
        *tools_table(record.tools, width),
        *codes_table(record.codes, width),
        *pictures_block(record.pictures, width),
        *files_table(record.files, width),
        *found_table(record.found, width),
        *answers_table(record.answers, width),
        *price_block(record.price, width),
        *corrections_table(record.corrections, width),
        *let_go_table(record.release, width),
        *_deeds(record.deeds, width),
        *section("Files within this paper", width, [para("\n".join(record.attached) or "none")]),
    ]


def to_pdf(record: Evidence, *, head: Head | None, size: str = "A4") -> bytes:
    """The paper as a file, the same bytes for the same record and head. Without a head it is a preview, marked so."""
    return bound(story(record, size), DOCUMENT, record.title, record.issue, head, size)


def _addressed(recipient: str) -> str:
    return f"to {recipient}" if recipient.strip() else ""


def _claim(claim: str) -> str:
    return f"claim {claim}" if claim.strip() else "claim number not recorded"


def _restriction(release: Release, width: float) -> list[Flowable]:
    told = release.restriction
    return [called_out("Released with a restriction:", told, width), spaced(6)] if told.strip() else []


def _identity(identity: Identity, width: float) -> Flowable:
    known = facts(identity_facts(identity))
    return side_by_side(known[:2], known[2:], width)


def _fitting(fitting: Fitting) -> list[tuple[str, str]]:
    return [
        ("Part", fitting.part),
        ("Corner", fitting.corner),
        ("Number", fitting.number),
        ("Serial or batch", fitting.serial),
        ("Fitted", fitting.fitted),
        ("Odometer", fitting.odometer),
        ("Bought", fitting.bought),
        ("Purchase invoice", fitting.purchase_invoice),
        ("Fitting invoice", fitting.fitting_invoice),
        ("Kit", fitting.kit),
    ]


def _failure(failure: Failure) -> list[tuple[str, str]]:
    return [
        ("First noticed", failure.noticed),
        ("Reported", failure.reported),
        ("Removed", failure.removed),
        ("Odometer", failure.odometer),
        ("In service", failure.in_service),
        ("Term", failure.term),
        ("Where it is", failure.where_it_is),
        ("Replaced by", failure.replaced_by),
        ("Authority", failure.authority),
    ]


def _blocks(record: Evidence, width: float) -> list[Flowable]:
    fitted = ("When it was fitted", _fitting(record.fitting))
    if record.failure is None:
        alone = [*facts(fitted[1]), *facts([("Failure", "no failure of this part is recorded")])]
        return section(fitted[0], width, alone)
    return two_blocks(fitted, ("When it failed", _failure(record.failure)), width)


def _deeds(deeds: tuple[Deed, ...], width: float) -> list[Flowable]:
    rows = [(deed.at, deed.who, deed.meaning, deed.what) for deed in deeds]
    return ruled("Who did what, when", ("When", "Who", "Signed as", "What"), (20, 22, 11, 47), rows, width)
