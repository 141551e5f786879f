"""What is done on the Permission tab becomes one use case each; the words say what was kept."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from jobbook.core.desk.answers_to_findings import OTHERWISE, FindingAnswered
from jobbook.core.desk.permission import REFUSED, SCOPES, Contact, Declined, Overrun
from jobbook.core.quantities.whole import whole_number
from jobbook.services.agreed import asking, permission
from jobbook.services.agreed.permission_page import permission_page
from jobbook.services.opened import OpenBook
from jobbook.ui.jobs.tabs import times
from jobbook.ui.jobs.tabs.permission_told import change_of, permission_of
from jobbook.ui.jobs.tabs.records import Answers, Deed, Signing


def _keep_permission(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    told = permission_of(given, deed.key, book.clock(), permission_page(book, job).shop.currency, deed.of)
    permission.give_permission(book, by.who, job, told, by=given.get("by", ""))
    return f"Permission: {SCOPES[told.scope]}"


def _ask(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    permission.ask_authority(book, by.who, job, given["payer"])
    return f"Authority asked of {given['payer']}"


def _change(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    told = change_of({**given, "what": given.get("what", REFUSED)}, int(deed.of), book.clock())
    permission.change_permission(book, by.who, job, told)
    return f"It was {told.what}"


def _move(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    to = whole_number(given["to"]) or 0
    permission.move_permission(book, by.who, job, int(deed.of), to, given["why"])
    return f"The permission is kept on job {to}"


def _sign(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    permission.sign(book, by.who, job, int(deed.of), deed.explain, given["path"], given["name"])
    return f"Signed by {given['name']}"


def _decline(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    at = times.read(given["at"], book.clock())
    told = Declined(
        given["subject"], given["what"], given["consequence"], given["who"], given["how"], at, given["reached_at"],
        int(deed.of or 0),
    )  # fmt: skip
    asking.keep_declined(book, by.who, job, told)
    return "Kept as declined"


def _found(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    at = times.read(given["at"], book.clock())
    told = FindingAnswered(int(deed.of), given["answer"], given["why"], given["who"], given["how"], at)
    asking.keep_answer(book, by.who, job, told)
    return f"Of the finding: {OTHERWISE[told.answer]}"


def _contact(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    at = times.read(given["at"], book.clock())
    told = Contact(
        at,
        given["how"],
        given["reached_at"],
        given["outcome"],
        given["said"],
        int(given.get("about", "0")),
        given["by"],
    )
    asking.keep_contact(book, by.who, job, told)
    return f"Tried {told.how}: {told.outcome}"


def _overrun(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    asking.keep_overrun(
        book, by.who, job, Overrun(times.read(given["known_at"], book.clock()), given["total"], given["why"])
    )
    return "It is kept since when the price is known to be higher"


KEEPING: Mapping[str, Callable[[OpenBook, Signing, int, Deed, dict[str, str]], str]] = MappingProxyType(
    {
        "permission": _keep_permission,
        "authority": _keep_permission,
        "asked": _ask,
        "change": _change,
        "refused": _change,
        "move": _move,
        "sign": _sign,
        "declined": _decline,
        "found": _found,
        "contact": _contact,
        "overrun": _overrun,
    }
)
