"""Reaching the customer: each attempt, an overrun that they must hear of, and what they declined."""

from dataclasses import asdict, replace

from jobbook.core.desk.declined import ITEMS, OTHER, consequence_of, words_of
from jobbook.core.desk.money import read_money
from jobbook.core.desk.permission import FACE_TO_FACE, OUTCOMES, WAYS, Contact, Declined, Overrun
from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.services.agreed import permission_records as records
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.opened import OpenBook


def keep_contact(book: OpenBook, who: Person, job: int, contact: Contact) -> None:
    """Keep one attempt to reach the customer, with its outcome. `by` is who tried, where it was another.

    `about` names an overrun that they were to be told of: reached, they have been told."""
    if contact.outcome not in OUTCOMES or contact.how not in WAYS or not contact.at:
        raise Refused("Nothing was kept: say when and how it was tried, and what came of it.")
    if contact.how not in FACE_TO_FACE and not (contact.reached_at or "").strip():
        raise Refused("Nothing was kept: it still needs the number or address used.")
    if contact.outcome == "reached" and not (contact.said or "").strip():
        raise Refused("Nothing was kept: the customer was reached, so write what was said.")
    with writing(book, who, "desk", "work") as tx:
        if contact.about and all(one.entry != contact.about for one in records.agreed(tx, job).overruns):
            raise NotFound("There is no such overrun in this job; nothing was kept.")
        facts = {key: value for key, value in asdict(contact).items() if key not in ("entry", "by")}
        facts |= {key: tx.seal((getattr(contact, key) or "").strip()) for key in ("reached_at", "said")} | {"job": job}
        tx.keep(Draft(records.CONTACT, f"job/{job}", facts, job=job, done_at=contact.at, done_by=contact.by))


def keep_overrun(book: OpenBook, who: Person, job: int, overrun: Overrun) -> int:
    """Keep that the price will be higher than was said, when that was known and why. Returns its entry."""
    if not overrun.known_at or not overrun.why.strip():
        raise Refused("Nothing was kept: say since when it is known that the price will be higher, and why.")
    with writing(book, who, "desk", "work") as tx:
        in_hand(tx, job)
        currency = overrun.currency or tx.shop().currency
        total = read_money(overrun.total, currency)
        facts = {"job": job, "known_at": overrun.known_at, "total": total.text, "currency": currency}
        facts |= {"why": overrun.why.strip()}
        return tx.keep(Draft(records.OVERRUN, f"job/{job}", facts, job=job)).number


def keep_declined(book: OpenBook, who: Person, job: int, declined: Declined) -> None:
    """Keep that the customer declined something, with its consequence as it was said to them; both print.

    Where the shop lets no vehicle go without it, that holds the release."""
    if declined.subject not in ITEMS or declined.how not in WAYS or not declined.at:
        raise Refused("Nothing was kept: say what was declined, when and how.")
    what, consequence = (
        words(declined.subject, told)
        for words, told in ((words_of, declined.what), (consequence_of, declined.consequence))
    )
    if not what or not consequence or not (declined.who or "").strip():
        raise Refused("Nothing was kept: it needs what was declined, what may come of it, and who declined it.")
    if declined.how not in FACE_TO_FACE and not (declined.reached_at or "").strip():
        raise Refused("Nothing was kept: it still needs the number or address used.")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        bars = declined.subject != OTHER and declined.subject in tx.shop().no_release_without
        told = replace(declined, what=what, consequence=consequence, bars=bars)
        facts = {key: value for key, value in asdict(told).items() if key != "entry"}
        facts |= {key: tx.seal((getattr(told, key) or "").strip()) for key in ("who", "reached_at")} | {"job": job}
        tx.keep(Draft(records.DECLINED, f"job/{job}", facts, job=job))
