"""Wheel geometry: toe as an angle and as millimetres, the thrust angle, caster from a sweep of the steering."""

import math
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity


@dataclass(frozen=True)
class Toe:
    """Toe of one wheel in mm and degrees; of both together in minutes, where the total was given."""

    single_mm: float
    total_minutes: float | None
    each_degrees: float


def toe(diameter: Quantity, single_toe: Quantity | None = None, total_toe: Quantity | None = None) -> Toe:
    """Return toe in the other form: D·sin θ at each wheel, and twice that for an axle with both wheels alike.

    diameter that the mm are taken at, of rim or tyre [mm]; single_toe of one wheel, or total_toe of the axle, as an
    angle [deg] or as a distance [mm]; toe-in is positive. Range: up to 45 degrees a wheel. Errors: a distance that no
    angle gives at that diameter. Source: ISO 8855 for the terms, geometry for the rest; both sides may differ though
    their total is right.
    """
    given, wheels = (single_toe, 1) if single_toe else (total_toe, 2)
    if given is None:
        raise unfit("single_toe", "neither it nor total_toe is given", "give one of them")
    across = float(diameter.in_unit("mm"))
    sine = _sine(given, across, wheels)
    if abs(sine) > math.sqrt(0.5):
        key = "single_toe" if single_toe else "total_toe"
        raise unfit(key, f"{given.text()} turns a wheel by more than 45 degrees", "look at toe and diameter")
    angle = math.degrees(math.asin(sine))
    return Toe(across * sine, 2 * 60 * angle if wheels == 2 else None, angle)


def _sine(given: Quantity, across: float, wheels: int) -> float:
    """Return the sine of the angle of one wheel; 2 for what is no angle of a wheel."""
    if given.kind == "length":
        return float(given.in_unit("mm")) / wheels / across
    angle = float(given.in_unit("deg")) / wheels
    return math.sin(math.radians(angle)) if abs(angle) <= 90 else 2


def thrust(left: Quantity, right: Quantity) -> Fraction:
    """Return the thrust angle [deg] of a rear axle: (left − right)/2, positive where the axle points to the right.

    left, right toe of the rear wheels, toe-in positive [deg]. The opposite sign is in print too, so a figure from
    elsewhere is compared with its sign rule beside it. Range: any angles of wheels. Errors: none. Source: geometry,
    with the terms of ISO 8855.
    """
    return (left.in_unit("deg") - right.in_unit("deg")) / 2


def caster(camber_out: Quantity, camber_in: Quantity, steer: Quantity) -> float:
    """Return the caster [deg] from a sweep of the steering: atan((sin c1 − sin c2)/(2·sin δ)).

    camber_out at the wheel steered out [deg], camber_in at the wheel steered in [deg], steer to either side [deg].
    Range: 5 to 45 degrees of steering, at ride height; against a full rotation in space the method is off by up to
    0.02 degrees. Errors: none. Source: published formula of the trade, checked by rotation about a tilted axis.
    """
    out, inward, turn = (math.radians(q.in_unit("deg")) for q in (camber_out, camber_in, steer))
    return math.degrees(math.atan((math.sin(out) - math.sin(inward)) / (2 * math.sin(turn))))
