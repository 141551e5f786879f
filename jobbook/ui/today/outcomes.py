"""What may come of each kind of line: what is asked, and what is kept of the answers."""

from collections.abc import Callable, Mapping

from jobbook.core.desk.calls import OUTCOMES as CALL_OUTCOMES
from jobbook.core.desk.permission import OUTCOMES as REACHED
from jobbook.core.desk.permission import Contact
from jobbook.core.desk.today import Due
from jobbook.core.people import Person
from jobbook.services.agreed.asking import keep_contact
from jobbook.services.house.clocks import confirm_clock
from jobbook.services.office.calls import HOW, close_call, keep_tried, move_call
from jobbook.services.office.tool_outcomes import CALIBRATED, close_tool
from jobbook.services.office.tool_outcomes import OUTCOMES as TOOL_OUTCOMES
from jobbook.services.office.visits import OUTCOMES as VISIT_OUTCOMES
from jobbook.services.office.visits import REMINDED, Outcome, close_visit, move_promise, move_visit
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option, options_of

Tr = Callable[[str], str]
Keep = Callable[[OpenBook, Person, Due, Mapping[str, str]], None]
MOVED = "moved"
CALIBRATION = ("calibrated_on", "due_on", "paper")
TRIES = {f"tried {word}": f"tried: {word}" for word in REACHED}


def asks(kind: str, tr: Tr) -> tuple[Ask, ...]:
    """The questions about a line of this kind; none where it is seen to at its own place."""
    how = Ask("how", tr("Tried how"), "list", options_of(HOW), value=HOW[0])
    note = Ask("note", tr("Note, reason or proof"), "long text", required=False)
    day = Ask("moved", tr("New day or time, like fri 17:00"), "time", required=False)
    outcomes = {
        "call": {MOVED: "another appointment"} | {k: v for k, v in CALL_OUTCOMES.items() if k != "arrived"} | TRIES,
        "visit": dict(VISIT_OUTCOMES) | {MOVED: "another day"} | TRIES,
        "reminder": dict(REMINDED) | {MOVED: "another day"},
        "authority": TRIES,
        "permission": TRIES,
        "tool": dict(TOOL_OUTCOMES),
    }
    if kind == "job":
        return (Ask("moved", tr("Promised for, like fri 17:00"), "time"), Ask("note", tr("Why"), "long text"))
    if kind == "clock":
        return (Ask("note", tr("The clock is right, because"), "long text"),)
    if kind not in outcomes:
        return ()
    options = tuple(Option(value, words) for value, words in outcomes[kind].items())
    first = Ask("outcome", tr("What came of it"), "list", options)
    if kind == "tool":
        return (first, *_calibration(tr))
    more = (Ask("tool", tr("Tightened with tool"), "serial", required=False), _odometer(tr)) if kind == "visit" else ()
    waited = (Ask("reached_at", tr("Number or address used"), "serial", required=False),)
    return (first, *more, day, how, note) if kind in ("call", "visit", "reminder") else (first, how, *waited, note)


def _calibration(tr: Tr) -> tuple[Ask, ...]:
    return (
        Ask("calibrated_on", tr("Calibrated on (day)"), "time", required=False),
        Ask("paper", tr("Number of the certificate"), "serial", required=False),
        Ask("due_on", tr("Due again on (day), where the shop has another interval"), "time", required=False),
    )


def _odometer(tr: Tr) -> Ask:
    return Ask("odometer", tr("Odometer at the visit"), "number", required=False)


def belongs(name: str, outcome: str | None) -> bool:
    """Whether a question belongs to the outcome that is chosen; None where there is no outcome to choose."""
    if outcome is None or name == "outcome":
        return True
    if name in ("how", "reached_at"):
        return outcome in TRIES
    if name in ("tool", "odometer"):
        return outcome == "done here"
    if name in CALIBRATION:
        return outcome == CALIBRATED
    return outcome == MOVED if name == "moved" else bool(outcome)


def keep(book: OpenBook, who: Person, due: Due, answers: Mapping[str, str]) -> None:
    """Keep what came of a line. Raises Refused with the sentence for the person."""
    KEEPERS[due.kind](book, who, due, answers)


def _call(book: OpenBook, who: Person, due: Due, answers: Mapping[str, str]) -> None:
    outcome, note = answers["outcome"], answers["note"]
    if outcome in TRIES:
        keep_tried(book, who, f"call/{due.number}", answers["how"], outcome.removeprefix("tried "), note)
    elif outcome == MOVED:
        move_call(book, who, due.number, answers["moved"], note)
    else:
        close_call(book, who, due.number, outcome, note)


def _visit(book: OpenBook, who: Person, due: Due, answers: Mapping[str, str]) -> None:
    outcome, note = answers["outcome"], answers["note"]
    if outcome in TRIES:
        tried = outcome.removeprefix("tried ")
        keep_tried(book, who, f"reminder/{due.number}", answers["how"], tried, note, due.job)
    elif outcome == MOVED:
        move_visit(book, who, due.number, answers["moved"], note)
    else:
        told = (answers.get("tool", ""), answers.get("odometer", ""))
        close_visit(book, who, due.number, Outcome(outcome, note, *told))


def _waited(book: OpenBook, who: Person, due: Due, answers: Mapping[str, str]) -> None:
    outcome = answers["outcome"].removeprefix("tried ")
    contact = Contact(book.now(), answers["how"], answers["reached_at"], outcome, answers["note"])
    keep_contact(book, who, due.job, contact)


def _promise(book: OpenBook, who: Person, due: Due, answers: Mapping[str, str]) -> None:
    move_promise(book, who, due.job, answers["moved"], answers["note"])


def _tool(book: OpenBook, who: Person, due: Due, answers: Mapping[str, str]) -> None:
    close_tool(book, who, due.key, answers["outcome"], *(answers.get(name, "") for name in CALIBRATION))


def _clock(book: OpenBook, who: Person, _due: Due, answers: Mapping[str, str]) -> None:
    confirm_clock(book, who, answers["note"])


KEEPERS: Mapping[str, Keep] = {
    "call": _call,
    "visit": _visit,
    "reminder": _visit,
    "authority": _waited,
    "permission": _waited,
    "job": _promise,
    "clock": _clock,
    "tool": _tool,
}
