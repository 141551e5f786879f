"""Whether a typed torque suits its bolt. It says that something looks wrong and never replaces a specification."""

from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.bolts import assembly, strength, tightened
from jobbook.core.figures.threads import Thread
from jobbook.core.figures.torque import other_unit_hint
from jobbook.core.quantities import Quantity

LOWEST_FRICTION, HIGHEST_FRICTION = Fraction(8, 100), Fraction(16, 100)

# Dry steel on steel at its roughest, by common practice: beyond the torque that breaks the bolt even then, no
# figure for this bolt can lie.
ROUGHEST_FRICTION = 0.30


@dataclass(frozen=True)
class Plausible:
    """The usual torques of a bolt and where the typed one lies; `hint` names a slip of the unit, where one fits."""

    low_nm: float
    high_nm: float
    verdict: str
    hint: str | None


def plausible_torque(torque: Quantity, thread: Thread, grade: str) -> Plausible:
    """Return whether a torque suits a bolt: usual, low, high, or impossible since the bolt would break first.

    torque of a last stage [N*m]. Usual is what brings the bolt to 90 % of its yield point with friction from 0.08 to
    0.16. Low is no fault in itself: a torque with an angle after it is meant to be low. Range: as assembly. Errors:
    a size without bearing data. Source: VDI 2230, 2001 and later, for the limits; the border of impossible is common
    practice.
    """
    low, high = (assembly(thread, grade, mu).torque_nm for mu in (LOWEST_FRICTION, HIGHEST_FRICTION))
    breaks = tightened(thread, strength(thread, grade).tensile, ROUGHEST_FRICTION).torque_nm
    amount = float(torque.in_unit("N*m"))
    borders = (("low", amount < low), ("usual", amount <= high), ("high", amount <= breaks), ("impossible", True))
    return Plausible(low, high, next(name for name, holds in borders if holds), _hint(torque, low, high))


def _hint(torque: Quantity, low: float, high: float) -> str | None:
    limits = (Quantity("torque", Fraction(limit), "N*m") for limit in (low, high))
    return "; ".join(map(_would_be, other_unit_hint(torque, *limits))) or None


def _would_be(other: Quantity) -> str:
    return f"{other.text()} would be {'usual' if other.unit == 'N*m' else other.text('N*m')}"
