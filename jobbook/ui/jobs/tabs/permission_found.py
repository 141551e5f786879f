"""What was found and waits for the customer's word: each with its answer, or with what can be answered."""

from datetime import datetime

from jobbook.core.desk.answers_to_findings import NOT_OF_UNSAFE, OTHERWISE, PUT_RIGHT, TAKEN_BACK, FindingAnswered
from jobbook.core.desk.permission import WAYS, Declined
from jobbook.core.jobs import Permission
from jobbook.core.measured.diagnosis import UNSAFE, Finding, with_corner
from jobbook.core.written import unless_erased
from jobbook.services.agreed.permission_page import PermissionPage
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui.jobs.tabs import permission_asks, times
from jobbook.ui.jobs.tabs.records import Block, Deed, Line

ASKED_OF_NOBODY = "nobody was asked yet: it holds the release"
KEYS = ("permission", "declined", "found")
NOT_PUT_RIGHT = "allowed, and not yet put right: it holds the release"


def asked_about(page: PermissionPage) -> tuple[Finding, ...]:
    """The findings that want an answer: those that need permission, and whatever is unsafe to drive."""
    return tuple(one for one in page.findings if one.needs_permission or one.severity == UNSAFE)


def blocks(page: PermissionPage, now: datetime) -> tuple[Block, ...]:
    lines = tuple(_line(page, one, now) for one in asked_about(page))
    return (Block("Found, each to be allowed or declined", lines),) if lines else ()


def _line(page: PermissionPage, one: Finding, now: datetime) -> Line:
    answer, unsafe = page.agreed.answer_to(one.entry), one.severity == UNSAFE
    mark, said = _said(answer, unsafe)
    beside = f"{UNSAFE} · {said}" if unsafe else said
    at = one.at if answer is None else answer.at
    return Line(
        with_corner(one.words, one.corner),
        beside,
        mark,
        at,
        loud=unsafe and mark != "disc",
        deeds=answers_left(page, one, now),
    )


def _said(answer: Permission | Declined | FindingAnswered | None, unsafe: bool) -> tuple[str, str]:
    """The mark of a finding, and what was said of it."""
    if answer is None:
        return "ring", ASKED_OF_NOBODY
    if isinstance(answer, Declined):
        return "bar", f"declined · {answer.consequence.rstrip('.')}"
    if isinstance(answer, FindingAnswered):
        return "disc", f"{OTHERWISE[answer.answer]} · {answer.why}"
    return ("half", NOT_PUT_RIGHT) if unsafe else ("disc", _allowed(answer))


def _allowed(answer: Permission) -> str:
    by = unless_erased(answer.who)
    return f"allowed by {by}, {answer.how}"


def answers_left(page: PermissionPage, one: Finding, now: datetime) -> tuple[Deed, ...]:
    """What can still be answered: everything while nobody was asked; what was declined or told may yet be allowed, and
    what is unsafe and allowed be put right."""
    of, answer = str(one.entry), page.agreed.answer_to(one.entry)
    allowed = Deed("permission", "Allowed…", permission_asks.of_customer(page, now, one), of)
    declined = Deed("declined", "Declined…", permission_asks.of_declining(page, now, one), of)
    otherwise = Deed("found", "Otherwise…", _asks(page, one, now), of)
    if answer is None:
        return (allowed, declined, otherwise)
    if isinstance(answer, Permission):
        return (declined, otherwise) if one.severity == UNSAFE else ()
    is_over = isinstance(answer, FindingAnswered) and answer.answer in (PUT_RIGHT, TAKEN_BACK)
    return () if is_over else (allowed, otherwise)


def _asks(page: PermissionPage, one: Finding, now: datetime) -> tuple[Ask, ...]:
    unsafe = one.severity == UNSAFE
    told = {key: words for key, words in OTHERWISE.items() if not (unsafe and key in NOT_OF_UNSAFE)}
    return (
        Ask("answer", "What became of it", "list", permission_asks.options(told)),
        Ask("why", "What was said, or how it was shown right", "long text"),
        Ask("at", "When", "time", value=times.shown(now)),
        Ask("who", "Who was told", required=False, value="" if unsafe else page.job.may_authorise or page.customer),
        Ask("how", "How", "choice", tuple(Option(way, way) for way in WAYS), required=False),
    )
