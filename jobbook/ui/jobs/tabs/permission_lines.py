"""Lines of the Permission tab: what was allowed and what became of it, what was declined, each attempt to reach."""

from collections.abc import Sequence
from datetime import datetime

from jobbook.core.desk.money import money_or_none
from jobbook.core.desk.permission import (
    MAY,
    MOVED,
    ON_SCREEN,
    PARTS_BACK,
    SCOPES,
    Change,
    Contact,
    Declined,
    Overrun,
    counts,
    told_at,
    withdrawn,
)
from jobbook.core.jobs import Permission
from jobbook.core.written import unless_erased
from jobbook.services.agreed.permission_page import PermissionPage
from jobbook.services.agreed.permission_records import Asked
from jobbook.services.sheet.sheets import Ask
from jobbook.ui.jobs.tabs import permission_asks
from jobbook.ui.jobs.tabs.records import Deed, Line
from jobbook.ui.moments import day, day_and_hour


def permission_line(page: PermissionPage, one: Permission, now: datetime) -> Line:
    gone = withdrawn(one, page.agreed.changes)
    waits = one.entry in page.to_sign
    mark = "bar" if gone or not counts(one) else "ring" if waits else "disc"
    scope = SCOPES[one.scope]
    words = f"{scope[0].upper()}{scope[1:]}: {one.what}"
    beside = " · ".join(filter(None, (*_parts(one), *_became(page, one, gone))))
    return Line(words, beside, mark, one.at, loud=not counts(one), deeds=_deeds(page, one, now, gone))


def _parts(one: Permission) -> tuple[str, ...]:
    amounts = {"added": one.added, "limit": one.total, "putting together again": one.reassembly}
    return (
        f"{unless_erased(one.who)}, {one.how}",
        "" if one.may in ("", "customer") else f"{MAY[one.may]} {unless_erased(one.acts_for)}".strip(),
        unless_erased(one.reached_at),
        f"number {one.authority}" if one.authority else "",
        *(f"{title} {_amount(amount, one.currency)}" for title, amount in amounts.items() if amount),
        f"{one.tolerance} over it without asking" if one.tolerance else "",
        f"until {day(one.valid_until)}" if one.valid_until else "",
        PARTS_BACK.get(one.parts_back, "") if one.parts_back != "not asked" else "",
        one.parts_kept,
        one.wording and f"“{one.wording}”",
        f"kept first on job {one.moved_from}" if one.moved_from else "",
    )


def _amount(text: str, currency: str) -> str:
    """An amount for people; one of an older entry that cannot be read stands as it was typed."""
    money = money_or_none(text, currency)
    return money.shown if money is not None else f"{text} {currency}".strip()


def _became(page: PermissionPage, one: Permission, gone: Change | None) -> tuple[str, ...]:
    changes = [change for change in page.agreed.changes if change.of == one.entry]
    signature = page.agreed.signature_of(one.entry)
    signed = (
        f"signed on the screen {day_and_hour(signature.at)} by {unless_erased(signature.name)}" if signature else ""
    )
    waits = (
        "waits for the signature: it counts from then on" if one.how == ON_SCREEN and not (signature or gone) else ""
    )
    return (*map(_change, changes), signed, waits)


def _change(change: Change) -> str:
    if change.what == MOVED:
        return f"MOVED to job {change.to}: {unless_erased(change.why)}"
    new = (change.total and f"to {change.total}", change.valid_until and f"until {day(change.valid_until)}")
    told = " ".join(
        filter(None, (change.what.upper(), *new, day_and_hour(change.at), f"by {unless_erased(change.who)}"))
    )
    return f"{told}: {unless_erased(change.why)}"


def _deeds(page: PermissionPage, one: Permission, now: datetime, gone: Change | None) -> tuple[Deed, ...]:
    if gone is not None:
        return ()
    of = str(one.entry)
    deeds = [Deed("change", "Withdrawn, changed…", permission_asks.of_change(page, now, one), of)]
    if one.entry not in page.to_sign:
        to = (Ask("to", "It belongs to job", "number"), Ask("why", "Why"))
        deeds.append(Deed("move", "Wrong job…", to, of))
    else:
        asks = (Ask("name", "Name of who signs", value=one.who or ""), Ask("path", "Signature", "signature"))
        deeds.insert(0, Deed("sign", "Sign…", asks, of, keep="Sign", explain=page.to_sign[one.entry], main=True))
    return tuple(deeds)


def asked_line(page: PermissionPage, one: Asked) -> Line:
    """A payer who was asked: waited for, refused, or answered since by a number."""
    given = any(p.scope == "authority" and p.entry > one.entry for p in page.agreed.as_they_stand())
    no = one.refused
    said = (
        f"refused {day_and_hour(no.at)} by {unless_erased(no.who)}: {unless_erased(no.why)}"
        if no
        else ""
        if given
        else "no answer yet"
    )
    mark = "bar" if no else "disc" if given else "ring"
    return Line(f"Asked of {one.of}", said, mark, one.at)


def declined_line(one: Declined) -> Line:
    barred = "; this shop lets no vehicle go without it" if one.bars else ""
    by = f"{unless_erased(one.who)}, {one.how}{barred}"
    return Line(one.what, f"{one.consequence.rstrip('.')} · {by}", "bar", one.at, loud=one.bars)


def contact_line(one: Contact) -> Line:
    said = " · ".join(
        filter(None, (unless_erased(one.reached_at), unless_erased(one.said) and f"“{unless_erased(one.said)}”"))
    )
    mark = "disc" if one.outcome == "reached" else "ring"
    return Line(f"{one.how[0].upper()}{one.how[1:]}: {one.outcome}", said, mark, one.at)


def overrun_line(one: Overrun, contacts: Sequence[Contact]) -> Line:
    told = told_at(one, contacts)
    tries = sum(1 for contact in contacts if contact.about == one.entry)
    when = (
        f"told {day_and_hour(told.at)}" if told else f"not told yet, tried {tries} times" if tries else "not told yet"
    )
    words = f"The price will be about {one.total} {one.currency}: {one.why}"
    return Line(words, f"known since {day_and_hour(one.known_at)} · {when}", "disc" if told else "half", one.known_at,
                loud=told is None)  # fmt: skip
