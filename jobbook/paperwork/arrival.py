"""The arrival paper: what was handed over, in what state, and what may be done with it."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from reportlab.platypus import Flowable

from jobbook.core.drawing import height_staffs
from jobbook.paperwork.answers import Answer, answers_table
from jobbook.paperwork.blocks import (
    NONE_RECORDED,
    column,
    fact,
    facts,
    heading,
    section,
    side_by_side,
    spaced,
    two_blocks,
)
from jobbook.paperwork.frame import bound, inner_width
from jobbook.paperwork.heights import Heights
from jobbook.paperwork.issue import Head, Identity, Issue, Party, identity_facts, under_title
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.signed import Allowed, Drawn, allowed_block, to_sign
from jobbook.paperwork.typed import para

DOCUMENT = "Arrival of the vehicle"
NARROW = 54.0


@dataclass(frozen=True)
class Arrival:
    """Every word of the paper. `state` and `handed` are labels with what stands beside them; empty text prints "not
    recorded". `notices` are the sentences of the shop's country profile, `cautions` those of this visit."""

    issue: Issue
    title: str
    customer: Party = field(default_factory=Party)
    phone: str = ""
    identity: Identity = field(default_factory=Identity)
    visit: tuple[tuple[str, str], ...] = ()
    handed: tuple[tuple[str, str], ...] = ()
    state: tuple[tuple[str, str], ...] = ()
    concerns: tuple[str, ...] = ()
    heights: Heights = field(default_factory=Heights)
    allowed: tuple[Allowed, ...] = ()
    terms: tuple[tuple[str, str], ...] = ()
    declined: tuple[Answer, ...] = ()
    notices: tuple[str, ...] = ()
    drawn: tuple[Drawn, ...] = ()


def story(record: Arrival, size: str = "A4") -> list[Flowable]:
    width = inner_width(size)
    customer = (("Customer", record.customer.name), ("Address", record.customer.address), ("Telephone", record.phone))
    return [
        para(record.title, "title"),
        para(under_title(record.issue), "under"),
        *two_blocks(("Vehicle", identity_facts(record.identity)), ("Visit", [*customer, *record.visit]), width),
        *_concerns(record.concerns, width),
        *two_blocks(("Handed over", record.handed), ("In this state", record.state), width),
        *_heights(record.heights, width),
        *allowed_block(record.allowed, width),
        *section("Said with it", width, facts(record.terms)),
        *(answers_table(record.declined, width, "Declined by the customer") if record.declined else ()),
        *to_sign("Handed over and allowed by the customer", record.drawn, width, record.notices),
    ]


def to_pdf(record: Arrival, *, head: Head | None, size: str = "A4") -> bytes:
    """The paper as a file, the same bytes for the same record and head. Without a head it is a preview, marked so."""
    return bound(story(record, size), DOCUMENT, record.title, record.issue, head, size)


def _concerns(concerns: Sequence[str], width: float) -> list[Flowable]:
    said: list[Flowable] = [
        fact(f"Concern {n}" if len(concerns) > 1 else "Concern", f"“{words}”" if words.strip() else "", bold=True)
        for n, words in enumerate(concerns, start=1)
    ]
    return section("In the customer's words", width, said or [para(NONE_RECORDED)])


def _heights(heights: Heights, width: float) -> list[Flowable]:
    drawn = Painted(height_staffs(heights.corners, column(width))) if heights.corners else para(NONE_RECORDED)
    left = [heading(f"Heights as it stood, {heights.unit}", column(width)), spaced(4), drawn]
    how = facts((("Measured", heights.points), ("Read", heights.before)), NARROW)
    right = [heading("How they were measured", column(width)), spaced(3), *how]
    return [spaced(7), side_by_side(left, right, width)]
