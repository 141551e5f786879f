"""Beside a line of Today: what whoever sees to it needs at hand, above all the number to call."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from jobbook.core.desk.calls import AFTER, FLAT_IN_SHORT, TEMPERATURES, Call, Tried
from jobbook.core.desk.today import Due
from jobbook.core.written import day_and_month
from jobbook.db.store import Book
from jobbook.services.opened import OpenBook

TO_END_A_STAND = "Read the heights before a door opens or the levelling wakes; Enter opens the stand."


def card(book: OpenBook, due: Due) -> tuple[tuple[str, str], ...]:
    """Name and text of what is known, in a few queries."""
    with book.store.read() as reading:
        if due.kind == "call":
            return tuple(_of_call(reading, due.number))
        if due.kind == "stand":
            return (("To end it", TO_END_A_STAND), *_of_job(reading, due))
        if due.job:
            return tuple(_of_job(reading, due))
    return ()


def _of_call(reading: Book, number: int) -> Iterator[tuple[str, str]]:
    call = reading.calls.get(number)
    yield "Call back", _said(call.phone)
    facts = {"Warning": _said(call.warning), "Shows": _shows(call), "Pays": call.payer}
    facts |= {"Elsewhere": _said(call.elsewhere)}
    yield from ((name, text) for name, text in facts.items() if text)
    if call.driven != "yes":
        yield "Caution", FLAT_IN_SHORT
    yield from _attempts(reading.calls.tried(f"call/{number}"))


def _said(text: str | None) -> str:
    return "erased" if text is None else text


def _shows(call: Call) -> str:
    """Where, since when and when it shows, as far as it was said."""
    parts = ((call.temperature, TEMPERATURES), (call.after, AFTER))
    told = [" ".join(call.corners), f"since {call.since}" if call.since else ""]
    return ", ".join(filter(None, told + [words[said] for said, words in parts if said != "unknown"]))


def _of_job(reading: Book, due: Due) -> Iterator[tuple[str, str]]:
    job = reading.jobs.get(due.job)
    customer = reading.customers.get(job.customer_id) if job.customer_id else None
    if customer is not None:
        yield "Customer", _said(customer.name)
        if customer.phone != "":
            yield "Call", _said(customer.phone)
    yield from (("Concern", _said(concern.words)) for concern in job.concerns)
    if due.kind in ("visit", "reminder", "held"):
        yield from _attempts(reading.calls.tried(f"reminder/{due.number}"))


def _attempts(tried: Sequence[Tried]) -> Iterator[tuple[str, str]]:
    for one in tried:
        note = f", {one.note}" if one.note else ""
        at = datetime.fromisoformat(one.at)
        yield "Tried", f"{day_and_month(at)}, {at:%H:%M} {one.how}: {one.outcome}{note}"
