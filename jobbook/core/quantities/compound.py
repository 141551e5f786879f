"""Figures of two units that are written as one: degrees with minutes, hours with minutes."""

import re
from fractions import Fraction

from jobbook.core.quantities.numbers import Number, exact
from jobbook.core.quantities.typed import turned_away

_DEGREES = re.compile(r"([+-]?) ?([0-9]+) ?(?:°|deg) ?([0-9]+) ?(?:′|'|min)(?: ?([0-9]+) ?(?:″|\"|''))?")
_HOURS = re.compile(r"()([0-9]+) ?(?:h|hr) ?([0-9]+) ?min()")

_PATTERN = {"angle": (_DEGREES, "deg"), "time": (_HOURS, "h")}


def read_compound(text: str, kind: str) -> tuple[Number, str] | None:
    """Return amount and unit of degrees with minutes, or hours with minutes; None where it is written otherwise."""
    pattern, unit = _PATTERN.get(kind, (None, ""))
    match = pattern.fullmatch(text) if pattern else None
    if not match:
        return None
    if max(len(part or "") for part in match.groups()) > 6:
        raise turned_away(text, "it has too many digits", "look at the figure again")
    whole, minutes, seconds = (int(part or 0) for part in match.group(2, 3, 4))
    if minutes >= 60 or seconds >= 60:
        raise turned_away(text, "minutes and seconds go up to 59", "carry the rest over")
    value = whole + Fraction(minutes, 60) + Fraction(seconds, 3600)
    return exact(-value if match[1] == "-" else value), unit


def write_compound(value: Fraction, unit: str) -> str:
    """Return an amount that no decimal ends as degrees or hours with minutes; empty where that is not exact either."""
    seconds = abs(value) * 3600
    if unit not in ("deg", "h") or seconds.denominator != 1 or (unit == "h" and seconds % 60):
        return ""
    whole, rest = divmod(int(seconds), 3600)
    if unit == "h":
        return f"{whole}\u202fh {rest // 60}\u202fmin"
    sign = "\u2212" if value < 0 else ""
    return f"{sign}{whole}°{rest // 60}′" + (f"{rest % 60}″" if rest % 60 else "")
