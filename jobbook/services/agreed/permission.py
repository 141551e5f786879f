"""Permission: what the customer or the payer allowed, signed for, changed or took back."""

from dataclasses import asdict, replace

from jobbook.core.desk.money import read_money
from jobbook.core.desk.permission import (
    CHANGED,
    FACE_TO_FACE,
    MAY,
    MOVED,
    REFUSED,
    SCOPES,
    WAYS,
    WITHDRAWN,
    Change,
    is_the_customer,
    missing,
    withdrawn,
)
from jobbook.core.desk.profiles import tolerance
from jobbook.core.desk.signature import signed, to_text
from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.core.jobs import Permission
from jobbook.core.people import Person, Shop
from jobbook.core.record.journal import Draft
from jobbook.db.store import Book, WritingBook
from jobbook.services.agreed import permission_records as records
from jobbook.services.agreed.permission_text import text_of
from jobbook.services.house.people import writing
from jobbook.services.house.profiles import profile_of
from jobbook.services.job.in_hand import in_hand
from jobbook.services.opened import OpenBook
from jobbook.services.typed_times import look_at_day

SEALED = ("who", "reached_at", "acts_for")
LEFT_OUT = ("entry", "tolerance", "profile", *SEALED)


def permissions(book: OpenBook, job: int) -> tuple[Permission, ...]:
    """The permissions as they were given, withdrawn ones too."""
    with book.store.read() as reading:
        return tuple(reading.permissions(job))


def agreed(book: OpenBook, job: int) -> records.Agreed:
    """Everything that was agreed on a job."""
    with book.store.read() as reading:
        reading.jobs.get(job)
        return records.agreed(reading, job)


def give_permission(book: OpenBook, who: Person, job: int, permission: Permission, *, by: str = "") -> int:
    """Keep what was allowed: by whom, how, when, at which number or address, what and why, added cost, new total.

    `by` is who spoke with the customer, where it was another than who enters it. One that is to be signed on the screen
    counts from the signature on. Returns the number of its entry."""
    if permission.scope not in SCOPES or permission.how not in WAYS or permission.may not in ("", *MAY):
        raise Refused("The permission was not kept: choose what it allows, and how it was given.")
    if still := missing(permission):
        raise Refused(f"The permission was not kept: it still needs {' and '.join(still)}.")
    look_at_day(permission.valid_until, "The permission was not kept")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        shop = tx.shop()
        told = replace(permission, currency=permission.currency or shop.currency)
        _look_at_giver(tx, job, told)
        _look_at_number(tx, job, told)
        if told.added:
            read_money(told.added, told.currency)
        facts = {key: value for key, value in asdict(told).items() if key not in LEFT_OUT and value}
        facts |= {"job": job, "scope": told.scope} | _tolerated(shop, told)
        facts |= {key: tx.seal(str(getattr(told, key) or "").strip()) for key in SEALED}
        return tx.keep(Draft("permission/1", f"job/{job}", facts, job=job, meaning="allowed", done_by=by)).number


def _look_at_giver(tx: Book, job: int, permission: Permission) -> None:
    """Whoever is neither the customer nor named at arrival as who may allow work is asked about."""
    there = tx.jobs.get(job)
    customer = (tx.customers.get(there.customer_id).name or "") if there.customer_id else ""
    name = there.may_authorise or customer
    if permission.may or permission.scope == "authority" or is_the_customer(permission.who or "", name):
        return
    whose = "who may allow work here" if there.may_authorise else "the customer"
    raise Refused(
        f"The permission was not kept yet: {permission.who} is not {name or 'known to be'}, {whose}. "
        "Say whether they may allow it, and by what right."
    )


def _look_at_number(tx: Book, job: int, permission: Permission) -> None:
    """A number that was given for other work covers this only where the payer said so."""
    number, before = permission.authority.strip(), [one for one in tx.permissions(job) if one.scope == "authority"]
    if not number or permission.wording.strip() or all(one.authority != number for one in before):
        return
    raise Refused(
        f"The authority was not kept: {number} was given for other work of this job. "
        "Ask for a number of its own, or write down the payer's words by which it covers this too."
    )


def _tolerated(shop: Shop, permission: Permission) -> dict[str, str]:
    """How far the price may go over the total, as the shop's profile says it today; kept, since profiles change."""
    if permission.scope == "authority" or not permission.total:
        return {}
    profile = profile_of(shop)
    over = tolerance(profile, read_money(permission.total, permission.currency))
    return {"profile": profile.key} | ({"tolerance": over.text} if over.units else {})


def ask_authority(book: OpenBook, who: Person, job: int, payer: str) -> None:
    """Keep that a payer's authority was asked for: from now on nothing is taken apart before it is given."""
    if not payer.strip():
        raise Refused("Nothing was kept: name the payer who was asked.")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        tx.keep(Draft("asked/1", f"job/{job}", {"job": job, "what": "authority", "of": payer.strip()}, job=job))


def change_permission(book: OpenBook, who: Person, job: int, change: Change) -> None:
    """Keep that a permission was changed or withdrawn, or that the payer who was asked refused. What was given stays
    readable; from here on nothing is taken apart that only this permission allowed."""
    if change.what not in (WITHDRAWN, CHANGED, REFUSED) or change.how not in WAYS:
        raise Refused("Nothing was changed: say whether it was changed or withdrawn, and how.")
    if not (change.who or "").strip() or not change.at or not (change.why or "").strip():
        raise Refused("Nothing was changed: it needs who said it, when, and what was said.")
    if change.how not in FACE_TO_FACE and not (change.reached_at or "").strip():
        raise Refused("Nothing was changed: it still needs the number or address used.")
    if change.what == CHANGED and not (change.total or change.valid_until):
        raise Refused("Nothing was changed: give the new total, or until when it holds.")
    look_at_day(change.valid_until, "Nothing was changed")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        facts = asdict(change) | _new_total(tx, job, change)
        facts = {key: value for key, value in facts.items() if key not in ("entry", "by")}
        facts |= {key: tx.seal((getattr(change, key) or "").strip()) for key in ("who", "reached_at", "why")}
        tx.keep(Draft(records.CHANGED, f"job/{job}", facts | {"job": job}, job=job, meaning="allowed"))


def _new_total(tx: Book, job: int, change: Change) -> dict[str, str]:
    """The currency of what is changed. NotFound where nothing has that number, Conflict where it is withdrawn."""
    there = records.agreed(tx, job)
    if change.what == REFUSED:
        if all(one.entry != change.of for one in there.asked):
            raise NotFound("No payer was asked by that entry of this job; nothing was changed.")
        return {}
    permission = next((one for one in there.permissions if one.entry == change.of), None)
    if permission is None:
        raise NotFound("There is no such permission in this job; nothing was changed.")
    if withdrawn(permission, there.changes) is not None:
        raise Conflict("This permission was withdrawn already; nothing was changed. Keep a new one.")
    if change.total:
        read_money(change.total, permission.currency)
    return {"currency": permission.currency}


def text_to_sign(book: OpenBook, job: int, of: int) -> str:
    """The words that the customer signs on the screen under this permission. Raises NotFound."""
    with book.store.read() as reading:
        return text_of(reading, job, of)


def sign(book: OpenBook, who: Person, job: int, of: int, text: str, path: str, name: str) -> None:
    """Keep a signature that was drawn, sealed with exactly the text that stood above it.

    Refused when nothing was drawn; Conflict when the text is no longer what would be signed now."""
    drawn = signed(text, path)
    if not name.strip():
        raise Refused("Nothing was signed: it needs the name of who signs.")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        _look_at_text(tx, job, of, drawn.text)
        facts = {"job": job, "of": of, "name": tx.seal(name.strip()), "signed": tx.seal(to_text(drawn))}
        tx.keep(Draft(records.SIGNATURE, f"job/{job}", facts, job=job, meaning="allowed"))


def _look_at_text(tx: WritingBook, job: int, of: int, text: str) -> None:
    if text_of(tx, job, of) != text:
        raise Conflict("Nothing was signed: what is allowed was changed meanwhile. Read it again, and sign that.")
    if records.agreed(tx, job).signature_of(of) is not None:
        raise Conflict("Nothing was signed: this permission was signed already.")


def move_permission(book: OpenBook, who: Person, job: int, of: int, to: int, why: str) -> int:
    """Keep on job `to` the permission that was kept on `job` by mistake; both jobs show it. Returns its new entry."""
    if not why.strip() or to == job:
        raise Refused("Nothing was moved: name the other job, and say why it belongs there.")
    with writing(book, who, "desk") as tx:
        in_hand(tx, to)
        change = Change(of, MOVED, who.name, "spoken", book.now(), "", why, to=to)
        _new_total(tx, job, change)
        was = tx.journal.get(of)
        facts = dict(was.payload) | {"job": to, "moved_from": str(job)}
        told = {"of": of, "what": MOVED, "at": change.at, "how": "", "to": to, "why": tx.seal(why.strip())}
        told |= {"who": "", "reached_at": "", "job": job}
        tx.keep(Draft(records.CHANGED, f"job/{job}", told, job=job))
        draft = Draft("permission/1", f"job/{to}", facts, job=to, meaning="allowed", done_by=was.done_by)
        return tx.keep(replace(draft, done_at=was.done_at)).number
