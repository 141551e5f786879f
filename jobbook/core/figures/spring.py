"""The air spring and its compressor: force, rate and frequency, filling time, duty."""

import math
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.air import ATMOSPHERE, absolute
from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity

FALL = 9.80665  # m/s², standard acceleration of free fall (SI brochure)


@dataclass(frozen=True)
class Spring:
    """What an air spring carries, how stiff it is, and how fast the load on it bounces."""

    force_n: Fraction
    rate_n_mm: Fraction
    frequency_hz: float


def air_spring(
    pressure: Quantity, area: Quantity, volume: Quantity, exponent: Fraction, area_gradient: Quantity | None = None
) -> Spring:
    """Return force p·A [N], rate n·(p + pa)·A²/V + p·dA/dz [N/mm] and frequency √(k/m)/2π [Hz].

    pressure gauge [Pa], area that carries [m2], volume of air [m3], exponent n [1: 1 slow, 1.3 to 1.4 fast],
    area_gradient dA/dz, positive where the area grows on compression [m, that is m² a metre]. Range: small movement
    about static height. Errors: a gradient that leaves no stiffness. Source: polytropic change of an ideal gas.
    """
    gauge, carrying = pressure.in_unit("Pa"), area.in_unit("m2")
    force = gauge * carrying
    gradient = area_gradient.in_unit("m") if area_gradient else Fraction(0)
    rate = exponent * absolute(pressure) * carrying**2 / volume.in_unit("m3") + gauge * gradient
    if rate <= 0:
        raise unfit("area_gradient", "it leaves the spring no stiffness", "measure the area at two heights again")
    return Spring(force, rate / 1000, math.sqrt(float(rate / force) * FALL) / (2 * math.pi))


def fill_time(volume: Quantity, start: Quantity, end: Quantity, free_air: Quantity) -> Fraction:
    """Return how long filling takes [s]: V·Δp/(p_atm·free air).

    volume [m3]; start, end gauge pressure [Pa]; free_air that the compressor takes in [m3/s]. Range: a compressor at
    sea level that keeps its delivery, and air that gives off its warmth; filling from a reservoir is another matter.
    Errors: an end below the start. Source: ideal gas at constant temperature.
    """
    rise = end.in_unit("Pa") - start.in_unit("Pa")
    if rise < 0:
        raise unfit("end", f"{end.text()} is below the start of {start.text()}", "exchange them")
    return volume.in_unit("m3") * rise / (ATMOSPHERE * free_air.in_unit("m3/s"))


def duty(run: Quantity, rest: Quantity) -> Fraction:
    """Return the share of running time [%]: run/(run + rest).

    run, rest [s]. Range: whole cycles; what really limits a compressor is its temperature. Errors: neither ran nor
    rested. Source: definition.
    """
    ran, rested = run.in_unit("s"), rest.in_unit("s")
    if not ran + rested:
        raise unfit("run", "run and rest are both nought", "give the times of a whole cycle")
    return 100 * ran / (ran + rested)
