"""Parts, single-use pieces and tools, as tables."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.paperwork.blocks import ruled


@dataclass(frozen=True)
class FittedPart:
    """A part that went on. `condition` is new, reconditioned, used or customer-supplied; `kit` what came with it."""

    part: str
    corner: str = ""
    number: str = ""
    serial: str = ""
    condition: str = ""
    kit: str = ""


@dataclass(frozen=True)
class OldPart:
    """A part that came off: where it is, and what was agreed about it."""

    part: str
    where: str = ""
    agreed: str = ""


@dataclass(frozen=True)
class Piece:
    """Single-use pieces of one kind: how many the method needs, were issued, fitted and discarded, and their batch."""

    piece: str
    needed: str = ""
    issued: str = ""
    fitted: str = ""
    discarded: str = ""
    batch: str = ""


@dataclass(frozen=True)
class Tool:
    """A tool that was signed with, as it stood that day."""

    number: str
    kind: str = ""
    range: str = ""
    calibrated: str = ""
    due: str = ""
    certificate: str = ""
    note: str = ""


def parts_table(parts: Sequence[FittedPart], width: float) -> list[Flowable]:
    rows = [(p.part, p.corner, p.number, p.serial, p.condition, p.kit) for p in parts]
    heads = ("Part", "Corner", "Number", "Serial or batch", "Condition", "Came with")
    return ruled("Parts fitted", heads, (14, 7, 14, 14, 16, 35), rows, width)


def old_parts_block(parts: Sequence[OldPart], width: float) -> list[Flowable]:
    said = [(part.part, "\n".join(t for t in (part.where, part.agreed) if t.strip())) for part in parts]
    rows = [(part, where) for part, where in said]
    return ruled("Old parts", ("Part", "Where it is, what was agreed"), (32, 68), rows, width)


def pieces_table(pieces: Sequence[Piece], width: float) -> list[Flowable]:
    rows = [(p.piece, p.needed, p.issued, p.fitted, p.discarded, p.batch) for p in pieces]
    heads = ("Piece", "Needed", "Issued", "Fitted", "Old discarded", "Batch, from")
    return ruled("Single-use pieces", heads, (28, 9, 9, 9, 13, 32), rows, width)


def tools_table(tools: Sequence[Tool], width: float) -> list[Flowable]:
    rows = [(t.number, t.kind, t.range, t.calibrated, t.due, t.certificate, t.note) for t in tools]
    heads = ("Tool", "Kind", "Range", "Calibrated", "Due", "Certificate", "Note")
    return ruled("Tools", heads, (9, 17, 16, 14, 14, 17, 13), rows, width)
