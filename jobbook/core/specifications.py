"""Figures that the shop read from a maker's document for one variant."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Specification:
    """One figure for one variant. `key` is the method's figure key, or `height FL` ... for ride heights.

    `text` is as typed ("50 N·m, then +90°"); `stages` the exact texts, one a stage; `tolerance` as typed ("± 10 %")."""

    id: int
    variant: str
    key: str
    kind: str
    title: str
    text: str
    stages: tuple[str, ...] = ()
    tolerance: str = ""
    conditions: str = ""
    document: str = ""
    edition: str = ""
    read_by: str = ""
    second_look_by: str = ""
    entered_at: str = ""
    entry: int = 0
