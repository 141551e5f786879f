"""The handover paper: what the customer takes home."""

from dataclasses import dataclass, field

from reportlab.platypus import Flowable, Paragraph

from jobbook.paperwork import sheet
from jobbook.paperwork.agreed import Attempt, FoundRow, attempts_table, found_table, price_block
from jobbook.paperwork.answers import (
    Answer,
    Correction,
    Release,
    answers_table,
    corrections_table,
    let_go_table,
)
from jobbook.paperwork.blocks import NONE_RECORDED, called_out, section, signatures, spaced, two_blocks
from jobbook.paperwork.concerns import Concern, concerns_block
from jobbook.paperwork.frame import bound, inner_width
from jobbook.paperwork.geometry import Geometry, geometry_block
from jobbook.paperwork.heights import Heights, heights_block
from jobbook.paperwork.issue import Head, Identity, Issue, Party, identity_facts, under_title
from jobbook.paperwork.joints import PlainJoint, plain_joints
from jobbook.paperwork.parts import FittedPart, OldPart, old_parts_block, parts_table
from jobbook.paperwork.typed import NOT_RECORDED, para, typed

DOCUMENT = "Handover to the customer"


@dataclass(frozen=True)
class Retorque:
    """The visit at which the wheel joints are checked once more: after which distance, by which date, how arranged."""

    after: str = ""
    by: str = ""
    how: str = ""


@dataclass(frozen=True)
class Handover:
    """Every word and figure of the paper, decided before it is set. Empty text prints "not recorded".

    `geometry` is None where none was read, `retorque` where no wheel joint was out. `cautions` are whole sentences,
    see `cautions.CAUTIONS`.
    """

    issue: Issue
    title: str
    customer: Party = field(default_factory=Party)
    identity: Identity = field(default_factory=Identity)
    odometer_in: str = ""
    odometer_out: str = ""
    arrived: str = ""
    concerns: tuple[Concern, ...] = ()
    parts: tuple[FittedPart, ...] = ()
    old_parts: tuple[OldPart, ...] = ()
    heights: Heights = field(default_factory=Heights)
    joints: tuple[PlainJoint, ...] = ()
    answers: tuple[Answer, ...] = ()
    corrections: tuple[Correction, ...] = ()
    release: Release = field(default_factory=Release)
    retorque: Retorque | None = None
    cautions: tuple[str, ...] = ()
    warranty: str = ""
    geometry: Geometry | None = None
    found: tuple[FoundRow, ...] = ()
    price: tuple[tuple[str, str], ...] = ()
    attempts: tuple[Attempt, ...] = ()
    warnings: tuple[str, ...] = ()  # what the vehicle is not safe to drive with


def story(record: Handover, size: str = "A4") -> list[Flowable]:
    """The paper's content in its order, for one use: flowables are spent when they are set."""
    width = inner_width(size)
    return [
        para(record.title, "title"),
        para(under_title(record.issue, f"for {record.customer.name}" if record.customer.name.strip() else ""), "under"),
        *_restriction(record, width),
        *two_blocks(("Vehicle", identity_facts(record.identity)), ("Visit", _visit(record)), width),
        *concerns_block(record.concerns, width),
        *parts_table(record.parts, width),
        *heights_block(record.heights, width),
        *geometry_block(record.geometry, width),
        *plain_joints(record.joints, width),
        *found_table(record.found, width),
        *answers_table(record.answers, width),
        *let_go_table(record.release, width),
        *corrections_table(record.corrections, width),
        *price_block(record.price, width),
        *attempts_table(record.attempts, width),
        *_from_now_on(record, width),
        *old_parts_block(record.old_parts, width),
        *signatures("For the workshop", "Received by the customer", width, _warranty(record, width)),
    ]


def to_pdf(record: Handover, *, head: Head | None, size: str = "A4") -> bytes:
    """The paper as a file, the same bytes for the same record and head. Without a head it is a preview, marked so."""
    return bound(story(record, size), DOCUMENT, record.title, record.issue, head, size)


def _warranty(record: Handover, width: float) -> list[Flowable]:
    return section("Warranty", width, [para(record.warranty)])


def _restriction(record: Handover, width: float) -> list[Flowable]:
    """What must not be overlooked: what is not safe, and what the vehicle may not do."""
    told = [("Not safe to drive:", warning) for warning in record.warnings]
    told += [("Restriction:", record.release.restriction)] if record.release.restriction.strip() else []
    return [flowable for lead, text in told for flowable in (called_out(lead, text, width), spaced(6))]


def _visit(record: Handover) -> list[tuple[str, str]]:
    return [
        ("Customer", record.customer.name),
        ("Address", record.customer.address),
        ("Arrived", record.arrived),
        ("Odometer in", record.odometer_in),
        ("Odometer out", record.odometer_out),
        ("Released", _released(record.release)),
    ]


def _released(release: Release) -> str:
    if not (release.at or release.by):
        return ""
    return f"{release.at or NOT_RECORDED}, by {release.by or NOT_RECORDED}"


def _from_now_on(record: Handover, width: float) -> list[Flowable]:
    """The re-torque visit and what to watch for."""
    watch: list[Flowable] = [
        Paragraph(typed(line), sheet.hanging(False, 10), bulletText="–") for line in record.cautions
    ]
    visit = record.retorque
    if visit is not None:
        watch.insert(0, _visit_to_tighten(visit, width))
        watch.insert(1, spaced(5))
    return section("From now on", width, watch or [para(NONE_RECORDED)])


def _visit_to_tighten(visit: Retorque, width: float) -> Flowable:
    if visit == Retorque():
        return called_out("Re-torque visit:", "its day and distance are named when the vehicle is released.", width)
    said = f"{visit.after or NOT_RECORDED} or {visit.by or NOT_RECORDED}, whichever comes first. {visit.how}"
    return called_out("Re-torque visit after", said, width)
