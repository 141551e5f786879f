"""The list of figures, air: leaks, cooling, flow, springs, filling, moisture."""

from fractions import Fraction

from jobbook.core.figures import given as read
from jobbook.core.figures.air import ATMOSPHERE, cooling, height_loss, pressure_decay, sinking
from jobbook.core.figures.figure import Figure, Input, amount, number
from jobbook.core.figures.flow import flow, hole
from jobbook.core.figures.moisture import altitude_pressure, dew_point
from jobbook.core.figures.spring import air_spring, duty, fill_time

VACUUM = -int(ATMOSPHERE)  # Pa gauge

VOLUME, AREA = amount("volume", "m3", over=0), amount("area", "m2", over=0)
DURATION = amount("duration", "s", over=0)


def gauge(key: str, over: int | None = None) -> Input:
    """Return an input of a gauge pressure: of nought or more, or above a bound."""
    return amount(key, "Pa", over=over, least=0 if over is None else None, says="gauge pressure")


def absolute(key: str, unit: str, *, over: int | None = None, least: int | None = None) -> Input:
    """Return an input of an absolute pressure."""
    return amount(key, unit, over=over, least=least, says="absolute pressure")


def temperature(key: str, argument: str = "") -> Input:
    """Return an input of a temperature above absolute nought."""
    return amount(key, "K", over=0, argument=argument)


ROWS = (
    Figure(
        "pressure-decay",
        "Leak rate from a fall of pressure, at 20 °C",
        (
            *(VOLUME, gauge("start", VACUUM), gauge("end", VACUUM)),
            *(temperature("start_temperature"), temperature("end_temperature"), DURATION),
        ),
        pressure_decay,
        ("leak_rate_pa_m3_s", "without_temperature_pa_m3_s"),
        "Ideal gas; 40 CFR 1065.644",
    ),
    Figure(
        "cooling",
        "Pressure of a rigid closed vessel at another temperature",
        (gauge("pressure", VACUUM), temperature("from", "warm"), temperature("to", "cold")),
        cooling,
        ("pressure_bar_gauge",),
        "Ideal gas",
    ),
    Figure(
        "sinking",
        "What temperature alone does to the height of a tight spring",
        (VOLUME, AREA, temperature("from", "warm"), temperature("to", "cold")),
        sinking,
        ("height_mm",),
        "Ideal gas at constant pressure",
    ),
    Figure(
        "height-loss",
        "Leak rate of a spring that sinks under constant load",
        (gauge("pressure"), AREA, amount("height", "m", least=0), DURATION),
        height_loss,
        ("leak_rate_pa_m3_s",),
        "Definition of a leak rate",
    ),
    Figure(
        "flow",
        "Flow through a valve or a fitting",
        (
            amount("conductance", "dm3/s/bar", over=0),
            number("critical_ratio", least=0, most=Fraction(99, 100)),
            *(absolute("upstream", "bar", over=0), absolute("downstream", "bar", least=0), temperature("temperature")),
        ),
        flow,
        ("flow_l_min_anr", "choked"),
        "ISO 6358",
    ),
    Figure(
        "hole",
        "Leak rate of a hole, or the hole of a leak rate",
        (
            amount("diameter", "mm", over=0, optional=True),
            amount("leak_rate", "Pa*m3/s", over=0, optional=True),
            *(absolute("upstream", "Pa", over=0), temperature("temperature"), number("discharge", over=0, most=1)),
        ),
        hole,
        ("flow_l_min_anr", "leak_rate_pa_m3_s", "diameter_mm"),
        "Isentropic flow; ISO 8778",
        frozenset({"diameter", "leak_rate"}),
    ),
    Figure(
        "air-spring",
        "Force, rate and frequency of an air spring",
        (
            *(gauge("pressure", 0), AREA, VOLUME, number("exponent", least=1, most=Fraction(17, 10))),
            amount("area_gradient", "m", optional=True, says="area a length, m² a metre"),
        ),
        air_spring,
        ("force_n", "rate_n_mm", "frequency_hz"),
        "Polytropic change of an ideal gas",
    ),
    Figure(
        "fill-time",
        "How long a compressor fills",
        (VOLUME, gauge("start"), gauge("end"), amount("free_air", "m3/s", over=0)),
        fill_time,
        ("seconds",),
        "Ideal gas at constant temperature",
    ),
    Figure(
        "duty",
        "Share of running time",
        (amount("run", "s", least=0), amount("rest", "s", least=0)),
        duty,
        ("percent",),
        "Definition",
    ),
    Figure(
        "dew-point",
        "Dew point of air, free and under pressure",
        (
            amount("temperature", "degC", least=-45, most=60),
            number("humidity", over=0, most=1, reader=read.humidity, says="relative humidity such as 50 %"),
            gauge("pressure"),
        ),
        dew_point,
        ("dew_point_c", "pressure_dew_point_c"),
        "Magnus formula, WMO guide No. 8",
    ),
    Figure(
        "altitude",
        "Pressure of the standard atmosphere",
        (amount("height", "m", least=0, most=11_000),),
        altitude_pressure,
        ("pressure_pa",),
        "ISO 2533",
    ),
)
