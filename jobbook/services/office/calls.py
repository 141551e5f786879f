"""First contact: a call is taken before the vehicle comes, and ends in a job or in another outcome."""

from collections.abc import Mapping
from dataclasses import asdict, replace
from datetime import datetime

from jobbook.core.desk.calls import AFTER, DRIVEN, OUTCOMES, TEMPERATURES, Call, Tried, appointed
from jobbook.core.desk.outcomes import TRIED_HOW
from jobbook.core.desk.permission import OUTCOMES as REACHED
from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.work.model import CORNERS
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicles import clean_plate

SEALED = ("caller", "phone", "words", "warning", "elsewhere")
PLAIN = ("plate", "vehicle", "since", "temperature", "after", "payer", "driven")
HOW_TO_WRITE = "Write it like fri 17:00, 27 Nov 17:00 or 27.11.2026 17:00."


def get_call(book: OpenBook, number: int) -> Call:
    with book.store.read() as reading:
        return reading.calls.get(number)


def take_call(book: OpenBook, who: Person, call: Call, *, reason: str = "") -> int:
    """Keep a call, or what was said anew of one that is there; its number comes back.

    `call.expected` is as typed. Refused without a name, without the words, or with a time that cannot be read; anew
    (its number is not 0) also without a `reason`, and once it has ended."""
    facts = _facts(call, book.clock())
    if call.number and not reason.strip():
        raise Refused("Nothing was changed: say why the call is changed; what was said first stays readable.")
    with writing(book, who, "desk") as tx:
        before = _still_open(tx, call.number) if call.number else None
        sealed = {name: tx.seal((getattr(call, name) or "").strip()) for name in SEALED}
        replaces = before.entry if before else None
        entry = tx.keep(Draft("call/1", "call", facts | sealed, replaces=replaces, reason=reason.strip()))
    return call.number or entry.number


def _facts(call: Call, now: datetime) -> dict[str, object]:
    if not (call.caller or "").strip() or not (call.words or "").strip():
        raise Refused("The call was not kept: it needs who called, and what they said in their words.")
    if not (call.phone or "").strip():
        raise Refused("The call was not kept: it needs a number to call back.")
    for said, allowed in ((call.temperature, TEMPERATURES), (call.after, AFTER), (call.driven, DRIVEN)):
        if said not in allowed:
            raise Refused(f"The call was not kept: “{said}” is none of the answers.")
    plain = {name: str(getattr(call, name)).strip() for name in PLAIN}
    corners = [corner for corner in CORNERS if corner in call.corners]
    plain["plate"] = clean_plate(call.plate)
    return plain | {"corners": corners, "expected": promised_for(call.expected, now), "overnight": call.overnight}


def promised_for(typed: str, now: datetime) -> str:
    """The day or time to come as it is kept; "" for none. Refused where it cannot be read for certain."""
    moment = appointed(typed, now)
    if moment is None:
        raise Refused(f"Nothing was kept: “{typed.strip()}” is no day or time. {HOW_TO_WRITE}")
    return moment


def _still_open(tx: WritingBook, number: int) -> Call:
    call = tx.calls.get(number)
    if call.outcome:
        raise Refused(f"Nothing was changed: this call ended already: {OUTCOMES.get(call.outcome, call.outcome)}.")
    return call


def move_call(book: OpenBook, who: Person, number: int, expected: str, reason: str) -> None:
    """Keep another appointment. The one before stays readable, with the reason."""
    if not promised_for(expected, book.clock()):
        raise Refused("Nothing was changed: write the new day or time.")
    take_call(book, who, replace(get_call(book, number), expected=expected), reason=reason)


def close_call(book: OpenBook, who: Person, number: int, outcome: str, note: str = "", job: int = 0) -> None:
    """Keep what came of a call. Only one that ended in a job names it."""
    if outcome not in OUTCOMES or (outcome == "arrived") != bool(job):
        raise Refused(f"Nothing was kept: say what came of the call: {', '.join(OUTCOMES.values())}.")
    with writing(book, who, "desk") as tx:
        keep_close(tx, number, outcome, note, job)


def keep_close(tx: WritingBook, number: int, outcome: str, note: str = "", job: int = 0) -> None:
    """Keep inside a write what came of a call. Refused where it ended already."""
    _still_open(tx, number)
    facts = {"call": number, "outcome": outcome, "note": tx.seal(note.strip()), "job": job}
    tx.keep(Draft("call-closed/1", "call", facts, job=job or None))


def keep_tried(book: OpenBook, who: Person, whom: str, how: str, outcome: str, note: str = "", job: int = 0) -> None:
    """Keep an attempt to reach somebody, about "call/12" or "reminder/34"."""
    if how not in TRIED_HOW or outcome not in REACHED:
        raise Refused("The attempt was not kept: say how it was tried, and whether somebody was reached.")
    with writing(book, who, "desk") as tx:
        facts = {"whom": whom, "how": how, "outcome": outcome, "note": tx.seal(note.strip())}
        tx.keep(Draft("tried/1", whom, facts, job=job or None))


def attempts(book: OpenBook, whom: str) -> tuple[Tried, ...]:
    with book.store.read() as reading:
        return tuple(reading.calls.tried(whom))


def call_of(answers: Mapping[str, str], number: int = 0) -> Call:
    """The call that the answers of the form describe."""
    said = {name: text.strip() for name, text in answers.items()}
    texts = {name: said[name] for name in (*SEALED, *PLAIN, "expected")}
    corners = tuple(filter(None, said["corners"].split(",")))
    return Call(number=number, corners=corners, overnight=said["overnight"] == "yes", **texts)  # type: ignore[arg-type]


def answers_of(call: Call) -> dict[str, str]:
    """What stands in the form for a call that is there."""
    facts = {name: value for name, value in asdict(call).items() if name in (*SEALED, *PLAIN, "expected")}
    said = {
        name: str(value or "").replace("T", " ") if name == "expected" else str(value or "")
        for name, value in facts.items()
    }
    return said | {"corners": ",".join(call.corners), "overnight": "yes" if call.overnight else "no"}


def known_by_plate(book: OpenBook, plate: str) -> str:
    """What the book knows of the vehicle with this plate, in a sentence for whoever is on the telephone; or ""."""
    if not plate.strip():
        return ""
    with book.store.read() as reading:
        found = next(iter(reading.vehicles.by_plate(plate)), None)
        jobs = reading.jobs.of_vehicle(found.id) if found else []
    if found is None:
        return ""
    in_shop = next((job.number for job in jobs if job.stage != "released"), 0)
    here = f"Was here {len(jobs)} times, last in job {jobs[0].number}." if jobs else "Was not here yet."
    return f"{found.title} bears this plate. " + (f"It is in the shop now: job {in_shop}." if in_shop else here)
