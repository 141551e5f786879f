"""Ride heights as they were read: one or several readings at a corner, how sure their mean is, and what may be said.

Limits decide here, so everything is a Decimal or a Fraction. A height without a limit is never judged.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.doubt import decide, readings
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.quantities import HEIGHT_FROM, HEIGHT_TO, Quantity, read_quantity

SIDES = (("front", "FL", "FR"), ("rear", "RL", "RR"))
MOST_READINGS = 12

_PARTED = re.compile(r"\s*;\s*|,\s+|\s+")
_JOINS = re.compile(r"[0-9]+/[0-9]+.*|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞].*|[^0-9+\-−].*")
_BARE = re.compile(r"[0-9.,/ ½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞+\-−]+")
_FRACTION = re.compile(r"/|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]")


@dataclass(frozen=True)
class Sure:
    """What is known of how a height was read. `single_mm`: how far one reading may be off (k = 2, the shop's word);
    `step_mm` the division of the rule and `gauge_mm` the expanded uncertainty of its certificate, where known."""

    single_mm: Decimal
    step_mm: Decimal | None = None
    gauge_mm: Decimal | None = None


@dataclass(frozen=True)
class Height:
    """One corner: the readings in mm, their mean, and the expanded uncertainty (k = 2) that guards the limits."""

    corner: str
    typed: str
    values: tuple[Quantity, ...]
    mean_mm: Decimal
    expanded_mm: Decimal

    @property
    def repeated(self) -> bool:
        return len(self.values) > 1


@dataclass(frozen=True)
class Judged:
    """A height against its limits. `verdict` is conform, undecided or not conform; empty where no limit is known."""

    height: Height
    lower_mm: Decimal | None = None
    upper_mm: Decimal | None = None
    verdict: str = ""


def read_entries(corner: str, typed: str, unit: str = "mm") -> tuple[Quantity, ...]:
    """Return the heights typed at one corner, each in the unit that was typed; a bare one is in `unit`.

    “401 402 401”, “401; 402”, “15 3/4 in” and “400,5 mm” are read. Where only the last has a unit, it is that of all.
    Refused: what cannot be read, and what no road vehicle can stand at.
    """
    entries = _parts(typed)
    if not entries:
        raise Refused(f"No height was typed at {corner}, so nothing was kept; type what the rule shows.")
    if len(entries) > MOST_READINGS:
        raise Refused(f"The heights at {corner} were not kept: {MOST_READINGS} readings are enough; nothing was kept.")
    last = re.sub(r"^[0-9.,/ ½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]+", "", entries[-1])
    found = tuple(
        read_quantity(f"{one} {last}".strip() if _BARE.fullmatch(one) else one, "length", default_unit=unit)
        for one in entries
    )
    for height in found:
        _look_at(corner, height)
    return found


def settled(typed: str, unit: str) -> str:
    """What was typed, readable for ever: bare inches get their unit; bare millimetres stay as they are."""
    parts = _parts(typed)
    bare = bool(parts) and _BARE.fullmatch(parts[-1]) is not None
    return f"{typed.strip()} {unit}" if bare and unit != "mm" else typed.strip()


def _parts(typed: str) -> list[str]:
    """The readings of a typed text: a fraction or a unit belongs to the number before it."""
    parts: list[str] = []
    for word in filter(None, _PARTED.split(typed.strip())):
        if parts and _JOINS.fullmatch(word):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
    return parts


def _look_at(corner: str, height: Quantity) -> None:
    if not HEIGHT_FROM <= height.in_unit("mm") <= HEIGHT_TO:
        raise Refused(
            f"The height {height.typed or height.text()} at {corner} was not kept: from hub centre to arch edge "
            f"{HEIGHT_FROM} to {HEIGHT_TO} mm is possible. Read the rule again, and look at the unit."
        )


def height_of(corner: str, typed: str, sure: Sure, unit: str = "mm") -> Height:
    """Return the mean of what was typed at a corner, with its expanded uncertainty (k = 2).

    Several readings give their own spread beside the division of the rule (where it is not known, the last digit that
    was typed) and its certificate. One reading has no spread: it is as sure as the shop says that one reading is, and
    never surer than the certificate.
    """
    values = tuple(value.given_in("mm") for value in read_entries(corner, typed, unit))
    if len(values) == 1:
        return Height(
            corner, typed.strip(), values, values[0].to("mm"), max(sure.single_mm, sure.gauge_mm or Decimal(0))
        )
    step = sure.step_mm if sure.step_mm is not None else max(map(_last_digit_mm, read_entries(corner, typed, unit)))
    gauge = Quantity("length", sure.gauge_mm, "mm") if sure.gauge_mm is not None else None
    found = readings(values, Quantity("length", step, "mm"), gauge)
    return Height(corner, typed.strip(), values, found.mean, found.expanded)


def _last_digit_mm(read: Quantity) -> Decimal:
    """The step of what was typed: the place of its last digit, or the part of an inch."""
    amount = Fraction(read.amount)
    if _FRACTION.search(read.typed):
        step = Fraction(1, amount.denominator)
    else:
        exponent = read.amount.as_tuple().exponent if isinstance(read.amount, Decimal) else 0
        step = Fraction(10) ** int(exponent)
    return Quantity("length", step, read.unit).to("mm")


def judge(height: Height, lower_mm: Decimal | None, upper_mm: Decimal | None) -> Judged:
    """Return the height judged against both limits, with its uncertainty as guard band; plain where one is missing."""
    if lower_mm is None or upper_mm is None:
        return Judged(height, lower_mm, upper_mm)
    figures = (height.mean_mm, lower_mm, upper_mm, height.expanded_mm)
    return Judged(height, lower_mm, upper_mm, decide(*(Quantity("length", one, "mm") for one in figures)))


@dataclass(frozen=True)
class Difference:
    """How much higher the first stands than the second. `word` is what the shop's rule says of it, or empty."""

    what: str
    mm: Decimal
    word: str = ""


def differences(means: Mapping[str, Decimal], ask_mm: Decimal, defect_mm: Decimal) -> tuple[Difference, ...]:
    """Return left against right of each axle, and the front axle against the rear, where both were read.

    More than `ask_mm` from side to side is asked about and more than `defect_mm` is a defect: the shop's rule. Front
    against rear depends on the vehicle, so nothing is said of it.
    """
    sides = [(axle, means[left] - means[right]) for axle, left, right in SIDES if left in means and right in means]
    found = [Difference(f"{axle} left against right", mm, _side_word(mm, ask_mm, defect_mm)) for axle, mm in sides]
    if {*CORNERS} <= {*means}:
        front, rear = ((means[left] + means[right]) / 2 for _, left, right in SIDES)
        found.append(Difference("front axle against rear", front - rear))
    return tuple(found)


def _side_word(apart: Decimal, ask_mm: Decimal, defect_mm: Decimal) -> str:
    if abs(apart) > defect_mm:
        return f"a defect by the shop's rule (more than {defect_mm:f} mm)"
    return f"ask why (more than {ask_mm:f} mm, the shop's rule)" if abs(apart) > ask_mm else ""


def kept_text(mean_mm: Decimal) -> str:
    """A mean as an act keeps it, in mm: exact where it ends within four decimals, else to a hundredth."""
    exact = mean_mm.quantize(Decimal("0.0001")) == mean_mm
    text = f"{mean_mm if exact else mean_mm.quantize(Decimal('0.01')):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def shown(value_mm: Decimal, unit: str = "mm", signed: bool = False) -> str:
    """A height for people, without its unit: tenths of a millimetre, or hundredths of an inch."""
    places, amount = ("0.01", Quantity("length", value_mm, "mm").to("in")) if unit == "in" else ("0.1", value_mm)
    text = f"{abs(amount.quantize(Decimal(places))):f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    sign = "−" if amount < 0 and text != "0" else "+" if signed and amount > 0 and text != "0" else ""
    return sign + text


def typed_words(heights: Sequence[Height]) -> str:
    """What was typed at each corner where it is more than the mean says."""
    return "; ".join(f"{one.corner} {one.typed}" for one in heights if one.typed != kept_text(one.mean_mm))
