"""What was allowed, on paper, and signatures: drawn on the screen under the very words, or lines to sign on."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import CondPageBreak, Flowable, Paragraph

from jobbook.core.drawing import Drawing
from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import facts, ruled, section, signatures, spaced
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.typed import para, typed

WIDTH = 150.0  # points of a drawn signature
ROOM = 90.0  # a signature is not parted from the name under it


@dataclass(frozen=True)
class Drawn:
    """A signature that was drawn: who, when, the words that were signed, and their digest. `picture` is None where it
    was erased."""

    name: str
    at: str
    text: str
    digest: str
    picture: Drawing | None = None


@dataclass(frozen=True)
class Allowed:
    """One permission in words: what, by whom and how, and what became of it."""

    what: str
    limit: str = ""
    by: str = ""
    became: str = ""


def allowed_block(allowed: Sequence[Allowed], width: float) -> list[Flowable]:
    rows = [(one.what, "\n".join(filter(None, (one.by, one.became))), one.limit or "none") for one in allowed]
    heads = ("What may be done", "Allowed by", "Up to")
    return ruled("What was allowed", heads, (44, 38, 18), rows, width, figures=1)


def drawn_block(drawn: Sequence[Drawn], width: float) -> list[Flowable]:
    """The signatures that were drawn, each under the words that it stands for; nothing where there is none."""
    if not drawn:
        return []
    content: list[Flowable] = []
    for one in drawn:
        content += [para(one.text), CondPageBreak(ROOM)]
        content += [Painted(one.picture)] if one.picture is not None else []
        content += [*facts((("Signed by", one.name), ("On", one.at), ("Digest", one.digest))), spaced(6)]
    return section("Signed on the screen", width, content)


def to_sign(second: str, drawn: Sequence[Drawn], width: float, notices: Sequence[str] = ()) -> list[Flowable]:
    """What is to be known before signing, and what was signed on the screen, or else lines to sign on by hand."""
    known = notices_block(notices, width)
    if drawn:
        return [*known, *drawn_block(drawn, width)]
    return signatures("For the workshop", second, width, known)


def notices_block(notices: Sequence[str], width: float) -> list[Flowable]:
    """What the customer is told before they sign; nothing where there is nothing."""
    if not notices:
        return []
    lines: list[Flowable] = [Paragraph(typed(line), sheet.hanging(False, 10), bulletText="–") for line in notices]
    return section("To know before you sign", width, lines)
