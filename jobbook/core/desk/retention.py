"""How long a customer's data is kept: the years of a country profile, and what has been kept longer.

The years are those for which an invoice is kept by law, as the profile's source says: a least time, after which keeping
needs a reason of its own. Nothing is erased because of them; somebody looks at each and decides.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from math import ceil

from jobbook.core.desk.profiles import Profile
from jobbook.core.errors import Refused

MOST_AHEAD = 10  # years: our own choice
KEPT_ON = "kept-on/1"


@dataclass(frozen=True)
class KeptLong:
    """A customer whose last visit is longer ago than the profile keeps: `last` is its day, or that of their own entry
    where they never came. `holds` says what forgetting waits for, `looked_at` the
    reason of whoever kept it on before."""

    customer: int  # 0 of a call
    name: str
    last: str
    jobs: int = 0
    holds: str = ""
    looked_at: str = ""
    call: int = 0  # of somebody who called and never came: the number of the call

    @property
    def subject(self) -> str:
        """What an entry about it is about."""
        return f"call/{self.call}" if self.call else f"customer/{self.customer}"


def years_of(profile: Profile) -> int:
    """The years that a profile names, rounded up; 0 where it names none, which is not nought."""
    told = profile.value("retention_years")
    return ceil(Decimal(told)) if told else 0


def cutoff(today: date, years: int) -> date:
    """The day so many years ago. What ended before it has been kept longer; 29 February counts as the day before."""
    try:
        return today.replace(year=today.year - years)
    except ValueError:
        return today.replace(year=today.year - years, day=28)


def look_at_review(day: str, reason: str, today: date) -> None:
    """Refuse to keep somebody on without a reason, without a day to come, or for longer than MOST_AHEAD years."""
    if not reason.strip():
        raise Refused("Nothing was kept: write why it is kept on: a claim, a dispute, a recall, a warranty that runs.")
    if not day or not today < date.fromisoformat(day) <= today + timedelta(days=366 * MOST_AHEAD):
        raise Refused(f"Nothing was kept: write the day of the next look, within {MOST_AHEAD} years.")
