"""The joint sheet: in full for the warranty desk, short and plain for the customer."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable, Paragraph

from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import ruled
from jobbook.paperwork.typed import told, typed


@dataclass(frozen=True)
class JointRow:
    """One joint as it was closed. `specification` ends with the mark of its source ("70 N·m ± 5 %, +90° [1]");
    `reached` is a value or "clicked at 70"; `checked` says who, when and in which manner."""

    joint: str
    pieces: str = ""
    specification: str = ""
    reached: str = ""
    condition: str = ""
    tool: str = ""
    by: str = ""
    checked: str = ""


@dataclass(frozen=True)
class PlainJoint:
    """One joint for the customer: what it is, that it was tightened and at which height, who did it, who checked it."""

    joint: str
    tightened: str = ""
    by: str = ""
    checked: str = ""


@dataclass(frozen=True)
class Source:
    """A footnote: its mark ("1") and the document, edition and reader of the figures that carry it."""

    mark: str
    text: str


def joint_sheet(joints: Sequence[JointRow], sources: Sequence[Source], width: float) -> list[Flowable]:
    """The joint sheet, and under it the document and edition of every figure."""
    rows = [(j.joint, j.pieces, j.specification, j.reached, j.condition, j.tool, j.by, j.checked) for j in joints]
    heads = ("Joint", "New pieces", "Specification", "Reached", "Condition", "Tool, calibrated", "By", "Second check")
    return [*ruled("Joints closed", heads, (13, 11, 14, 11, 11, 13, 13, 14), rows, width), *footnotes(sources)]


def footnotes(sources: Sequence[Source]) -> list[Flowable]:
    return [Paragraph(f"[{typed(s.mark)}] {told(s.text)}", sheet.style("note")) for s in sources]


def plain_joints(joints: Sequence[PlainJoint], width: float) -> list[Flowable]:
    """The joints for the customer: short and plain."""
    rows = [(j.joint, j.tightened, j.by, j.checked) for j in joints]
    heads = ("Joint", "Tightened", "By", "Checked by a second person")
    return ruled("Joints tightened", heads, (27, 31, 17, 25), rows, width)
