"""Wheel geometry as it was read: angles by wheel, and what follows from them for the axle and for the vehicle.

Limits decide here, so everything is a Fraction. Signs: camber is positive with the top leaning out, caster with the
steering axis leaning back, toe with the front of the wheel pointing in, thrust with the rear axle pointing right.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.degrees import minutes_text, read_minutes
from jobbook.core.figures.geometry import thrust, toe
from jobbook.core.quantities import Quantity, read_quantity

FRONT, REAR = ("FL", "FR"), ("RL", "RR")
ACROSS = "toe diameter"
_LENGTH = re.compile(r"[0-9½¼¾]\s*(?:mm|cm|in\b|\")", re.IGNORECASE)
DIAMETER_FROM, DIAMETER_TO = 200, 1200  # mm, of rim or tyre; common practice, no published limit
BARE = {"deg": "°", "mm": " mm"}
FINE = 10**9  # an angle that comes from a distance is held to a thousand-millionth of a degree


def wants_diameter(typed: str) -> bool:
    """Whether toe was typed as a distance, which means nothing without the diameter it was read at."""
    return _LENGTH.search(typed) is not None


@dataclass(frozen=True)
class Angle:
    """One angle of a wheel. Beyond `low` and `high` degrees no road vehicle has it: common practice, to catch slips."""

    key: str
    title: str
    wheels: tuple[str, ...]
    low: int
    high: int

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(f"{self.key} {wheel}".strip() for wheel in self.wheels)


ANGLES = (
    Angle("camber", "Camber", (*FRONT, *REAR), -10, 10),
    Angle("caster", "Caster", FRONT, -5, 20),
    Angle("inclination", "Steering-axis inclination", FRONT, 0, 30),
    Angle("toe", "Toe", (*FRONT, *REAR), -5, 5),
    Angle("thrust", "Thrust angle", ("",), -5, 5),
)
OF_NAME: Mapping[str, Angle] = {name: angle for angle in ANGLES for name in angle.names}


@dataclass(frozen=True)
class Measured:
    """One figure of the geometry. `value` is an angle, or for toe a distance `across` a diameter. `readings` is how
    many times the doubt of one reading stands behind it at most; `follows` where it was reckoned and not read."""

    name: str
    value: Quantity
    across: Quantity | None = None
    readings: int = 1
    follows: bool = False

    @property
    def degrees(self) -> Fraction:
        return degrees_of(self.name, self.value, self.across)


def is_geometry(name: str) -> bool:
    """Whether an answer of this name belongs to the geometry."""
    return name in OF_NAME or name == ACROSS


def settled_angle(name: str, typed: str) -> str:
    """What was typed, readable for ever: a bare figure gets its unit, degrees or mm. Refused: what is none."""
    found = _diameter(typed) if name == ACROSS else read_angle(typed, distance=name.startswith("toe "))
    try:
        read_quantity(typed, "length") if found.kind == "length" else read_angle(typed, bare=None)
    except Refused:
        return f"{typed.strip()}{BARE[found.unit]}"
    return typed.strip()


def _diameter(typed: str) -> Quantity:
    found = read_quantity(typed, "length", default_unit="mm")
    if not DIAMETER_FROM <= found.in_unit("mm") <= DIAMETER_TO:
        raise Refused(
            f"The diameter {found.text()} was not kept: rims and tyres measure {DIAMETER_FROM} to {DIAMETER_TO} mm "
            "across. Look at the figure and its unit."
        )
    return found


def read_angle(typed: str, distance: bool = False, bare: str | None = "deg") -> Quantity:
    """Return an angle as typed: 0.5°, −0°30.5′, 10′; a bare one is in `bare`. Where `distance`, 1.5 mm is read too."""
    try:
        return read_minutes(typed) or read_quantity(typed, "angle", default_unit=bare)
    except Refused:
        if not distance:
            raise
        try:
            return read_quantity(typed, "length")
        except Refused:
            pass
        raise


def degrees_of(name: str, value: Quantity, across: Quantity | None) -> Fraction:
    """Return a figure of the geometry in degrees. A total is that of both wheels, taken as alike."""
    if value.kind == "angle":
        return value.in_unit("deg")
    if across is None:
        raise Refused(
            "The geometry was not kept: toe in mm means nothing without the diameter that it was read at. Type the "
            "diameter of the rim, like 16 in."
        )
    if not name.startswith("total"):
        return Fraction(round(toe(across, single_toe=value).each_degrees * FINE), FINE)
    return 2 * Fraction(round(toe(across, total_toe=value).each_degrees * FINE), FINE)


def read_geometry(told: Mapping[str, str]) -> dict[str, Measured]:
    """Return what was read, by name, and what follows from it. Refused: what no road vehicle has, mm without diameter.

    `told` holds typed texts by the name of the angle and wheel (“camber FL”, “thrust”); other names are left aside.
    """
    across = read_quantity(told[ACROSS], "length", default_unit="mm") if told.get(ACROSS) else None
    found: dict[str, Measured] = {}
    for name, angle in OF_NAME.items():
        if told.get(name, "").strip():
            value = read_angle(told[name], distance=angle.key == "toe")
            found[name] = Measured(name, value, across if value.kind == "length" else None)
            _look_at(angle, found[name])
    return found | {name: one for name, one in _following(found).items() if name not in found}


def _look_at(angle: Angle, one: Measured) -> None:
    if not angle.low <= one.degrees <= angle.high:
        raise Refused(
            f"{title_of(one.name)} “{one.value.typed}” was not kept: road vehicles have "
            f"{_signed(angle.low)} to {angle.high} degrees. Look at sign and unit; minutes are written 10′ or 0°10′."
        )


def _signed(degrees: int) -> str:
    return f"−{-degrees}" if degrees < 0 else str(degrees)


def _sum(name: str, left: Measured, right: Measured) -> Measured:
    """Both wheels together. Read in mm across one diameter they stay in mm."""
    if left.across is not None and left.across == right.across:
        value = Quantity("length", left.value.in_unit("mm") + right.value.in_unit("mm"), "mm")
        return Measured(name, value, left.across, 2, True)
    return Measured(name, Quantity("angle", left.degrees + right.degrees, "deg"), None, 2, True)


def _difference(name: str, left: Measured, right: Measured) -> Measured:
    return Measured(name, Quantity("angle", left.degrees - right.degrees, "deg"), None, 2, True)


def _thrust(name: str, left: Measured, right: Measured) -> Measured:
    each = (Quantity("angle", one.degrees, "deg") for one in (left, right))
    return Measured(name, Quantity("angle", thrust(*each), "deg"), None, 1, True)


# name: (title, left, right, how it follows)
FOLLOWS: Mapping[str, tuple[str, str, str, Callable[[str, Measured, Measured], Measured]]] = {
    "cross camber front": ("Camber front, left less right", "camber FL", "camber FR", _difference),
    "cross camber rear": ("Camber rear, left less right", "camber RL", "camber RR", _difference),
    "cross caster": ("Caster, left less right", "caster FL", "caster FR", _difference),
    "total toe front": ("Total toe front", "toe FL", "toe FR", _sum),
    "total toe rear": ("Total toe rear", "toe RL", "toe RR", _sum),
    "thrust": ("Thrust angle", "toe RL", "toe RR", _thrust),
}
ORDER = (*OF_NAME, *(name for name in FOLLOWS if name not in OF_NAME))


def _following(found: Mapping[str, Measured]) -> dict[str, Measured]:
    there = {name: row for name, row in FOLLOWS.items() if row[1] in found and row[2] in found}
    return {name: make(name, found[left], found[right]) for name, (_, left, right, make) in there.items()}


def turned_sign(told: Mapping[str, Measured]) -> bool:
    """Whether a thrust angle that was read points the other way than the rear toes say: sheets differ in its sign."""
    left, right, read = (told.get(name) for name in ("toe RL", "toe RR", "thrust"))
    if left is None or right is None or read is None or read.follows:
        return False
    return _thrust("thrust", left, right).degrees * read.degrees < 0


def title_of(name: str) -> str:
    """What a figure of the geometry is called: “Toe FL”, “Total toe front”."""
    if name in FOLLOWS:
        return FOLLOWS[name][0]
    angle = OF_NAME[name]
    return f"{angle.title}{name[len(angle.key) :]}"


def angle_text(value: Quantity, minutes: bool, exact: bool = False) -> str:
    """A figure with its sign: +0°10′, −0.75°, +1.5 mm. `exact` keeps every decimal; else they end with the second."""
    if value.kind == "angle" and minutes:
        return minutes_text(value.in_unit("deg"))
    unit = "deg" if value.kind == "angle" else "mm"
    text = value.text(unit) if exact and value.unit == unit else value.text(unit, 2)
    return f"+{text}" if value.amount > 0 else text


def in_minutes(told: Mapping[str, Measured]) -> bool:
    """Whether the geometry was typed in minutes, so that what follows is written so too."""
    return any(sign in one.value.typed for one in told.values() for sign in ("′", "'", "’", "min"))
