"""Parts, single-use pieces and tools, as tables."""

from dataclasses import dataclass


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
