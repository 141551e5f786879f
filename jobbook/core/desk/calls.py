"""First contact: somebody calls before the vehicle comes. What is asked, and how a call ends."""

from dataclasses import dataclass
from datetime import date, datetime

from jobbook.core import days

TEMPERATURES = {"cold": "cold", "hot": "hot", "either": "cold or hot", "unknown": "not known"}
AFTER = {"standing": "after standing", "driving": "after driving", "either": "either", "unknown": "not known"}
DRIVEN = {"yes": "yes", "no": "no, on a flatbed", "unknown": "not known"}
OUTCOMES = {
    "arrived": "the vehicle came",
    "did not come": "did not come",
    "went elsewhere": "went elsewhere",
    "not needed": "no longer needed",
}
FLAT = (
    "Do not let it be driven on a flat spring: strut, wing and tyre can be ruined, and it can become unsafe within a "
    "short way. Have it recovered on a flatbed, with the wheels free of the arches. The maker's towing instructions "
    "come first."
)
FLAT_IN_SHORT = "Not to be driven on a flat spring: it comes on a flatbed."
OVERNIGHT = "A leak-down needs a stand overnight: let it come the evening before, and leave it a level place."


@dataclass(frozen=True)
class Call:
    """One call. What a person said is None where it was erased. `expected` is an ISO day or time, or ""; `overnight`
    whether it must stand overnight; `driven` whether it can be driven (common practice, nobody has seen it yet)."""

    number: int
    caller: str | None
    phone: str | None
    words: str | None
    plate: str = ""
    vehicle: str = ""
    warning: str | None = ""
    corners: tuple[str, ...] = ()
    since: str = ""
    temperature: str = "unknown"
    after: str = "unknown"
    payer: str = "customer"
    elsewhere: str | None = ""
    driven: str = "unknown"
    expected: str = ""
    overnight: bool = False
    outcome: str = ""
    job: int = 0
    taken_at: str = ""
    taken_by: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Tried:
    """One attempt to reach somebody: how, what came of it, and what was said."""

    how: str
    outcome: str
    note: str | None
    at: str
    by: str


def read_moment(typed: str) -> str | None:
    """A day or a time as it was kept: "2026-11-27" or "2026-11-27T17:00"; "" where there is none.

    None for what is none of these. The hour may stand behind a blank, with a colon or a point."""
    said = typed.strip().replace(" ", "T", 1).replace(" ", "")
    if not said:
        return ""
    if said.count(".") == 1 and "T" in said:
        said = said.replace(".", ":")
    try:
        if "T" not in said:
            return date.fromisoformat(said).isoformat()
        moment = datetime.fromisoformat(said)
    except ValueError:
        return None
    return moment.replace(tzinfo=None).isoformat(timespec="minutes")


def appointed(typed: str, now: datetime) -> str | None:
    """As `read_moment`, of what somebody types for a time to come: "fri 17:00" is kept as "2026-11-27T17:00"."""
    return days.kept(found) if (found := days.read_moment(typed, now, ahead=True)) else None if typed.strip() else ""


def advice(driven: str, overnight: bool) -> tuple[str, ...]:
    """What the caller is to be told before they hang up."""
    return ((FLAT,) if driven != "yes" else ()) + ((OVERNIGHT,) if overnight else ())


def concern_of(call: Call) -> str:
    """The concern in the customer's words, with what else was asked on the telephone, on one line."""
    parts = [(call.words or "").strip().rstrip(".")]
    parts += [f"warning: {call.warning}"] if call.warning else []
    parts += [" ".join(call.corners)] if call.corners else []
    parts += [f"since {call.since}"] if call.since else []
    parts += [TEMPERATURES[call.temperature]] if call.temperature in ("cold", "hot") else []
    parts += [AFTER[call.after]] if call.after in ("standing", "driving") else []
    parts += [f"earlier work elsewhere: {call.elsewhere}"] if call.elsewhere else []
    said = "; ".join(" ".join(part.split()) for part in parts if part.strip())
    return f"{said}." if said else ""
