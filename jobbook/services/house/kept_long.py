"""What has been kept longer than the country profile says: each is forgotten, or kept on with a reason and a day."""

from dataclasses import replace
from datetime import date

from jobbook.core.desk.calls import Call, appointed
from jobbook.core.desk.profiles import Profile
from jobbook.core.desk.retention import KEPT_ON, KeptLong, cutoff, look_at_review, years_of
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.house.profiles import profile_of
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.forgetting import Forgetting, forget, forget_call, holds

MOST = 100  # listed at once; the next ones follow as these are seen to
MAY = ("people", "desk")


def rule_words(book: OpenBook) -> str:
    """How long the shop's profile keeps, with its source; empty where it names no years."""
    profile = _profile(book)
    years, told = years_of(profile), profile.told["retention_years"]
    return f"{profile.title}: invoices are kept for {years} years ({told.source}; read {told.read})." if years else ""


def _profile(book: OpenBook) -> Profile:
    with book.store.read() as reading:
        return profile_of(reading.shop())


def kept_long(book: OpenBook, limit: int = MOST) -> tuple[KeptLong, ...]:
    """Customers kept longer than that, then calls that came to nothing; the oldest entry first, without those whose
    next look is still to come."""
    with book.store.read() as reading:
        found = _found(reading, book.today(), limit)
        return tuple(_with_holds(reading, one) for one in found)


def oldest_kept_long(reading: Book, today: date) -> KeptLong | None:
    """The first of them, where there is any; costs one query or two, and none where the profile names no years."""
    return next(iter(_found(reading, today, 1)), None)


def _found(reading: Book, today: date, limit: int) -> list[KeptLong]:
    years = years_of(profile_of(reading.shop()))
    if not years:
        return []
    looked = {_subject(reading, entry): entry for entry in reading.journal.entries(kind=KEPT_ON)}
    later = {subject for subject, entry in looked.items() if str(entry.payload["until"]) > today.isoformat()}
    day, most = cutoff(today, years).isoformat(), limit + len(later)
    found = [_customer(row) for row in reading.customers.last_seen_before(day, most)]
    if len(found) < most:
        found += [_call(call) for call in reading.calls.ended_before(day, most)]
    listed = [one for one in found if one.subject not in later][:limit]
    return [replace(one, looked_at=_reason(looked.get(one.subject))) for one in listed]


def _subject(reading: Book, entry: Entry) -> str:
    """What was kept on, under the number that it has now."""
    told = entry.payload
    return (
        f"call/{told['call']}" if told.get("call") else f"customer/{reading.customers.kept_of(int(told['customer']))}"
    )


def _reason(looked: Entry | None) -> str:
    return str(looked.facts["reason"]) if looked is not None else ""


def _customer(row: dict[str, object]) -> KeptLong:
    last, jobs = str(row["last"] or row["said_at"])[:10], int(str(row["jobs"]))
    return KeptLong(int(str(row["id"])), str(row["name"]), last, jobs)


def _call(call: Call) -> KeptLong:
    return KeptLong(0, call.caller or "", call.taken_at[:10], call=call.number)


def _with_holds(reading: Book, one: KeptLong) -> KeptLong:
    return one if one.call else replace(one, holds=holds(reading, one.customer))


def keep_on(book: OpenBook, who: Person, one: KeptLong, day: str, reason: str) -> None:
    """Keep that somebody's data is kept on, why, and when it is looked at next. Refused without both."""
    until = (appointed(day, book.clock()) or "")[:10]
    look_at_review(until, reason, book.today())
    with writing(book, who, *MAY) as tx:
        told = {"call": tx.calls.get(one.call).number} if one.call else {"customer": tx.customers.get(one.customer).id}
        tx.keep(Draft(KEPT_ON, one.subject, told | {"until": until}, reason=reason.strip()))


def forget_kept_long(book: OpenBook, who: Person, one: KeptLong, reason: str) -> Forgetting:
    """Forget one of them, by the same rules as anybody who asks for it."""
    why = reason.strip() or f"kept longer than the {years_of(_profile(book))} years of the profile"
    return forget_call(book, who, one.call, why) if one.call else forget(book, who, one.customer, why)
