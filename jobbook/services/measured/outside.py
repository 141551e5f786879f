"""Whether what was reached lies within the limits of its figure, and the sentence where it does not."""

from fractions import Fraction

from jobbook.core.figures.stages import Stage
from jobbook.core.figures.torque import other_unit_hint
from jobbook.core.quantities import Quantity, read_quantity
from jobbook.core.work.model import Act
from jobbook.core.work.state import State, called
from jobbook.services.measured.adapters import accepted, got, has_adapter, rounded
from jobbook.services.sheet.bay import stage_of


def outside_limits(act: Act, state: State) -> str:
    """The sentence for a value reached outside its limits, with a slip of the unit named; empty where it is inside."""
    stage = stage_of(state, act.on, act.stage) if act.do == "tighten" else None
    if stage is None or stage.kind != "torque":
        return ""
    if has_adapter(act):
        return _outside(act, got(act), accepted(stage), stage, state)
    if stage.tolerance is None or act.reached.startswith("clicked"):
        return ""
    return _outside(act, read_quantity(act.reached, "torque"), stage.limits(), stage, state)


def _outside(act: Act, reached: Quantity, limits: tuple[Fraction, Fraction], stage: Stage, state: State) -> str:
    low, high = limits
    if low <= reached.in_unit(stage.quantity.unit) <= high:
        return ""
    ends = [Quantity("torque", end, stage.quantity.unit) for end in (low, high)]
    hints = " or ".join(rounded(hint, hint.unit).text() for hint in other_unit_hint(reached, *ends))
    slip = f" {hints} would fit: look at the unit." if hints else ""
    return f"{called(state, act.on)} reached {act.reached}, asked for {ends[0].text()} to {ends[1].text()}.{slip}"
