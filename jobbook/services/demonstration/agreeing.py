"""What is agreed at the desk in the demonstration: lines, what was declined, permissions and a drawn signature."""

from collections.abc import Mapping
from typing import Any

from jobbook.core.desk.calls import Call
from jobbook.core.desk.estimate import Line, Terms
from jobbook.core.desk.handed_in import HandedIn
from jobbook.core.desk.permission import Declined
from jobbook.core.jobs import Permission
from jobbook.core.people import Person
from jobbook.services.agreed import asking, estimate, permission
from jobbook.services.house.shop import shop
from jobbook.services.office import calls
from jobbook.services.office.handed_in import keep_handed_in
from jobbook.services.opened import OpenBook

Script = Mapping[str, Any]


def agree(book: OpenBook, clerk: Person, job: int, script: Script) -> None:
    """Keep what a job's script says was handed over, reckoned, declined and allowed."""
    if "handed_in" in script:
        keep_handed_in(book, clerk, job, HandedIn(**script["handed_in"]))
    own = shop(book)
    for told in script.get("line", ()):
        estimate.keep_line(book, clerk, job, Line(0, currency=own.currency, tax=own.tax_rate, **told))
    if "terms" in script:
        estimate.keep_terms(book, clerk, job, Terms(**script["terms"]))
    for told in script.get("decline", ()):
        asking.keep_declined(book, clerk, job, Declined(at=book.now(), **told))
    for told in script["permission"]:
        _permit(book, clerk, job, dict(told))


def _permit(book: OpenBook, clerk: Person, job: int, told: dict[str, Any]) -> None:
    path = told.pop("signature", "")
    given = Permission(at=book.now(), reached_at=told.pop("reached_at", ""), **told)
    entry = permission.give_permission(book, clerk, job, given)
    if path:
        text = permission.text_to_sign(book, job, entry)
        permission.sign(book, clerk, job, entry, text, path, given.who or "")


def ask_others(book: OpenBook, clerk: Person, job: int, script: Script) -> None:
    """Ask the payer for authority, and take the call that comes in meanwhile."""
    if "asked" in script:
        permission.ask_authority(book, clerk, job, script["asked"]["payer"])
    if "call" in script:
        told = dict(script["call"])
        calls.take_call(book, clerk, Call(0, corners=tuple(told.pop("corners")), **told))


def mark_done(book: OpenBook, technician: Person, job: int) -> None:
    """Every line that was to do is done."""
    for line in permission.agreed(book, job).lines:
        estimate.change_state(book, technician, job, line, "done")
