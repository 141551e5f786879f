"""What a permission must say, who may give it, and what becomes of it: signed, changed, withdrawn.

The seven facts are those that courts and offices ask for: who, how, when, at which number, what and why, what it adds,
the new total.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from jobbook.core.jobs import Permission

SCOPES = {
    "diagnosis": "diagnosis up to the limit",
    "dismantle": "diagnosis and dismantling up to the limit",
    "repair": "the repair up to the limit",
    "extra": "extra work, with a new total",
    "authority": "the payer's authority",
}
DISMANTLING = ("dismantle", "repair", "extra")
LIMITING = ("diagnosis", *DISMANTLING)
ON_SCREEN = "signed on the screen"
WAYS = ("signed", ON_SCREEN, "spoken", "by telephone", "by message", "by mail")
FACE_TO_FACE = ("signed", ON_SCREEN, "spoken")  # no number or address is used then
UNWRITTEN = ("spoken", "by telephone")
MAY = {
    "customer": "is the customer",
    "acts for": "acts for the customer",
    "may not": "may not allow it",
    "unknown": "not known whether they may",
}
COUNTING = ("", "customer", "acts for")
PARTS_BACK = {
    "back": "wants the old parts back",
    "see": "wants to see the old parts",
    "no": "does not want the old parts",
    "not asked": "was not asked about the old parts",
}
KEPT_PARTS = {
    "exchange": "goes back in exchange; can be seen, not kept",
    "warranty": "goes back under warranty; can be seen, not kept",
}
WITHDRAWN, CHANGED, MOVED = "withdrawn", "changed", "moved"  # moved: it belongs to another job
REFUSED = "refused"  # by the payer who was asked
OUTCOMES = ("reached", "no answer", "message left", "wrong number")


@dataclass(frozen=True)
class Change:
    """A permission was withdrawn or changed: by whom, how, when, why, and what stands from then on."""

    of: int  # the entry of the permission, or that by which a payer was asked
    what: str
    who: str | None
    how: str
    at: str
    reached_at: str | None
    why: str | None
    total: str = ""
    valid_until: str = ""
    to: int = 0  # the job that it was moved to
    by: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Contact:
    """One time that somebody tried to reach the customer. `about` is the entry of what they were to be told, or 0."""

    at: str
    how: str
    reached_at: str | None
    outcome: str
    said: str | None = ""
    about: int = 0
    by: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Overrun:
    """The price will be higher than was said. `known_at`: when the shop knew; a contact says when they were told."""

    known_at: str
    total: str
    why: str
    currency: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Declined:
    """One thing that the customer declined, with what may come of it, as it was said to them."""

    subject: str  # a key of core/desk/declined.py
    what: str
    consequence: str
    who: str | None
    how: str
    at: str
    reached_at: str | None = ""
    finding: int = 0
    bars: bool = False  # the shop does not release a vehicle without it
    entry: int = 0


def counts(permission: Permission) -> bool:
    """Whether the person who gave it may give it, as far as is known."""
    return permission.may in COUNTING


def missing(permission: Permission) -> list[str]:
    """Which of the seven facts are not there yet, in words."""
    return [label for label, value in _facts(permission) if not value.strip()]


def _facts(permission: Permission) -> Iterator[tuple[str, str]]:
    yield "who gave it", permission.who or ""
    yield "how", permission.how
    yield "when", permission.at
    yield "what was allowed and why", permission.what
    if permission.how not in FACE_TO_FACE:
        yield "the number or address used", permission.reached_at or ""
    if permission.scope == "extra":
        yield "the added cost", permission.added
    if permission.scope == "authority":
        yield "the payer's number", permission.authority
    else:
        yield "the limit or new total", permission.total
    if permission.may == "acts for":
        yield "by what right they act for the customer", permission.acts_for or ""


def is_the_customer(given_by: str, customer: str) -> bool:
    """Whether a name is the customer's: every word of it, a title left out, is a word of theirs."""
    said, known = (_words(name) for name in (given_by, customer))
    return bool(said) and said <= known


def _words(name: str) -> set[str]:
    titles = {"mr", "mrs", "ms", "dr", "miss"}
    return {word.strip(".").casefold() for word in name.replace(",", " ").split()} - titles


def as_changed(permission: Permission, changes: Sequence[Change]) -> Permission:
    """The permission with what was changed of it since; a withdrawn one keeps what it said."""
    for change in changes:
        if change.of == permission.entry and change.what == CHANGED:
            total, until = change.total or permission.total, change.valid_until or permission.valid_until
            permission = replace(permission, total=total, valid_until=until)
    return permission


def withdrawn(permission: Permission, changes: Sequence[Change]) -> Change | None:
    """The withdrawing of this permission, or None while it stands."""
    return next((one for one in changes if one.of == permission.entry and one.what in (WITHDRAWN, MOVED)), None)


def told_at(overrun: Overrun, contacts: Sequence[Contact]) -> Contact | None:
    """When the customer was told of an overrun, or None where nobody was reached yet."""
    return next((one for one in contacts if one.about == overrun.entry and one.outcome == "reached"), None)


def parts_words(permissions: Sequence[Permission], asked_at_arrival: str) -> str:
    """What was agreed about the old parts: the last wish that was given with a permission, or that of the arrival."""
    last = next((one for one in reversed(permissions) if one.parts_back), None)
    if last is None:
        return asked_at_arrival
    wish = PARTS_BACK.get(last.parts_back, last.parts_back)
    return f"{wish}; {last.parts_kept}" if last.parts_kept else wish
