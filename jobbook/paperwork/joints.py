"""The joint sheet: in full for the warranty desk, short and plain for the customer."""

from dataclasses import dataclass


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
