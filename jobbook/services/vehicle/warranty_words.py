"""Warranty terms in words, for the vehicle's page and for the cries."""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from jobbook.core.days import day_of
from jobbook.core.people import Shop
from jobbook.core.vehicle.odometers import in_unit
from jobbook.core.vehicle.part_lives import FittedPart, watched
from jobbook.core.vehicle.vehicles import Odometer
from jobbook.core.vehicle.warranty import Running, Term, running
from jobbook.core.written import day, thousands

Readings = Sequence[tuple[int, Odometer]]  # each with its job, the newest first
CUSTOMERS_OWN = "customer-supplied"


def suppliers(part: FittedPart, today: date, readings: Readings) -> Running | None:
    return running(part.term, day_of(part.fitted_at), _until(part, today), km_run(part, readings))


def shops(part: FittedPart, shop: Shop, today: date, readings: Readings) -> Running | None:
    """The shop's own term; none on a part that the customer brought."""
    if part.condition == CUSTOMERS_OWN:
        return None
    own = Term(shop.warranty_months, shop.warranty_distance)
    return running(own, day_of(part.fitted_at), _until(part, today), km_run(part, readings))


def km_run(part: FittedPart, readings: Readings) -> Fraction | None:
    """How far a part ran: to where it came off, or to the newest reading."""
    jobs = {one.entry: job for job, one in readings}
    return watched(part, "", [one for _, one in readings], jobs).km


def _until(part: FittedPart, today: date) -> date:
    return day_of(part.off_at) if part.off_at else today


def term_words(whose: str, found: Running | None, unit: str) -> str:
    """“the supplier's warranty runs to 18 Sep 2027, 21 400 km left”."""
    if found is None:
        return f"{whose} term is not recorded"
    ends = day(found.ends) if found.ends else ""
    left = f"{_distance(found.km_left, unit)} left" if found.km_left is not None and found.km_left >= 0 else ""
    if found.inside:
        return f"{whose} warranty runs{' to ' + ends if ends else ''}{', ' + left if left else ''}"
    if found.inside is None:
        to = f" to {ends}" if ends else ""
        return f"{whose} warranty{to} may run: how far the part ran is not known"
    if found.days_left is not None and found.days_left < 0:
        return f"{whose} warranty ended on {ends}"
    return f"{whose} warranty ended by distance, {_distance(-(found.km_left or Fraction(0)), unit)} ago"


def _distance(km: Fraction, unit: str) -> str:
    return f"{thousands(in_unit(km, unit))} {unit}"
