"""The visit after wheels were off: each wheel's joints tightened once more, with value, tool and person.

Common practice: after some 50 to 100 km, on the ground, each nut or bolt of the wheel; where a fastener turned further,
the wheel is looked at again sooner. The maker's instructions come first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from jobbook.core.record.journal import Entry
from jobbook.core.work.model import CORNERS, Joint
from jobbook.core.work.state import State

RETORQUED = "retorque/1"
VISIT_KINDS = ("reminder/1", "reminder-closed/1", RETORQUED)
NOT_DONE = ("no", "not done", "-")  # typed in the place of a value


@dataclass(frozen=True)
class Wheel:
    """The joints of one wheel that was off in a job. `joint` is their full name; empty where no method named them."""

    corner: str
    joint: str = ""
    title: str = "wheel joints"
    count: int = 0


@dataclass(frozen=True)
class Tightened:
    """What was done at one wheel on the visit. `reached` is as the tool gives it: “clicked at 140 N·m”; `wanted` the
    figure of the job with its document; `turned` whether a fastener turned further before it held."""

    wheel: str
    answer: str
    reached: str
    tool: str
    turned: bool
    wanted: str
    unfit: str
    by: str
    at: str
    job: int
    reminder: int

    @property
    def words(self) -> str:
        """In one line, without who and when."""
        if self.answer != "done":
            return f"{self.wheel}: {self.answer}"
        return f"{self.wheel}: {self.reached}" + (", turned further" if self.turned else ", none turned further")


def wheels_off(state: State) -> tuple[Wheel, ...]:
    """The wheels whose joints were undone in this job, in the order of the corners."""
    joints = [
        one for one in state.things.values() if isinstance(one, Joint) and one.wheel and state.joints[one.name].undone
    ]
    found = {_corner(one): Wheel(_corner(one), one.name, one.title, one.count) for one in joints}
    return tuple(found[corner] for corner in CORNERS if corner in found)


def _corner(joint: Joint) -> str:
    return joint.corner or joint.name.partition("@")[2]


def lacking(wheels: tuple[Wheel, ...], told: Mapping[str, str]) -> str:
    """The wheels of which nothing was said, in words; empty where something was said of each that was off, or of one at
    least where the job does not say which were."""
    if not wheels:
        return "" if any(told.values()) else "at least one wheel"
    return " and ".join(one.corner for one in wheels if not told.get(one.corner, "").strip())


def tightened_from(entry: Entry) -> Tightened:
    facts = entry.payload
    tool = facts.get("tool", "")
    told = {name: str(facts.get(name, "")) for name in ("wheel", "answer", "reached", "wanted", "unfit")}
    more = (entry.done_by, entry.done_at, int(facts["job"] or 0), int(facts["reminder"]))
    return Tightened(
        told["wheel"], told["answer"], told["reached"], str(tool), bool(facts.get("turned")), told["wanted"],
        told["unfit"], *more,
    )  # fmt: skip


@dataclass(frozen=True)
class VisitThen:
    """A visit that was asked for after a job, and what came of it; `note` is None where it was erased."""

    job: int
    reminder: int
    due_on: str
    outcome: str = ""
    at: str = ""
    by: str = ""
    note: str | None = ""
    wheels: tuple[Tightened, ...] = ()


def visits_from(entries: Sequence[Entry], what: str) -> tuple[VisitThen, ...]:
    """The visits of that name that entries of VISIT_KINDS tell of, in order. A note is still its commitment."""
    first = {
        e.number: e for e in entries if e.kind == "reminder/1" and e.replaces is None and e.payload["what"] == what
    }
    moved = {e.replaces: e for e in entries if e.kind == "reminder/1" and e.replaces is not None}
    closed = {int(e.payload["reminder"]): e for e in entries if e.kind == "reminder-closed/1"}
    wheels = [tightened_from(entry) for entry in entries if entry.kind == RETORQUED]
    found = []
    for number, asked in first.items():
        last: Entry = asked
        while last.number in moved:
            last = moved[last.number]
        visit = VisitThen(int(asked.payload["job"] or 0), number, str(last.payload["due_on"]))
        found.append(_ended(visit, closed.get(number), tuple(one for one in wheels if one.reminder == number)))
    return tuple(found)


def _ended(visit: VisitThen, closed: Entry | None, wheels: tuple[Tightened, ...]) -> VisitThen:
    if closed is None:
        return visit
    outcome, note = (str(closed.payload.get(name, "")) for name in ("outcome", "note"))
    return replace(visit, outcome=outcome, note=note, at=closed.done_at, by=closed.done_by, wheels=wheels)
