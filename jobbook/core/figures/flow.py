"""Air through a valve and through a hole: ISO 6358 for the one, an ideal nozzle for the other."""

import math
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.air import ATMOSPHERE, REFERENCE
from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity

ANR_DENSITY = 1.185  # kg/m³, reference air of ISO 8778: 100 kPa, 20 °C, 65 % relative humidity; from memory

GAS = 287.05  # J/(kg·K), dry air
RATIO_OF_HEATS = 1.4  # dry air

CRITICAL = (2 / (RATIO_OF_HEATS + 1)) ** (RATIO_OF_HEATS / (RATIO_OF_HEATS - 1))  # 0.5283 for air


@dataclass(frozen=True)
class Flow:
    """Flow in litres of reference air a minute, and whether it is choked."""

    flow_l_min_anr: float
    choked: bool


@dataclass(frozen=True)
class Hole:
    """A hole, and what goes through it to the open air."""

    flow_l_min_anr: float
    leak_rate_pa_m3_s: float
    diameter_mm: float


def flow(
    conductance: Quantity, critical_ratio: Fraction, upstream: Quantity, downstream: Quantity, temperature: Quantity
) -> Flow:
    """Return the flow through a component [L/min of reference air]: C·p1·√(T0/T1), less where it is not choked.

    conductance C [dm3/s/bar], critical_ratio b [1], upstream p1 and downstream p2 absolute [bar], temperature T1
    upstream [K]. Above the ratio b the flow falls by √(1 − ((p2/p1 − b)/(1 − b))²); at it the flow is choked. Range:
    p2 up to p1. Errors: a pressure downstream above the one upstream. Source: ISO 6358.
    """
    first, second = upstream.in_unit("bar"), downstream.in_unit("bar")
    if second > first:
        raise unfit("downstream", f"{downstream.text()} is more than {upstream.text()} upstream", "exchange them")
    beyond = (second / first - critical_ratio) / (1 - critical_ratio)
    share = math.sqrt(1 - beyond**2) if beyond > 0 else 1.0
    most = conductance.in_unit("dm3/s/bar") * first * 60
    return Flow(float(most) * math.sqrt(REFERENCE / temperature.in_unit("K")) * share, beyond <= 0)


def hole(
    upstream: Quantity,
    temperature: Quantity,
    discharge: Fraction,
    diameter: Quantity | None = None,
    leak_rate: Quantity | None = None,
) -> Hole:
    """Return flow and size of a round hole to the open air, from its diameter or from a leak rate.

    upstream absolute [Pa], temperature upstream [K], discharge coefficient [1, 0.6 to 0.85 for real holes], diameter
    [mm] or leak_rate referred to 20 °C [Pa*m3/s]. Ideal nozzle, choked from 1.893 atmospheres on. Range: above the
    atmosphere. Errors: no pressure to drive a flow. Source: isentropic flow of an ideal gas; ISO 8778 for the
    reference air.
    """
    if upstream.in_unit("Pa") <= ATMOSPHERE:
        raise unfit("upstream", f"{upstream.text()} absolute is not above the open air", "add the atmosphere to gauge")
    flux = float(discharge) * mass_flux(float(upstream.in_unit("Pa")), float(temperature.in_unit("K")))
    reference = GAS * float(REFERENCE)
    if diameter:
        mass = flux * math.pi / 4 * (float(diameter.in_unit("mm")) / 1000) ** 2
    elif leak_rate:
        mass = float(leak_rate.in_unit("Pa*m3/s")) / reference
    else:
        raise unfit("diameter", "neither it nor leak_rate is given", "give one of them")
    across = 1000 * math.sqrt(mass / flux * 4 / math.pi)
    return Hole(mass / ANR_DENSITY * 60_000, mass * reference, across)


def mass_flux(upstream: float, temperature: float) -> float:
    """Return the mass flux [kg/(s·m²)] of an ideal nozzle to the open air from a pressure [Pa] and temperature [K]."""
    k = RATIO_OF_HEATS
    ratio = max(float(ATMOSPHERE) / upstream, CRITICAL)
    shape = 2 * k / (k - 1) * (ratio ** (2 / k) - ratio ** ((k + 1) / k))
    return upstream * math.sqrt(shape / (GAS * temperature))
