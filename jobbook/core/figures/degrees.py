"""Angles as wheel aligners write them: decimal degrees, or degrees with minutes and a sign in front."""

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.quantities import Quantity
from jobbook.core.quantities.typed import tidy

_WITH_MINUTES = re.compile(
    r"([+-]?) ?([0-9]{1,3}) ?(?:°|deg|d|(?= )) ?([0-9]{1,2}(?:[.,][0-9]{1,6})?) ?(?:′|'|min|arcmin|m)?"
)

# Alignment gear shows tenths of a minute; what lies within half of one of a whole minute is that minute.
_NEAR = Fraction(1, 20)


@dataclass(frozen=True)
class Degrees:
    """An angle as decimal degrees, exact, and as text in degrees and minutes."""

    decimal: Fraction
    text: str


def read_minutes(text: str) -> Quantity | None:
    """Return the angle of a text in degrees and minutes, such as −0°30′ or 1 15.5; None where it is written otherwise.

    The sign holds for the whole, so that −0°30′ is half a degree below nought.
    """
    match = _WITH_MINUTES.fullmatch(tidy(text))
    if not match:
        return None
    minutes = Fraction(match[3].replace(",", "."))
    if minutes >= 60:
        raise Refused(f"“{text[:24]}” was not taken: minutes go up to 59; carry the rest over.")
    value = int(match[2]) + minutes / 60
    return Quantity("angle", -value if match[1] == "-" else value, "deg", text.strip())


def degrees(value: Quantity) -> Degrees:
    """Return an angle in both forms.

    value [deg]. Minutes are written to a hundredth, a whole minute where one is nearer than half a tenth, and sixty
    are carried. Range: any angle. Errors: none. Source: sixty minutes to the degree, SI brochure, table 8.
    """
    angle = value.in_unit("deg")
    return Degrees(angle, minutes_text(angle))


def minutes_text(angle: Fraction) -> str:
    """Return degrees [deg] written with sign, degrees and minutes: −0°45′, +1°15.5′, 0°00′."""
    whole, rest = divmod(_rounded(abs(angle) * 60), 60)
    sign = "" if not whole and not rest else "−" if angle < 0 else "+"
    minutes = f"{rest.normalize():f}" if rest else "0"
    return f"{sign}{int(whole)}°{minutes if rest >= 10 else '0' + minutes}′"


def _rounded(minutes: Fraction) -> Decimal:
    nearest = round(minutes)
    if abs(minutes - nearest) < _NEAR:
        return Decimal(nearest)
    hundredths = round(minutes * 100)
    return Decimal(hundredths).scaleb(-2).quantize(Decimal("0.01"), rounding=ROUND_HALF_EVEN)
