"""The tests of a diagnosis by their order: what is answered, what comes next, and how an answer is kept."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from jobbook.core.errors import Refused
from jobbook.core.measured.bounds import OUTSIDE, judged, read_bounds
from jobbook.core.measured.guided import BY_KEY, NOT_LOOKED_AT, SIGN, Guided, Part, name_of
from jobbook.core.people import Person
from jobbook.core.quantities import Quantity, read_quantity
from jobbook.core.record.journal import Draft
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand, reopen, to_be_tested
from jobbook.services.job.late import late_of, with_late
from jobbook.services.office.desk import look_at_test
from jobbook.services.opened import OpenBook
from jobbook.services.work.written import Written, written

TEST = "test/1"
LIMIT = "limit "


@dataclass(frozen=True)
class Reading:
    """One quantity of a test as it was typed, with the limit that was written beside it and the verdict by it."""

    part: Part
    typed: str
    quantity: Quantity
    limit: str = ""
    verdict: str = ""


def keep_guided(book: OpenBook, who: Person, job: int, key: str, given: Mapping[str, str]) -> Written:
    """Keep that a test of the order was done, with what it showed; or, with `answer`, why it was not.

    Refused: an answer without its result or its reason, a figure that cannot be read, a limit without its source."""
    test = BY_KEY[key]
    with writing(book, who, "work", "desk") as tx:
        look = to_be_tested if given.get("answer", "done") in ("", "done") else in_hand
        look(tx, job)
        late = late_of(tx, given, book.clock())
        entry = tx.keep(with_late(Draft(TEST, f"job/{job}", _facts(test, job, given), job=job), late))
    return written(entry, f"{name_of(test, given)}: {entry.payload['answer']}")


def correct_guided(
    book: OpenBook, who: Person, job: int, key: str, entry: int, given: Mapping[str, str], reason: str
) -> Written:
    """Keep a correction of an answer, with its reason. A released job is opened again by it."""
    if not reason.strip():
        raise Refused("The test was not corrected: it needs the reason.")
    test = BY_KEY[key]
    with writing(book, who, "work", "desk") as tx:
        old = tx.journal.get(entry)
        facts = _facts(test, job, given)
        facts |= {"noted": old.payload["noted"]} if "noted" in old.payload else {}
        draft = Draft(TEST, f"job/{job}", facts, job=job, replaces=entry, reason=reason.strip())
        kept = tx.keep(with_late(draft, late_of(tx, given, book.clock())))
        reopen(tx, job, reason.strip())
    return written(kept, f"Correction of “{test.title}” kept")


def _facts(test: Guided, job: int, given: Mapping[str, str]) -> dict[str, object]:
    """The payload: the sentence for people, and beside it what was typed, so that it can be read and corrected."""
    said = {name: text.strip() for name, text in given.items() if text.strip()}
    answer = said.get("answer", "done")
    facts: dict[str, object] = {"job": job, "name": name_of(test, said), "answer": answer}
    facts |= {"result": "", "reason": said.get("reason", "")}
    if answer == "done":
        readings = tuple(_readings(test, said))
        facts["result"] = _result(test, said, readings)
        facts |= _beside(test, said, readings)
    look_at_test(facts)
    return facts


def _beside(test: Guided, said: Mapping[str, str], readings: tuple[Reading, ...]) -> dict[str, object]:
    plain = {part.key: said[part.key] for part in test.parts if part.kind != "quantity" and part.key in said}
    beside: dict[str, object] = {
        "figures": {one.part.key: one.typed for one in readings},
        "parts": plain,
        "limits": {one.part.key: one.limit for one in readings if one.limit},
        "outside": [one.part.key for one in readings if one.verdict == OUTSIDE],
    }
    beside |= {name: said.get(name, "") for name in ("source", "words", "reckoned")}
    return {name: value for name, value in beside.items() if value}


def _readings(test: Guided, said: Mapping[str, str]) -> Iterator[Reading]:
    for part in (part for part in test.parts if part.kind == "quantity"):
        typed, limit = said.get(part.key, ""), said.get(LIMIT + part.key, "")
        if limit and not typed:
            raise Refused(f"The test was not kept: there is a limit for “{part.label}” and no reading.")
        if limit and not said.get("source"):
            raise Refused("The test was not kept: say where the limit stands, its document and edition.")
        if typed:
            quantity = read_quantity(typed, part.quantity, default_unit=part.unit)
            verdict = judged(quantity, read_bounds(limit, part.quantity, part.unit)) if limit else ""
            yield Reading(part, quantity.text(), quantity, limit, verdict)


def _result(test: Guided, said: Mapping[str, str], readings: tuple[Reading, ...]) -> str:
    """Everything that was answered, in the order of the test, and what was not looked at."""
    read = {one.part.key: _reading_words(one, said.get("source", "")) for one in readings}
    plain = {part.key: f"{part.label.lower()}: {_plain(part, said)}" for part in test.parts if part.key in said}
    told = [
        read.get(part.key) or plain[part.key] for part in test.parts if part.key in plain and part.key != test.apart
    ]
    if not told and not said.get("words"):
        return ""
    left = [part.label.lower() for part in test.parts if part.kind == "choice" and part.key not in said]
    left = left if len(left) > 1 or told else []
    looked = (
        f"{NOT_LOOKED_AT}: {', '.join(left)}" if left and test.key in ("supply", "electrical", "mechanical") else ""
    )
    return "; ".join(filter(None, (*told, said.get("words", ""), looked)))


def _plain(part: Part, said: Mapping[str, str]) -> str:
    return ", ".join(said[part.key].split(",")) if part.kind == "several" else said[part.key]


def _reading_words(one: Reading, source: str) -> str:
    judged_by = f" ({one.verdict}: {one.limit} by {source})" if one.limit else ""
    return f"{one.part.label.lower()} {one.typed}{judged_by}"


def hint_of(result: str) -> str:
    """What a finding that stands in a result points to, and what proves it; empty where none stands there."""
    sign = next((sign for finding, sign in SIGN.items() if finding in result), None)
    return f"Points to {sign.points_to}. Confirm by: {sign.confirm}." if sign else ""
