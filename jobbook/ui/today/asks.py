"""What is asked about each kind of line, and which of it belongs to the outcome that is chosen. No Qt in here."""

from collections.abc import Callable, Mapping

from jobbook.core.desk.calls import OUTCOMES as CALL_OUTCOMES
from jobbook.core.desk.outcomes import CALIBRATED, OF_A_REMINDER, OF_A_TOOL, OF_A_VISIT, OF_A_WAIT, TRIED_HOW
from jobbook.core.desk.permission import OUTCOMES as REACHED
from jobbook.core.desk.waits import HELD, STANDS, WAITS_FOR
from jobbook.core.work.model import CORNERS
from jobbook.services.sheet.questions import Ask, options_of

Tr = Callable[[str], str]
Hint = Callable[[str], str]
MOVED, TO_WAIT, NOW, LATER, GIVEN_UP = "moved", "to wait", "now", "later", "given up"
DONE_HERE = "done here"
CALIBRATION = ("calibrated_on", "due_on", "paper")
WAITING = ("waits_for", "what", "stands")
AT_THE_VISIT = ("tool", "turned", "by", "odometer")
WHEEL = "wheel "
TRIES = {f"tried {word}": f"tried: {word}" for word in REACHED}
OUTCOMES: Mapping[str, Mapping[str, str]] = {
    "call": {MOVED: "another appointment"} | {k: v for k, v in CALL_OUTCOMES.items() if k != "arrived"} | TRIES,
    "job": {MOVED: "promised for another time", TO_WAIT: "it has to wait for something"},
    "wait": dict(OF_A_WAIT),
    "stand": {GIVEN_UP: "given up, with its reason"},
    "held": dict(HELD) | {MOVED: "another day"} | TRIES,
    "visit": dict(OF_A_VISIT) | {MOVED: "another day"} | TRIES,
    "reminder": dict(OF_A_REMINDER) | {MOVED: "another day"},
    "authority": TRIES,
    "permission": TRIES,
    "tool": dict(OF_A_TOOL),
    "backup": {NOW: "made now, into this folder", LATER: "not now: ask again on another day"},
}
FIELDS: Mapping[str, tuple[str, ...]] = {
    "call": ("moved", "how", "note"),
    "job": (*WAITING[:2], "moved", WAITING[2], "note"),
    "wait": ("note",),
    "stand": ("note",),
    "held": ("moved", "how", "note"),
    "visit": (*(WHEEL + corner for corner in CORNERS), *AT_THE_VISIT, "moved", "how", "note"),
    "reminder": ("moved", "note"),
    "authority": ("how", "reached_at", "note"),
    "permission": ("how", "reached_at", "note"),
    "tool": ("calibrated_on", "paper", "due_on"),
    "backup": ("place", "moved", "note"),
}
ASKED = (*FIELDS, "clock")  # the kinds of lines that something is asked about


def asks(kind: str, tr: Tr, ahead: Hint | None = None, past: Hint | None = None) -> tuple[Ask, ...]:
    """The questions about a line of this kind; none where it is seen to at its own place. `ahead` and `past` say how a
    typed day to come, and one that was, is understood."""
    if kind == "clock":
        return (Ask("note", tr("The clock is right, because"), "long text"),)
    if kind not in FIELDS:
        return ()
    known = {
        ask.name: ask
        for ask in (*_general(tr, ahead), *_waiting(tr), *_at_the_visit(tr), *_calibration(tr, ahead, past))
    }
    return (Ask("outcome", tr("What came of it"), "list", options_of(OUTCOMES[kind])), *map(known.get, FIELDS[kind]))  # type: ignore[arg-type]


def _general(tr: Tr, ahead: Hint | None) -> tuple[Ask, ...]:
    return (
        Ask("how", tr("Tried how"), "list", options_of(TRIED_HOW), value=TRIED_HOW[0]),
        Ask("reached_at", tr("Number or address used"), "serial", required=False),
        Ask("moved", tr("Day or time, like fri 17:00"), "time", required=False, hint=ahead),
        Ask("place", tr("Into this folder, or onto this stick"), "folder", required=False),
        Ask("note", tr("Note, reason or proof"), "long text", required=False),
    )


def _waiting(tr: Tr) -> tuple[Ask, ...]:
    return (
        Ask("waits_for", tr("It waits for"), "list", options_of(WAITS_FOR), required=False),
        Ask("what", tr("What exactly, and from whom"), required=False),
        Ask("stands", tr("Meanwhile the vehicle stands"), "list", options_of(STANDS), required=False),
    )


def _at_the_visit(tr: Tr) -> tuple[Ask, ...]:
    to = tr("{0} tightened to, or “no”")
    wheels = (Ask(WHEEL + corner, to.format(corner), "quantity", unit="N·m", required=False) for corner in CORNERS)
    return (
        *wheels,
        Ask("tool", tr("With tool"), "serial", required=False),
        Ask("turned", tr("Turned further before it held"), "pieces", options_of(CORNERS), required=False),
        Ask("by", tr("Tightened by, where it was another"), "list", required=False),
        Ask("odometer", tr("Odometer at the visit"), "number", required=False),
    )


def _calibration(tr: Tr, ahead: Hint | None, past: Hint | None) -> tuple[Ask, ...]:
    return (
        Ask("calibrated_on", tr("Calibrated on (day)"), "time", required=False, hint=past),
        Ask("paper", tr("Number of the certificate"), "serial", required=False),
        Ask("due_on", tr("Due again on (day), where not in a year"), "time", required=False, hint=ahead),
    )


BELONGS: Mapping[str, Callable[[str], bool]] = {
    "how": lambda outcome: outcome in TRIES,
    "reached_at": lambda outcome: outcome in TRIES,
    "moved": lambda outcome: outcome in (MOVED, TO_WAIT, LATER),
    "place": lambda outcome: outcome == NOW,
    "note": lambda outcome: outcome not in ("", NOW, TO_WAIT, "main"),
    **dict.fromkeys(WAITING, lambda outcome: outcome == TO_WAIT),
    **dict.fromkeys(AT_THE_VISIT, lambda outcome: outcome == DONE_HERE),
    **dict.fromkeys(CALIBRATION, lambda outcome: outcome == CALIBRATED),
}


def belongs(name: str, outcome: str | None, wheels: tuple[str, ...] = ()) -> bool:
    """Whether a question belongs to the outcome that is chosen; None where there is no outcome to choose. `wheels`:
    the corners that are asked about, all where none is named."""
    if outcome is None or name == "outcome":
        return True
    if name.startswith(WHEEL):
        return outcome == DONE_HERE and (not wheels or name.removeprefix(WHEEL) in wheels)
    return BELONGS[name](outcome)
