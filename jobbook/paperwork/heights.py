"""Heights with their staffs, and the leak-down stand with its chart."""

from dataclasses import dataclass

from jobbook.core.drawing import CornerHeights, Curve


@dataclass(frozen=True)
class Heights:
    """Heights per corner, where they were measured, under which conditions, and where the limits stand.

    `before` and `after` say when, by whom, with what and at which temperature; `limits` names figures and source marks.
    """

    corners: tuple[CornerHeights, ...] = ()
    points: str = ""
    limits: str = ""
    before: str = ""
    after: str = ""


@dataclass(frozen=True)
class LeakDown:
    """One stand: its curves, the first and last reading in words, what the dashes mean, conditions, and the reckoning."""

    curves: tuple[Curve, ...] = ()
    start: str = ""
    end: str = ""
    note: str = ""
    conditions: str = ""
    reckoning: str = ""
