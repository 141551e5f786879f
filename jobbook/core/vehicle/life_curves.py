"""What follows from how long parts were watched: the sample that survival is reckoned from, and its curve as drawn."""

from collections.abc import Sequence
from fractions import Fraction

from jobbook.core.drawing.survival import LifeCurve, Step
from jobbook.core.figures.partlife import Sample, limits, survival_curve
from jobbook.core.vehicle.part_lives import Watched


def sample(parts: Sequence[Watched], measure: str) -> Sample:
    """What survival is reckoned from: by days, or by km of those whose distance is known."""
    known = [one for one in parts if measure == "days" or one.km is not None]
    lengths = tuple(Fraction(one.days) if measure == "days" else one.km or Fraction(0) for one in known)
    return Sample(lengths, tuple(one.part.failed for one in known))


def life_curve(label: str, parts: Sample) -> LifeCurve | None:
    """What is drawn of a sample, or None where there is nothing in it."""
    if not parts.durations:
        return None
    points = survival_curve(parts.durations, parts.failed)
    steps = [Step(0.0, 1.0)] if not any(point.time == 0 for point in points) else []
    for point in points[1:]:
        low, high = limits(point)
        steps.append(Step(float(point.time), float(point.survival), low, high))
    alive = tuple(float(d) for d, dead in zip(parts.durations, parts.failed, strict=True) if not dead)
    lengths = tuple(float(duration) for duration in parts.durations)
    return LifeCurve(label, tuple(steps), max(lengths), alive, lengths)
