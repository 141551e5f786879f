"""Odometer readings: what is doubtful about a new one beside the last. A doubt asks; it never changes a reading."""

from fractions import Fraction

from jobbook.core.vehicles import Odometer

KM_PER_MILE = Fraction(1609344, 1000000)  # exact since 1959: 1 mi = 1609.344 m
# Common practice, no standard: a vehicle whose distance grew by about this factor was read in the other unit once.
MIXED_UP = (Fraction(155, 100), Fraction(167, 100))
TOO_YOUNG_TO_TELL = 5000  # km: a new vehicle may well have run 1.6 times as far as at its last visit


def doubt(last: Odometer | None, value: int, unit: str) -> str:
    """The question that a reading raises beside the last one: it falls, or the units look mixed up. Empty: none."""
    if last is None:
        return ""
    here, there = kilometres(value, unit), kilometres(last.value, last.unit)
    before = f"{last.value} {last.unit} read before"
    if here < there:
        return _falling(value, unit, before, there)
    if there >= TOO_YOUNG_TO_TELL and MIXED_UP[0] <= here / there <= MIXED_UP[1]:
        return (
            f"{value} {unit} is 1.6 times the {before}: are miles and kilometres mixed up? "
            "Look at the unit; if it is right, say so in the note."
        )
    return ""


def _falling(value: int, unit: str, before: str, there: Fraction) -> str:
    other = "mi" if unit == "km" else "km"
    if there <= kilometres(value, other) <= there * Fraction(3, 2):
        return f"{value} {unit} is less than {before}; in {other} it fits. Which is it? Say so in the note."
    return (
        f"{value} {unit} is less than {before}. "
        "Was it a typing slip, was the cluster replaced, or was the unit changed? Say so in the note."
    )


def kilometres(value: int, unit: str) -> Fraction:
    """A distance in km, exactly."""
    return Fraction(value) * (KM_PER_MILE if unit == "mi" else 1)
