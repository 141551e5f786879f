"""Months and distance after the fit: the last day and the last kilometre count, and the end of February is chosen."""

from datetime import date
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.wear import months_after, wear_link
from jobbook.core.quantities import read_quantity


def km(text: str):
    return read_quantity(text, "distance")


def linked(failure: str, odometer: str, months: int | None = 12, distance: str | None = "20000 km"):
    return wear_link(
        *(date(2024, 2, 29), date.fromisoformat(failure), km("120000 km"), km(odometer)),
        *(Fraction(months) if months is not None else None, km(distance) if distance else None),
    )


@pytest.mark.parametrize(
    ("failure", "odometer", "inside", "days", "left"),
    [
        ("2025-02-28", "140000 km", True, 0, 0),
        ("2025-03-01", "139000 km", False, -1, 1000),
        ("2025-02-01", "140001 km", False, 27, -1),
        ("2024-02-29", "120000 km", True, 365, 20000),
    ],
)
def test_both_limits_hold_to_the_last_day_and_kilometre(failure, odometer, inside, days, left) -> None:
    found = linked(failure, odometer)
    assert (found.inside, found.days_left, found.distance_left, found.distance_unit) == (inside, days, left, "km")


def test_one_limit_alone_leaves_the_other_out_and_none_is_refused() -> None:
    assert linked("2025-03-01", "140000 km", months=None).inside
    assert linked("2025-02-01", "999999 km", distance=None).distance_left is None
    with pytest.raises(Refused, match=r"^months was not taken"):
        linked("2025-02-01", "130000 km", None, None)


def test_miles_are_counted_in_miles() -> None:
    # The international mile, exactly 1.609344 km.
    found = linked("2025-02-01", "136093.44 km", distance="12000 mi")
    assert (found.distance_left, found.distance_unit) == (2000, "mi")


def test_a_failure_before_the_fit_is_refused_by_its_key() -> None:
    with pytest.raises(Refused, match=r"^failure_date was not taken"):
        linked("2024-02-28", "130000 km")
    with pytest.raises(Refused, match=r"^failure_odometer was not taken"):
        linked("2025-02-01", "119999 km")


@pytest.mark.parametrize(
    ("start", "months", "end"),
    [
        ("2024-02-29", 12, "2025-02-28"),
        ("2024-02-29", 48, "2028-02-29"),
        ("2024-10-31", 1, "2024-11-30"),
        ("2024-12-15", 1, "2025-01-15"),
    ],
)
def test_a_month_without_that_day_ends_on_its_last(start: str, months: int, end: str) -> None:
    assert months_after(date.fromisoformat(start), months) == date.fromisoformat(end)
