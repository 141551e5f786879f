"""Tools that are used to sign: range, calibration, fitness."""

from dataclasses import dataclass

KINDS = {
    "click wrench": "gives only that it clicked at the set value",
    "electronic wrench": "shows the value reached",
    "beam or dial wrench": "shows the value reached",
    "angle gauge": "shows the angle",
    "pressure gauge": "shows the pressure",
    "rule or tape": "shows a length",
    "wheel aligner": "shows camber, caster and toe",
    "scan tool": "reads codes and runs routines",
}


@dataclass(frozen=True)
class Tool:
    """One tool of the crib. Range ends, `resolution` (its smallest division) and `uncertainty` (of its certificate,
    k = 2) are exact decimal text in `unit`; dates are ISO text; all are empty when not recorded."""

    number: str
    kind: str
    low: str = ""
    high: str = ""
    unit: str = "N·m"
    calibrated_on: str = ""
    due_on: str = ""
    certificate: str = ""
    laboratory: str = ""
    status: str = "in use"  # in use, quarantined, scrapped, outside (borrowed, certificate unknown)
    resolution: str = ""
    uncertainty: str = ""

    @property
    def range_text(self) -> str:
        return f"{self.low} to {self.high} {self.unit}" if self.high else ""
