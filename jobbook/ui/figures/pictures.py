"""The drawing beside a figure, where one explains it: made from what was typed and what came out. No Qt in here."""

from collections.abc import Callable, Mapping
from contextlib import suppress
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from jobbook.core.drawing import Band, Curve, Drawing, adapter_drawing, band_drawing, leak_down_chart, toe_drawing
from jobbook.core.drawing.survival import survival_plot
from jobbook.core.errors import Refused
from jobbook.core.figures import given as read
from jobbook.core.figures.partlife import Sample
from jobbook.core.vehicle.life_curves import life_curve
from jobbook.ui.figures.results import number

Given = Mapping[str, str]
Found = Mapping[str, Any]

# What the adapter is drawn with before anything is measured; the letters stand in place of figures then.
PLAIN_LEVER, PLAIN_EXTENSION, PLAIN_ANGLE = 400.0, 90.0, 30.0


def picture(figure: str, given: Given, found: Found) -> Drawing | None:
    """The drawing of a figure, or None where it has none or too little is known."""
    make = PICTURES.get(figure)
    return make(given, found) if make else None


def adapter_picture(given: Given, setting: str = "") -> Drawing:
    """Wrench and adapter as far as they are measured; letters stand where nothing is typed yet."""
    lever = _amount(given.get("lever", ""), "length", "mm")
    extension = _amount(given.get("extension", ""), "length", "mm")
    angle = _amount(given.get("angle", ""), "angle", "deg")
    labels = (
        f"L {number(lever)} mm" if lever else "L",
        f"E {number(extension)} mm" if extension else "E",
        f"{number(angle)}°" if angle is not None else "angle",
    )
    drawn = (lever if lever and lever > 0 else PLAIN_LEVER, PLAIN_EXTENSION if extension is None else extension)
    return adapter_drawing(*drawn, PLAIN_ANGLE if angle is None else angle, labels, setting)


def _adapter(given: Given, found: Found) -> Drawing:
    return adapter_picture(given, f"set {number(found['setting_nm'])} N·m" if found else "")


def _plausible(given: Given, found: Found) -> Drawing | None:
    torque = _amount(given.get("torque", ""), "torque", "N*m")
    if not found or torque is None:
        return None
    low, high = found["low_nm"], found["high_nm"]
    ends = (f"{number(round(low, 1))} N·m", f"{number(round(high, 1))} N·m")
    said = f"{number(torque)} N·m: {found['verdict']}"
    return band_drawing(Band(torque, low, high, said, *ends), f"{said}; usual from {ends[0]} to {ends[1]}")


def _decide(given: Given, found: Found) -> Drawing | None:
    if not found:
        return None
    quantities = [read.measured(given[key]) for key in ("value", "lower", "upper", "expanded")]
    unit = quantities[0].unit
    value, lower, upper, guard = (float(one.in_unit(unit)) for one in quantities)
    words = tuple(one.text() for one in quantities)
    band = Band(value, lower, upper, f"{words[0]}: {found['verdict']}", words[1], words[2], guard)
    return band_drawing(band, f"{words[0]} against {words[1]} to {words[2]}, guard band {words[3]}: {found['verdict']}")


def _toe(given: Given, found: Found) -> Drawing | None:
    if not found:
        return None
    each = found["each_degrees"]
    inward = (each > 0) - (each < 0)
    return toe_drawing(inward, f"{number(each)}°", f"{number(found['single_mm'])} mm")


def _leak_down(given: Given, found: Found) -> Drawing | None:
    hours = _amount(given.get("hours", ""), "time", "h", "h")
    if not found or hours is None:
        return None
    drops = {corner: round(Decimal(repr(drop)), 1) for corner, drop in found["drop_mm"].items()}
    worst = max(drops, key=lambda corner: drops[corner])
    start = (Decimal(0), Decimal(0))
    curves = [
        Curve(f"{corner} {number(float(drop))}", (start, (Decimal(repr(hours)), drop)), corner == worst)
        for corner, drop in drops.items()
    ]
    return leak_down_chart(curves, "start", f"after {number(hours)} h", "drop in mm, downward")


def _part_life(given: Given, found: Found) -> Drawing | None:
    if not found:
        return None
    parts = Sample(tuple(read.numbers(given["durations"])), tuple(read.answers(given["failed"])))
    return _survival(("", parts))


def _two_lives(given: Given, found: Found) -> Drawing | None:
    if not found:
        return None
    return _survival(("first", read.sample(given["first"])), ("second", read.sample(given["second"])))


def _survival(*samples: tuple[str, Sample]) -> Drawing:
    curves = [life_curve(name, one) for name, one in samples]
    return survival_plot([curve for curve in curves if curve is not None], "in the unit of the durations", 248.0, 92.0)


def _amount(typed: str, kind: str, unit: str, default: str | None = None) -> float | None:
    """What was typed in that unit; None while it cannot be read."""
    with suppress(Refused):
        return float(read.quantity(typed, kind, default).in_unit(unit))
    return None


PICTURES: Mapping[str, Callable[[Given, Found], Drawing | None]] = MappingProxyType(
    {
        "adapter": _adapter,
        "plausible": _plausible,
        "decide": _decide,
        "toe": _toe,
        "leak-down": _leak_down,
        "part-life": _part_life,
        "part-life-compare": _two_lives,
    }
)
