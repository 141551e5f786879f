"""Whether a failure falls within the limits of months and distance that a part's warranty names."""

import calendar
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity


@dataclass(frozen=True)
class WearLink:
    """Whether both limits hold, and what is left of each, below nought where it is passed. None without a limit."""

    inside: bool
    days_left: int | None
    distance_left: Fraction | None
    distance_unit: str | None


def wear_link(
    fit_date: date,
    failure_date: date,
    fit_odometer: Quantity,
    failure_odometer: Quantity,
    months: Fraction | None = None,
    distance: Quantity | None = None,
) -> WearLink:
    """Return whether a failure lies within months and distance after the fit, the last day and the last km included.

    fit_date, failure_date; fit_odometer, failure_odometer [km]; months [1, whole]; distance [km]. What is left of the
    distance stands in the unit of its limit. Range: a limit that counts from the fit. Errors: a failure before the
    fit, no limit at all. Source: calendar months; where the month has no such day, its last day ends the time (from
    29 February, 12 months end on the 28th), which is this program's choice.
    """
    if failure_date < fit_date:
        raise unfit("failure_date", "it lies before fit_date", "look at both papers")
    driven = failure_odometer.in_unit("km") - fit_odometer.in_unit("km")
    if driven < 0:
        raise unfit("failure_odometer", "it is less than fit_odometer", "look at both readings and their units")
    if months is None and distance is None:
        raise unfit("months", "neither it nor distance is given", "give the limit that the warranty names")
    days = None if months is None else (months_after(fit_date, int(months)) - failure_date).days
    left = None if distance is None else distance.in_unit("km") - driven
    inside = (days is None or days >= 0) and (left is None or left >= 0)
    if distance is None or left is None:
        return WearLink(inside, days, None, None)
    shown = left * Quantity("distance", Fraction(1), "km").in_unit(distance.unit)
    return WearLink(inside, days, shown, distance.unit)


def months_after(start: date, months: int) -> date:
    """Return the same day that many months later, or the last of that month where it has no such day."""
    years, month = divmod(start.month - 1 + months, 12)
    year = start.year + years
    return date(year, month + 1, min(start.day, calendar.monthrange(year, month + 1)[1]))
