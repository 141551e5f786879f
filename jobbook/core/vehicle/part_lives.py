"""How long the shop's own parts live: which of them were watched, and for how long.

Only parts that were taken off because they failed count as failures. A part that is still on was alive when its vehicle
was last seen; one that came off for another reason was alive when it came off.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from jobbook.core.days import day_of
from jobbook.core.vehicle.odometers import kilometres, true_distance
from jobbook.core.vehicle.vehicles import Odometer
from jobbook.core.vehicle.warranty import NO_TERM, Term

FAILED, UNKNOWN = "failed", "not known"
REASONS = {
    FAILED: "it failed",
    "damaged": "damaged by something else",
    "in good order": "in good order",
    UNKNOWN: "nobody knows",
}
STILL_ON = "still on"
DAYS_IN_A_YEAR = Fraction(36525, 100)  # Julian year, as calendars are counted over many years


@dataclass(frozen=True)
class FittedPart:
    """One part that was fitted. `off_at` is empty while it is on; `reason` why it came off, empty where nobody said.

    `place` is its corner, or empty for a part of the whole vehicle; `function` what it is there."""

    piece: str
    job: int
    vehicle: int
    function: str
    place: str
    title: str
    number: str
    supplier: str
    serial: str = ""
    batch: str = ""
    condition: str = "new"
    fitted_at: str = ""
    off_at: str = ""
    off_job: int = 0
    off_by: str = ""
    reason: str = ""
    entry: int = 0
    customer: int = 0  # who brought the vehicle when it was fitted
    term: Term = NO_TERM

    @property
    def failed(self) -> bool:
        return bool(self.off_at) and self.reason == FAILED


@dataclass(frozen=True)
class Watched:
    """A part with how long it was watched. `km` is None where the distance cannot be told for certain."""

    part: FittedPart
    days: int
    km: Fraction | None


@dataclass(frozen=True)
class Kind:
    """Parts that are counted together: of one function and axle, and of one number, one supplier, or both."""

    function: str
    axle: str = ""  # F or R, or empty for a part of the whole vehicle
    number: str | None = None
    supplier: str | None = None


@dataclass(frozen=True)
class Counted:
    """How many of a kind were fitted, failed, are still on, came off otherwise, and came off for no recorded reason."""

    kind: Kind
    title: str
    fitted: int
    failed: int
    still_on: int
    unsaid: int

    @property
    def otherwise(self) -> int:
        return self.fitted - self.failed - self.still_on - self.unsaid


AXLES = {"F": "front", "R": "rear"}


def kind_title(title: str, axle: str) -> str:
    """“Air strut, front”."""
    words = AXLES.get(axle, "")
    return title if not words or words in title.casefold() else f"{title}, {words}"


def watched(part: FittedPart, last_seen: str, readings: Sequence[Odometer], reading_job: dict[int, int]) -> Watched:
    """The part with the days and the distance that it was watched for.

    `last_seen` is when its vehicle was last in the shop, `readings` its odometer, the newest first, and `reading_job`
    the job of each reading by its entry."""
    until = part.off_at or max(last_seen, part.fitted_at)
    days = max(0, (day_of(until) - day_of(part.fitted_at)).days)
    return Watched(part, days, km_between(readings, reading_job, part.job, part.off_job))


def km_between(readings: Sequence[Odometer], job_of: dict[int, int], job: int, until: int = 0) -> Fraction | None:
    """What a vehicle ran from one job to another, or to its newest reading, over a counter that began anew; None where
    a reading is missing or does not follow from the one before. `readings` come the newest first."""
    listed = list(reversed(readings))
    begins = [place for place, one in enumerate(listed) if job_of.get(one.entry) == job]
    ends = [place for place, one in enumerate(listed) if job_of.get(one.entry) == until]
    if not begins or (until and not ends):
        return None
    start = begins[-1]
    end = max(start, ends[0] if until else len(listed) - 1)
    first = replace(listed[start], reset="")
    run = true_distance([*reversed(listed[start + 1 : end + 1]), first])
    if run is None or run.known != "exact":
        return None
    km = run.km - kilometres(first.value, first.unit)
    return km if km >= 0 else None
