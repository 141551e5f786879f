"""Reaching the customer: each attempt, an overrun that they must hear of, what they declined or said of a finding."""

from dataclasses import asdict, replace

from jobbook.core.desk.answers_to_findings import COVERED, NOT_OF_UNSAFE, OTHERWISE, TOLD, FindingAnswered
from jobbook.core.desk.declined import FINDING, ITEMS, OTHER, UNSAFE, consequence_of, words_of
from jobbook.core.desk.money import read_money
from jobbook.core.desk.permission import DISMANTLING, FACE_TO_FACE, OUTCOMES, WAYS, Contact, Declined, Overrun, counts
from jobbook.core.errors import NotFound, Refused
from jobbook.core.measured import diagnosis
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.db.store import Book
from jobbook.services.agreed import permission_records as records
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.measured.findings import findings_of
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

    Where the shop lets no vehicle go without it, that holds the release. A finding that is unsafe to drive is declined
    as that, whatever it was called."""
    if declined.subject not in ITEMS or declined.how not in WAYS or not declined.at:
        raise Refused("Nothing was kept: say what was declined, when and how.")
    if declined.how not in FACE_TO_FACE and not (declined.reached_at or "").strip():
        raise Refused("Nothing was kept: it still needs the number or address used.")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        told = _worded(tx, job, declined)
        if not told.what or not told.consequence or not (told.who or "").strip():
            raise Refused("Nothing was kept: it needs what was declined, what may come of it, and who declined it.")
        bars = told.subject != OTHER and told.subject in tx.shop().no_release_without
        facts = {key: value for key, value in asdict(replace(told, bars=bars)).items() if key != "entry"}
        facts |= {key: tx.seal((getattr(told, key) or "").strip()) for key in ("who", "reached_at")} | {"job": job}
        tx.keep(Draft(records.DECLINED, f"job/{job}", facts, job=job))


def _worded(tx: Book, job: int, declined: Declined) -> Declined:
    """What was declined in whole words: those that were said, or ours where none were."""
    found = next((one for one in findings_of(tx, job) if one.entry == declined.finding), None)
    if declined.finding and found is None:
        raise NotFound(f"Job {job} has no finding {declined.finding}; nothing was kept.")
    unsafe = declined.subject == FINDING and found is not None and found.severity == diagnosis.UNSAFE
    subject = UNSAFE if unsafe else declined.subject
    what, consequence = (
        words_of(subject, declined.what or (found.words if found else "")),
        consequence_of(subject, declined.consequence),
    )
    return replace(declined, subject=subject, what=what, consequence=consequence)


def keep_answer(book: OpenBook, who: Person, job: int, answer: FindingAnswered) -> None:
    """Keep what became of a finding that was neither allowed nor declined by itself, and why. It holds no release then.

    `by` is who did or said it, where it was another. What is unsafe to drive is not merely told and left."""
    if answer.answer not in OTHERWISE or not answer.at or not answer.why.strip():
        raise Refused("Nothing was kept: say what became of it, when, and why or what was said.")
    with writing(book, who, "desk", "work") as tx:
        in_hand(tx, job)
        _look_at_answer(tx, job, answer)
        facts = {key: value for key, value in asdict(answer).items() if key not in ("entry", "by")}
        facts |= {"why": answer.why.strip(), "who": tx.seal((answer.who or "").strip()), "job": job}
        tx.keep(Draft(records.ANSWERED, f"job/{job}", facts, job=job, done_at=answer.at, done_by=answer.by))


def _look_at_answer(tx: Book, job: int, answer: FindingAnswered) -> None:
    found = next((one for one in findings_of(tx, job) if one.entry == answer.finding), None)
    if found is None:
        raise NotFound(f"Job {job} has no finding {answer.finding}; nothing was kept.")
    if answer.answer in NOT_OF_UNSAFE and found.severity == diagnosis.UNSAFE:
        raise Refused(
            "Nothing was kept: what is unsafe to drive is allowed, declined or put right; telling of it is not enough."
        )
    if answer.answer == TOLD and not (answer.who or "").strip():
        raise Refused("Nothing was kept: it needs who was told.")
    there = records.agreed(tx, job).as_they_stand()
    if answer.answer == COVERED and not any(one.scope in DISMANTLING and counts(one) for one in there):
        raise Refused("Nothing was kept: no permission of this job covers work; keep the customer's permission first.")
