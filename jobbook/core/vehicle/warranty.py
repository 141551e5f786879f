"""Whether a warranty still runs on a fitted part: the supplier's term, and the shop's own.

Where a term ends by date and by distance, the one that comes first ends it. A part that came in place of another under
warranty often has the rest of the first one's term only: then the day from which it counts is given with it.
"""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.wear import months_after
from jobbook.core.quantities import read_quantity
from jobbook.core.quantities.whole import whole_number

MOST_MONTHS = 600
MOST_KM = 2_000_000


@dataclass(frozen=True)
class Term:
    """Months and distance as texts ("24", "60000 km"), empty where the term has none; `starts` is a day where it does
    not begin with the fitting."""

    months: str = ""
    distance: str = ""
    starts: str = ""

    @property
    def known(self) -> bool:
        return bool(self.months or self.distance)


NO_TERM = Term()


@dataclass(frozen=True)
class Running:
    """How a term stands on a day. `inside` is None where it cannot be told: the distance that the part ran is not
    known. What is left is below nought where it is passed."""

    inside: bool | None
    ends: date | None
    days_left: int | None
    km_left: Fraction | None


def running(term: Term, fitted: date, today: date, km_run: Fraction | None) -> Running | None:
    """How a term stands, the last day and the last km included. None where no term is known."""
    if not term.known:
        return None
    begins = date.fromisoformat(term.starts) if term.starts else fitted
    ends = months_after(begins, int(term.months)) if term.months else None
    days = (ends - today).days if ends is not None else None
    most = Fraction(read_quantity(term.distance, "distance").in_unit("km")) if term.distance else None
    left = most - km_run if most is not None and km_run is not None else None
    over = (days is not None and days < 0) or (left is not None and left < 0)
    unknown = most is not None and left is None
    return Running(False if over else None if unknown else True, ends, days, left)


def read_term(months: str, distance: str, starts: str, unit: str) -> Term:
    """A term as it is kept, from what was typed; a distance without a unit is in `unit`. Refused: what is none."""
    return Term(_months(months.strip()), _distance(distance.strip(), unit), _day(starts.strip()))


def _months(typed: str) -> str:
    if not typed:
        return ""
    months = whole_number(typed, MOST_MONTHS, least=1)
    if months is None:
        raise Refused(f"Nothing was kept: a warranty of “{typed[:20]}” months is none. Write whole months, like 24.")
    return str(months)


def _distance(typed: str, unit: str) -> str:
    if not typed:
        return ""
    found = read_quantity(typed, "distance", default_unit=unit)
    if not 0 < found.in_unit("km") <= MOST_KM:
        raise Refused(f"Nothing was kept: a warranty of {found.text()} is none. Write a distance like 60000 km.")
    return found.text().replace("\u202f", " ")


def _day(typed: str) -> str:
    try:
        return date.fromisoformat(typed).isoformat() if typed else ""
    except ValueError:
        raise Refused(f"Nothing was kept: “{typed[:20]}” is no day. Write it like 2024-02-29.") from None
