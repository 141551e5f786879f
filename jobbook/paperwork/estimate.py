"""The estimate: what the work will cost, line by line, what it leaves out, and what was declined."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from reportlab.platypus import Flowable, Paragraph, Table, TableStyle

from jobbook.paperwork import sheet
from jobbook.paperwork.answers import Answer, answers_table
from jobbook.paperwork.blocks import facts, mark_cell, ruled, section, spaced, two_blocks
from jobbook.paperwork.frame import bound, inner_width
from jobbook.paperwork.issue import Head, Identity, Issue, Party, identity_facts, under_title
from jobbook.paperwork.signed import Allowed, Drawn, allowed_block, to_sign
from jobbook.paperwork.typed import para, typed

FIGURES = 4  # the last columns of the lines
SUM_WIDTH = 96.0


@dataclass(frozen=True)
class EstimateLine:
    """One line: `mark` is that of its state; an empty price prints as not known yet."""

    mark: str
    what: str
    beside: str = ""  # part number, condition, who pays
    quantity: str = ""
    each: str = ""
    tax: str = ""
    net: str = ""


@dataclass(frozen=True)
class Estimate:
    """Every word and figure of the paper. `word` is estimate, quotation or evaluation; `sums` are labels with amounts,
    the last of which is the total; `shares` say who pays how much of it."""

    issue: Issue
    word: str
    title: str
    customer: Party = field(default_factory=Party)
    identity: Identity = field(default_factory=Identity)
    visit: tuple[tuple[str, str], ...] = ()
    lines: tuple[EstimateLine, ...] = ()
    sums: tuple[tuple[str, str], ...] = ()
    missing: str = ""  # what makes the sum incomplete
    left_out: tuple[EstimateLine, ...] = ()
    terms: tuple[tuple[str, str], ...] = ()
    declined: tuple[Answer, ...] = ()
    allowed: tuple[Allowed, ...] = ()
    cautions: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()
    drawn: tuple[Drawn, ...] = ()
    shares: tuple[tuple[str, str], ...] = ()


def story(record: Estimate, size: str = "A4") -> list[Flowable]:
    width = inner_width(size)
    customer = (("Customer", record.customer.name), ("Address", record.customer.address))
    return [
        para(record.title, "title"),
        para(under_title(record.issue, f"for {record.customer.name}" if record.customer.name.strip() else ""), "under"),
        *two_blocks(("Vehicle", identity_facts(record.identity)), ("Visit", [*customer, *record.visit]), width),
        *_lines("What it will cost", record.lines, width),
        *_sums(record, width),
        *(_lines("Declined or struck: not in the sum", record.left_out, width) if record.left_out else ()),
        *section("Terms", width, facts(record.terms)),
        *answers_table(record.declined, width, "Declined by the customer"),
        *allowed_block(record.allowed, width),
        *_cautions(record.cautions, width),
        *to_sign("Accepted by the customer", record.drawn, width, record.notices),
    ]


def to_pdf(record: Estimate, *, head: Head | None, size: str = "A4") -> bytes:
    """The paper as a file, the same bytes for the same record and head. Without a head it is a preview, marked so."""
    document = f"{record.word[:1].upper()}{record.word[1:]}"
    return bound(story(record, size), document, record.title, record.issue, head, size)


def _lines(title: str, lines: Sequence[EstimateLine], width: float) -> list[Flowable]:
    rows = [_row(one) for one in lines]
    heads = ("", "What", "Quantity", "Each", "Tax", "Before tax")
    return ruled(title, heads, (3, 50, 11, 13, 9, 14), rows, width, FIGURES)


def _row(one: EstimateLine) -> tuple[Flowable | str, ...]:
    what = "\n".join(filter(None, (one.what, one.beside)))
    each, net = (amount or "not known yet" for amount in (one.each, one.net))
    return mark_cell(one.mark), what, one.quantity, each, one.tax, net


def _sums(record: Estimate, width: float) -> list[Flowable]:
    """The sums to the right under the lines; the total is set larger."""
    if not record.sums:
        return []
    last = len(record.sums) - 1
    cells = [
        [Paragraph(typed(text), sheet.style("sum" if row == last else "figure")) for text in pair]
        for row, pair in enumerate((*record.sums, *record.shares))
    ]
    table = Table(cells, colWidths=[width - SUM_WIDTH, SUM_WIDTH], splitInRow=20)
    line = ("LINEABOVE", (1, last), (1, last), sheet.THIN, sheet.colour("ink"))
    flush = [(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT")]
    tight = [(f"{side}PADDING", (0, 0), (-1, -1), 2) for side in ("TOP", "BOTTOM")]
    table.setStyle(TableStyle([line, *flush, *tight]))
    missing: list[Flowable] = [para(record.missing, "note")] if record.missing else []
    return [spaced(3), table, *missing]


def _cautions(cautions: Sequence[str], width: float) -> list[Flowable]:
    if not cautions:
        return []
    lines: list[Flowable] = [Paragraph(typed(line), sheet.hanging(False, 10), bulletText="–") for line in cautions]
    return section("Until it is done", width, lines)
