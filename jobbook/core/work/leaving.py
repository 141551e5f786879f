"""What holds a vehicle, and what goes with it when it leaves."""

from collections.abc import Sequence

from jobbook.core.work.model import Joint, LooseEnd
from jobbook.core.work.state import Found, State


def held_by(state: State, ends: Sequence[LooseEnd], restriction: str, reason: str) -> str:
    """Why the vehicle may not leave, as a sentence; empty where it may. Loose ends want the reason for which they are
    let go; what must not leave so wants the restriction under which it leaves."""
    if ends and not reason:
        more = f" And {len(ends) - 1} more." if len(ends) > 1 else ""
        return f"{ends[0].sentence}{more} Close them, or let them go with a reason."
    grave = must_not_leave(state)
    if grave and not restriction:
        return f"“{grave[0].text}” must not leave so: repair it, or name the restriction it leaves with."
    return ""


def must_not_leave(state: State) -> tuple[Found, ...]:
    """What was found so bad that the vehicle may not leave with it, and is not repaired."""
    grave = (found for found in state.findings.values() if found.kind == "must not leave so")
    return tuple(found for found in grave if found.ended not in ("repaired", "withdrawn"))


def wheels_were_out(state: State) -> bool:
    """Whether a wheel joint was undone: then it is tightened once more after some distance."""
    wheels = (name for name, thing in state.things.items() if isinstance(thing, Joint) and thing.wheel)
    return any(state.joints[name].undone for name in wheels)
