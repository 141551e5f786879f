"""What is kept of the answers about each kind of line."""

from collections.abc import Callable, Mapping

from jobbook.core.desk.permission import Contact
from jobbook.core.desk.today import Due
from jobbook.core.people import Person
from jobbook.core.work.model import CORNERS
from jobbook.services.agreed.asking import keep_contact
from jobbook.services.house.clocks import confirm_clock
from jobbook.services.house.putting_off import put_off_backup
from jobbook.services.measured.stands import stop_stand
from jobbook.services.office.calls import close_call, keep_tried, move_call
from jobbook.services.office.tool_outcomes import close_tool
from jobbook.services.office.visits import Outcome, close_visit, move_promise, move_visit
from jobbook.services.office.waits import end_wait, hold
from jobbook.services.opened import OpenBook
from jobbook.ui.today.asks import CALIBRATION, MOVED, TO_WAIT, TRIES, WHEEL

Answers = Mapping[str, str]
Keep = Callable[[OpenBook, Person, Due, Answers], None]


def keep(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    """Keep what came of a line. Raises Refused with the sentence for the person."""
    KEEPERS[due.kind](book, who, due, answers)


def _call(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    outcome, note = answers["outcome"], answers["note"]
    if outcome in TRIES:
        keep_tried(book, who, f"call/{due.number}", answers["how"], outcome.removeprefix("tried "), note)
    elif outcome == MOVED:
        move_call(book, who, due.number, answers["moved"], note)
    else:
        close_call(book, who, due.number, outcome, note)


def _reminder(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    outcome, note = answers["outcome"], answers["note"]
    if outcome in TRIES:
        tried = outcome.removeprefix("tried ")
        keep_tried(book, who, f"reminder/{due.number}", answers["how"], tried, note, due.job)
    elif outcome == MOVED:
        move_visit(book, who, due.number, answers["moved"], note)
    else:
        close_visit(book, who, due.number, _outcome(answers))


def _outcome(answers: Answers) -> Outcome:
    """What came of it, with what was done at each wheel where that was asked."""
    told = {corner: answers.get(WHEEL + corner, "") for corner in CORNERS}
    turned = tuple(corner for corner in answers.get("turned", "").split(",") if corner)
    tool, odometer, by = (answers.get(name, "") for name in ("tool", "odometer", "by"))
    return Outcome(answers["outcome"], answers["note"], tool, odometer, told, turned, by)


def _waited(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    outcome = answers["outcome"].removeprefix("tried ")
    contact = Contact(book.now(), answers["how"], answers["reached_at"], outcome, answers["note"])
    keep_contact(book, who, due.job, contact)


def _job(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    if answers["outcome"] == TO_WAIT:
        hold(book, who, due.job, *(answers[name] for name in ("waits_for", "what", "moved", "stands")))
    else:
        move_promise(book, who, due.job, answers["moved"], answers["note"])


def _wait(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    end_wait(book, who, due.number, answers["outcome"], answers["note"])


def _stand(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    stop_stand(book, who, due.job, due.number, answers["note"])


def _tool(book: OpenBook, who: Person, due: Due, answers: Answers) -> None:
    close_tool(book, who, due.key, answers["outcome"], *(answers.get(name, "") for name in CALIBRATION))


def _clock(book: OpenBook, who: Person, _due: Due, answers: Answers) -> None:
    confirm_clock(book, who, answers["note"])


def _backup(book: OpenBook, who: Person, _due: Due, answers: Answers) -> None:
    """Putting it off; one that is made now is slow work, which the presenter begins."""
    put_off_backup(book, who, answers["moved"], answers["note"])


KEEPERS: Mapping[str, Keep] = {
    "call": _call,
    "visit": _reminder,
    "reminder": _reminder,
    "held": _reminder,
    "wait": _wait,
    "stand": _stand,
    "authority": _waited,
    "permission": _waited,
    "job": _job,
    "clock": _clock,
    "tool": _tool,
    "backup": _backup,
}
