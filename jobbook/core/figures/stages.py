"""The stages of a tightening, as makers print them: 50 N*m, then +90 deg. Each is one act; angles are never added."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from jobbook.core.errors import Refused
from jobbook.core.quantities import Quantity, Unclear, read_quantity

MOST_STAGES = 12

LONGEST = 400

_BETWEEN = re.compile(r" *(?:,(?![0-9])|(?<![0-9]),|;|\bthen\b) *| +(?=\+)|(?<=[A-Za-z°′%])(?=\+)")


@dataclass(frozen=True)
class Stage:
    """One stage: a torque to reach, or a further angle. `tolerance` is a share in %, or of the stage's own kind."""

    kind: str
    quantity: Quantity
    tolerance: Quantity | None = None

    @property
    def exact(self) -> str:
        """The stage as it is kept: +90 deg, or 50 N*m ± 10 %."""
        return self._written(lambda quantity: f"{quantity.exact} {quantity.unit}")

    def text(self) -> str:
        """Return the stage written for people."""
        return self._written(Quantity.text)

    def limits(self) -> tuple[Fraction, Fraction]:
        """Return the lowest and the highest accepted amount in the unit of the stage; alike without a tolerance."""
        middle = Fraction(self.quantity.amount)
        if not self.tolerance:
            return middle, middle
        if self.tolerance.kind == "ratio":
            apart = middle * self.tolerance.in_unit("1")
        else:
            apart = self.tolerance.in_unit(self.quantity.unit)
        return middle - apart, middle + apart

    def _written(self, write: Callable[[Quantity], str]) -> str:
        sign = "+" if self.kind == "angle" else ""
        return sign + write(self.quantity) + (f" ± {write(self.tolerance)}" if self.tolerance else "")


def parse_stages(text: str, tolerance: str = "") -> tuple[Stage, ...]:
    """Return the stages of a text such as `50 N*m, then +90 deg` or `50 N*m +90 deg +90 deg`.

    `tolerance` (`± 10 %`) holds for every stage that has none of its own and that it can be said of. Refused: what
    cannot be read, a torque with a plus, an angle without one, a torque after an angle or below the one before it.
    Unclear as in quantities.
    """
    pieces = [piece for piece in _BETWEEN.split(_plain(text)) if piece]
    if not 1 <= len(pieces) <= MOST_STAGES:
        raise _not_taken(f"there are {len(pieces)} of them", f"type one to {MOST_STAGES}, as 50 N*m, then +90 deg")
    general = _plain(tolerance).removeprefix("±").strip()
    stages = tuple(_stage(piece, general) for piece in pieces)
    for before, after in pairwise(stages):
        _look_at_order(before, after)
    return stages


def stages_text(stages: tuple[Stage, ...]) -> str:
    """Return the stages written for people: 50 N·m, then +90°, then +90°."""
    return ", then ".join(stage.text() for stage in stages)


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        raise _not_taken(f"the text is longer than {LONGEST} characters", "type the stages alone")
    return re.sub(r"\+ ?/? ?[-−] ?", "±", " ".join(text.split()))


def _stage(piece: str, general: str) -> Stage:
    figure, _, own = (part.strip() for part in piece.partition("±"))
    quantity = _torque_or_angle(figure)
    if (quantity.kind == "angle") != figure.startswith("+") or quantity.amount <= 0:
        why = f"“{figure}” is a torque with a plus, an angle without one, or not above nought"
        raise _not_taken(why, "type it like 50 N*m or +90 deg")
    tolerance = _own_tolerance(own, quantity) if own else _general_tolerance(general, quantity)
    if tolerance and not 0 <= Stage(quantity.kind, quantity, tolerance).limits()[0] <= quantity.amount:
        raise _not_taken(
            f"± {tolerance.text()} of {quantity.text()} reaches below nought", "look at the document again"
        )
    return Stage(quantity.kind, quantity, tolerance)


def _torque_or_angle(figure: str) -> Quantity:
    kinds = ("angle", "torque") if figure.startswith("+") else ("torque", "angle")
    try:
        return read_quantity(figure, kinds[0])
    except Unclear:
        raise
    except Refused as first:
        quantity = _first_that_reads(figure, kinds[1:])
        if quantity is None:
            raise first
        return quantity


def _own_tolerance(text: str, of: Quantity) -> Quantity:
    tolerance = _first_that_reads(text, ("ratio", of.kind))
    if tolerance is None:
        raise _not_taken(f"± {text} is no tolerance of {of.text()}", "type it like ± 10 % or in the same unit")
    return tolerance


def _general_tolerance(text: str, of: Quantity) -> Quantity | None:
    """Return the tolerance as far as it can be said of this stage: one in N*m says nothing about an angle."""
    if not text:
        return None
    tolerance = _first_that_reads(text, ("ratio", "torque", "angle"))
    if tolerance is None:
        raise _not_taken(f"± {text} is no tolerance", "type it like ± 10 %")
    return tolerance if tolerance.kind in ("ratio", of.kind) else None


def _first_that_reads(text: str, kinds: tuple[str, ...]) -> Quantity | None:
    for kind in kinds:
        try:
            return read_quantity(text, kind)
        except Refused:
            continue
    return None


def _look_at_order(before: Stage, after: Stage) -> None:
    if after.kind == "angle":
        return
    if before.kind == "angle":
        raise _not_taken("a torque after an angle cannot be reached", "type the torques first, then the angles")
    if after.quantity.in_unit("N*m") < before.quantity.in_unit("N*m"):
        why = f"{after.quantity.text()} after {before.quantity.text()} would not turn the fastener"
        raise _not_taken(why, "look at the document again")


def _not_taken(why: str, do: str) -> Refused:
    return Refused(f"No stages were taken: {why}; {do}.")
