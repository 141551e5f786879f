"""Moisture in compressed air, and the pressure of the atmosphere with height."""

import math
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.air import ATMOSPHERE, absolute
from jobbook.core.quantities import Quantity

# Magnus over water, in °C and Pa, from 45 below nought to 60 above: the constants of the WMO guide (No. 8).
_SLOPE, _BASE, _AT_NOUGHT = 17.62, 243.12, 611.2


@dataclass(frozen=True)
class DewPoint:
    """Where water comes out of the air: at the pressure of the open air, and under pressure."""

    dew_point_c: float
    pressure_dew_point_c: float


def dew_point(temperature: Quantity, humidity: Fraction, pressure: Quantity) -> DewPoint:
    """Return the dew point of air, and of the same air pressed together.

    temperature [degC], humidity relative, 0 to 1 [1], pressure gauge that it is pressed to [Pa]. Over water: below
    nought frost forms some degrees higher. Range: −45 to 60 °C; against real moist air under 16 bar it reads up to
    0.7 K high. Errors: none. Source: Magnus formula with the constants 17.62 and 243.12 °C of the WMO guide.
    """
    celsius = float(temperature.in_unit("degC"))
    vapour = float(humidity) * _AT_NOUGHT * math.exp(_SLOPE * celsius / (_BASE + celsius))
    return DewPoint(_dew(vapour), _dew(vapour * float(absolute(pressure) / ATMOSPHERE)))


def _dew(vapour: float) -> float:
    """Return the temperature [°C] at which a partial pressure of water [Pa] saturates."""
    log = math.log(vapour / _AT_NOUGHT)
    return _BASE * log / (_SLOPE - log)


def altitude_pressure(height: Quantity) -> float:
    """Return the pressure of the atmosphere [Pa]: 101325·(1 − 2.25577e-5·H)^5.25588.

    height above the sea [m]. Range: 0 to 11 000 m of the standard atmosphere; weather moves it by some per cent.
    Errors: none. Source: ISO 2533.
    """
    return float(ATMOSPHERE) * math.pow(1 - 2.25577e-5 * float(height.in_unit("m")), 5.25588)
