"""What every paper is built from: section headings, facts beside their labels, ruled tables, blocks side by side."""

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Paragraph, Spacer, Table, TableStyle

from jobbook.core.drawing import mark, mark_of_answer
from jobbook.paperwork import sheet
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.typed import para, told, typed

NONE_RECORDED = "none recorded"

_SECTION_GAP = 9.0
_LEAST_BELOW = 64.0  # a heading, its rule and three lines: with less room than that the section begins on a new page
_LEAST_OF_ROW = 40  # of a row that must split, at least three lines stay on this page
_MOST_LINES = 20  # of a cell, reckoned at half the type size a letter
_LONG_ROW = 300.0  # points; a row taller than that may split over pages
_MOST_OF_PAGE = 400.0  # what is left of a page whose text has only just begun
_SIDE_BY_SIDE = 900  # letters in one of two blocks; with more the blocks stand one under the other

Cell = str | Flowable
Command = tuple[str, tuple[int, int], tuple[int, int], *tuple[Any, ...]]


def spaced(height: float = _SECTION_GAP) -> Spacer:
    return Spacer(1, height)


def heading(title: str, width: float) -> Table:
    """A section's title over a thin rule."""
    table = Table([[Paragraph(typed(title), sheet.style("section"))]], colWidths=[width])
    table.setStyle(TableStyle([*_flush(2.5), ("LINEBELOW", (0, 0), (-1, -1), sheet.HAIRLINE, sheet.colour("soft"))]))
    return table


def section(title: str, width: float, content: Sequence[Flowable]) -> list[Flowable]:
    """A titled section of flowing text. Its title is never left alone at the foot of a page."""
    return [spaced(), CondPageBreak(_LEAST_BELOW), heading(title, width), spaced(3), *content]


def fact(label: str, text: str, bold: bool = False, width: float = sheet.LABEL_WIDTH) -> Paragraph:
    """A label of ours and what stands beside it, of any length. Missing text prints "not recorded"."""
    return Paragraph(told(text), sheet.hanging(bold, width), bulletText=label)


def facts(pairs: Sequence[tuple[str, str]], width: float = sheet.LABEL_WIDTH) -> list[Flowable]:
    return [fact(label, text, width=width) for label, text in pairs]


def _flush(below: float, above: float = 0.0) -> list[Command]:
    return [
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), above),
        ("BOTTOMPADDING", (0, 0), (-1, -1), below),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ]


def side_by_side(left: Sequence[Flowable], right: Sequence[Flowable], width: float) -> Flowable:
    """Two blocks beside each other, whole on one page where they fit on one; `column` is the width of each."""
    each = column(width)
    table = Table([[list(left), "", list(right)]], colWidths=[each, sheet.GUTTER, each], splitInRow=_LEAST_OF_ROW)
    table.setStyle(TableStyle(_flush(0)))
    return KeepTogether([table])


def column(width: float) -> float:
    return (width - sheet.GUTTER) / 2


Block = tuple[str, Sequence[tuple[str, str]]]


def two_blocks(first: Block, second: Block, width: float) -> list[Flowable]:
    """Two titled blocks of facts: side by side, or one under the other where one of them is long."""
    longest = max(sum(len(text) for _, text in pairs) for _, pairs in (first, second))
    if longest > _SIDE_BY_SIDE:
        return [f for title, pairs in (first, second) for f in section(title, width, facts(pairs))]
    halves = [[heading(title, column(width)), spaced(3), *facts(pairs)] for title, pairs in (first, second)]
    return [spaced(7), side_by_side(halves[0], halves[1], width)]


class _Ruled(Table):
    """A table whose rows stay whole, except one too long for that: it may split, at best from the top of a page."""

    continued = False

    def split(self, width: float, height: float) -> list[Any]:
        drawn: Any = self
        drawn._calc(width, height)
        long = drawn._rowHeights[drawn.repeatRows] > _LONG_ROW and (not self.continued or height > _MOST_OF_PAGE)
        drawn.splitInRow = _LEAST_OF_ROW if long else 0
        pieces = super().split(width, height)
        for piece in pieces[1:]:
            piece.continued = True  # type: ignore[attr-defined]
        return pieces


def ruled(
    title: str,
    heads: Sequence[str],
    shares: Sequence[float],
    rows: Sequence[Sequence[Cell]],
    width: float,
    figures: int = 0,
) -> list[Flowable]:
    """A titled table with thin rules. Title and column heads come again on every page that it runs on to.

    `shares` divide the width; the last so many columns are `figures` and stand to the right. A row stays whole; text
    too long for its cell stands in full below the table.
    """
    if not rows:
        return section(title, width, [Paragraph(NONE_RECORDED, sheet.style("body"))])
    widths = [width * share / sum(shares) for share in shares]
    below: list[str] = []
    kinds = ["cell"] * (len(heads) - figures) + ["figure"] * figures
    named: list[list[Cell]] = [
        [Paragraph(typed(head), sheet.style(f"{kind}-head")) for head, kind in zip(heads, kinds, strict=True)]
    ]
    cells = named + [
        [_set(cell, room, below, kind) for cell, room, kind in zip(row, widths, kinds, strict=True)] for row in rows
    ]
    blank: list[Cell] = [""] * (len(heads) - 1)
    table = _Ruled([[title, *blank], *cells], colWidths=widths, repeatRows=2)
    table.setStyle(TableStyle([*_flush(3.2, 3.2), *_RULES]))
    notes = [fact(f"[n{number}]", text, width=26) for number, text in enumerate(below, start=1)]
    return [spaced(_SECTION_GAP - 3), table, *([spaced(3)] if notes else []), *notes]


def _set(cell: Cell, width: float, below: list[str], kind: str) -> Flowable:
    """The cell as it is set; text of more than some twenty lines goes to `below` and leaves its mark here."""
    if isinstance(cell, Flowable):
        return cell
    lines = len(cell) * sheet.style("cell").fontSize / 2 / width + cell.count("\n")
    if lines <= _MOST_LINES:
        return para(cell, kind)
    below.append(cell)
    return Paragraph(f"in full below [n{len(below)}]", sheet.style("cell"))


_TITLE = sheet.style("section")
_RULES: list[Command] = [
    ("RIGHTPADDING", (0, 0), (-2, -1), 6),
    ("FONT", (0, 0), (0, 0), _TITLE.fontName, _TITLE.fontSize, _TITLE.leading),
    ("TEXTCOLOR", (0, 0), (0, 0), _TITLE.textColor),
    ("BOTTOMPADDING", (0, 0), (-1, 0), 2.5),
    ("LINEBELOW", (0, 0), (-1, 0), sheet.HAIRLINE, sheet.colour("soft")),
    ("VALIGN", (0, 1), (-1, 1), "BOTTOM"),
    ("LINEBELOW", (0, 1), (-1, 1), sheet.THIN, sheet.colour("ink")),
    ("LINEBELOW", (0, 2), (-1, -1), sheet.HAIRLINE, sheet.colour("rule")),
]


def mark_cell(kind: str) -> Painted:
    """A mark, for the first cell of a row."""
    return Painted(mark(kind, sheet.style("cell").leading))


def answer_mark(answer: str) -> Painted:
    return mark_cell(mark_of_answer(answer))


def called_out(lead: str, text: str, width: float) -> Table:
    """Something that must not be overlooked: a bar at its left, its lead and its text in semibold."""
    table = Table([[Paragraph(f"{typed(lead)} {told(text)}", sheet.style("call"))]], colWidths=[width], splitInRow=20)
    bar: Command = ("LINEBEFORE", (0, 0), (0, -1), 3.0, sheet.colour("ink"), "butt")
    table.setStyle(TableStyle([*_flush(4, 2), ("LEFTPADDING", (0, 0), (-1, -1), 10), bar]))
    return table


def signatures(first: str, second: str, width: float, under: Sequence[Flowable] = ()) -> list[Flowable]:
    """Two lines to sign on by hand. What they stand under stays with them, so that nobody signs an empty page."""
    said = [Paragraph(f"{typed(label)}: name, date, signature", sheet.style("note")) for label in (first, second)]
    table = Table([[said[0], "", said[1]]], colWidths=[column(width), sheet.GUTTER, column(width)])
    lines: list[Command] = [("LINEABOVE", (i, 0), (i, 0), sheet.HAIRLINE, sheet.colour("ink")) for i in (0, 2)]
    table.setStyle(TableStyle([*_flush(0), *lines]))
    above = [flowable for flowable in under if not isinstance(flowable, CondPageBreak)]
    return [CondPageBreak(_LEAST_BELOW), KeepTogether([*above, spaced(38), table])]
