"""A computer's clock that went back: the order of the entries and of their times must not part without a word."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from jobbook.core.written import day_and_hour

SET_BACK = "clock-set-back/1"
MAY_GO_BACK = timedelta(hours=24)  # our own choice: more than a journey, a change of the clocks or a time server takes
LONG_SILENT = timedelta(days=60)  # our own choice: longer than a shop is shut, shorter than a wrong year


@dataclass(frozen=True)
class Ahead:
    """Entries `first` to `last` bear times of a clock that ran ahead, up to `until`, until somebody confirmed by
    `entry` that it was set right, which was at `set_right`. Their order is right; their times are not."""

    first: int
    last: int
    until: str
    set_right: str
    entry: int

    @property
    def sentence(self) -> str:
        which = f"Entries {self.first} to {self.last} bear" if self.last > self.first else f"Entry {self.last} bears"
        until, right = (day_and_hour(datetime.fromisoformat(one)) for one in (self.until, self.set_right))
        return f"{which} times up to {until}: the clock ran ahead, and was set right on {right} (entry {self.entry})."


def says_times(told: Mapping[str, Any]) -> bool:
    """Whether an entry that set a clock right says readable times; one that does not is a matter for the audit."""
    try:
        for name in ("last", "now"):
            datetime.fromisoformat(told[name])
    except (KeyError, ValueError, TypeError):
        return False
    return isinstance(told.get("entry"), int)


def leapt(last: str, now: datetime) -> str:
    """What is said where nothing was kept for very long: the clock may run ahead. Empty where it was not so long."""
    try:
        before = datetime.fromisoformat(last)
        long = now - before > LONG_SILENT
    except (ValueError, TypeError):
        return ""
    if not long:
        return ""
    return (
        f"Nothing was kept since {day_and_hour(before)}, and this computer's clock says {day_and_hour(now)}: look "
        "whether that is right before you keep anything. What is kept now bears this time for good."
    )


def gone_back(last: str, now: datetime) -> str:
    """Why nothing is kept at this moment, where the last entry was made much later than it; or "".

    `last` is an ISO time with its zone; one that cannot be read is a matter for the audit."""
    try:
        before = datetime.fromisoformat(last)
        far = before - now > MAY_GO_BACK
    except (ValueError, TypeError):
        return ""
    if not far:
        return ""
    return (
        f"This computer's clock says {day_and_hour(now)}, but the last entry was made on {day_and_hour(before)}: "
        "nothing was kept. Set the clock right and do it again; if the clock is right, confirm that on the page Today."
    )
