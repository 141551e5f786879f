"""A computer's clock that went back: the order of the entries and of their times must not part without a word."""

from datetime import datetime, timedelta

from jobbook.core.written import day_and_hour

SET_BACK = "clock-set-back/1"
MAY_GO_BACK = timedelta(hours=24)  # our own choice: more than a journey, a change of the clocks or a time server takes


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
