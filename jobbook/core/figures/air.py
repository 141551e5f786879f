"""Air in a closed volume: what leaks, what cooling alone does, how a spring sinks. Gauge pressures, sea level."""

from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.quantities import Quantity

ATMOSPHERE = Fraction(101325)  # Pa, the standard atmosphere (SI brochure); what gauge pressures count from

REFERENCE = Fraction("293.15")  # K: leak rates are referred to 20 °C, so that two of them can be compared


@dataclass(frozen=True)
class Decay:
    """A leak rate from a fall of pressure: referred to 20 °C, and as it would be if the temperature had not changed."""

    leak_rate_pa_m3_s: Fraction
    without_temperature_pa_m3_s: Fraction


def pressure_decay(
    volume: Quantity,
    start: Quantity,
    end: Quantity,
    start_temperature: Quantity,
    end_temperature: Quantity,
    duration: Quantity,
) -> Decay:
    """Return the leak rate [Pa*m3/s] of a closed volume: V·293.15·(p1/T1 − p2/T2)/t, and V·(p1 − p2)/t beside it.

    volume with its hoses [m3]; start, end gauge pressure [Pa]; start_temperature, end_temperature of the air inside
    [K]; duration [s]. Below nought, air came in or the change was cooling and no leak. Range: a volume that does not
    change, after filling has settled. Errors: none. Source: ideal gas; 40 CFR 1065.644 in its molar form.
    """
    size, seconds = volume.in_unit("m3"), duration.in_unit("s")
    first, second = absolute(start), absolute(end)
    moles = first / start_temperature.in_unit("K") - second / end_temperature.in_unit("K")
    return Decay(size * REFERENCE * moles / seconds, size * (first - second) / seconds)


def cooling(pressure: Quantity, warm: Quantity, cold: Quantity) -> Fraction:
    """Return the gauge pressure [bar] of a rigid closed vessel after its temperature has changed: p·T2/T1.

    pressure gauge [Pa]; warm the first and cold the second temperature [K], whichever is higher. Range: rigid and
    tight; an air spring under load keeps its pressure and loses height instead. Errors: none. Source: ideal gas.
    """
    return (absolute(pressure) * cold.in_unit("K") / warm.in_unit("K") - ATMOSPHERE) / 100_000


def sinking(volume: Quantity, area: Quantity, warm: Quantity, cold: Quantity) -> Fraction:
    """Return how far a tight spring moves [mm] from temperature alone, below nought where it sinks: V/A·(T2 − T1)/T1.

    volume of the air [m3], area that it carries on [m2], warm the first and cold the second temperature [K]. Range:
    constant load, and an area that stays the same over that way. Errors: none. Source: ideal gas at constant pressure.
    """
    start = warm.in_unit("K")
    return volume.in_unit("m3") / area.in_unit("m2") * (cold.in_unit("K") - start) / start * 1000


def height_loss(pressure: Quantity, area: Quantity, height: Quantity, duration: Quantity) -> Fraction:
    """Return the leak rate [Pa*m3/s] of a spring that sinks under constant load: p·A·dz/dt, p absolute.

    pressure gauge [Pa], area [m2], height lost [m], duration [s]. Range: constant load, temperature and area; a
    corner alone that sinks. Errors: none. Source: Q = p·dV/dt, the definition of a leak rate.
    """
    return absolute(pressure) * area.in_unit("m2") * height.in_unit("m") / duration.in_unit("s")


def absolute(pressure: Quantity) -> Fraction:
    """Return a gauge pressure as an absolute one [Pa], at the standard atmosphere."""
    return pressure.in_unit("Pa") + ATMOSPHERE
