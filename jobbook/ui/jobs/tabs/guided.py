"""The tests of the diagnosis in their order: what is answered, and what comes next."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from jobbook.core.drawing import mark_of_answer
from jobbook.core.errors import Refused
from jobbook.core.jobs import ANSWERS, Test
from jobbook.core.measured.bounds import read_bounds
from jobbook.core.measured.guided import ORDER, Guided, Part, belongs
from jobbook.core.quantities.units import UNIT
from jobbook.services.job.late import NAMES, late_asks, noted_words
from jobbook.services.measured.diagnosing import Diagnosis
from jobbook.services.measured.guided import LIMIT, correct_guided, hint_of, keep_guided
from jobbook.services.measured.stand_records import known_of_stand
from jobbook.services.office.phrases import phrases_for, slip_hint
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Reckoned, options_of
from jobbook.ui.jobs.tabs import elsewhere
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing
from jobbook.ui.moments import day_and_hour

TITLE = "The order that wastes least time"
OTHERWISE = tuple(answer for answer in ANSWERS if answer != "done")
LIMITS_FROM = "Limits: where they stand, document and edition"
REASON = Ask("reason", "Why it is corrected")


def block(there: Diagnosis, now: str) -> Block:
    """Every test of the order with its answer; the first without one is the next, and says how it is done. While a
    stand runs none is. Of a job that was released only what was answered is shown."""
    lines: list[Line] = []
    waits = elsewhere.running(there) is not None
    for test in ORDER:
        answered = tuple(_answered(there, test, now))
        lines += answered
        if not answered and not there.job.released_at:
            lines.append(_open(there, test, now, not waits))
            waits = True
    nothing = "No test of the order was answered before the vehicle was released."
    return Block(TITLE, tuple(lines), nothing=nothing)


def in_the_order(test: Test) -> bool:
    return any(belongs(one, test.name) for one in ORDER)


def _answered(there: Diagnosis, test: Guided, now: str) -> Iterator[Line]:
    yield from (_line(there, test, one) for one in there.tests if belongs(test, one.name))
    beside, mark = elsewhere.answer(there, test) if test.by else ("", "")
    if beside:
        yield Line(test.title, beside, mark, deeds=elsewhere.deeds(there, test, now))


def _line(there: Diagnosis, test: Guided, one: Test) -> Line:
    payload = there.told.get(one.entry, {})
    noted = noted_words(payload.get("noted", ""), *_entered(there, one))
    who = there.names.get(one.by, one.by)
    said = " · ".join(filter(None, (one.answer, one.result, one.reason, who, noted)))
    beside = "\n".join(filter(None, (said, hint_of(one.result))))
    deeds = (_correction(there, test, one, payload),)
    return Line(one.name, beside, mark_of_answer(one.answer), one.at, loud=bool(payload.get("outside")), deeds=deeds)


def _entered(there: Diagnosis, one: Test) -> tuple[str, str]:
    by, at = there.entered.get(one.entry, ("", ""))
    return there.names.get(by, by), day_and_hour(at)


def _open(there: Diagnosis, test: Guided, now: str, is_next: bool) -> Line:
    """A test that has no answer yet. The next one says how it is done, and its main act is the one at hand."""
    done = elsewhere.deeds(there, test, now) if test.by else (_done(there, test),)
    deeds = (*done, _otherwise(there, test))
    first = (replace(deeds[0], main=True), *deeds[1:]) if is_next else deeds
    return Line(test.title, test.how if is_next else "", "ring", deeds=first)


def _done(there: Diagnosis, test: Guided) -> Deed:
    asks = (*asks_of(there, test), *late_asks(there.people))
    return Deed("guided", "Done…", asks, of=test.key, keep="Keep", explain=test.how, caution=test.caution)


def _otherwise(there: Diagnosis, test: Guided) -> Deed:
    answers = options_of(OTHERWISE)
    reason = Ask("reason", "Why", phrases=phrases_for(there.phrases, "reason"), required=False)
    asks = (Ask("answer", "It was", "list", answers), reason, *late_asks(there.people))
    return Deed("guided", "Not done…", asks, of=test.key, keep="Keep")


def _correction(there: Diagnosis, test: Guided, one: Test, payload: Mapping[str, Any]) -> Deed:
    """The questions again, with what was answered."""
    told = {**payload.get("figures", {}), **payload.get("parts", {})}
    told |= {LIMIT + key: text for key, text in payload.get("limits", {}).items()}
    told |= {name: payload[name] for name in ("source", "words", "reason", "answer") if name in payload}
    if test.apart and one.name != test.title:
        told |= {test.apart: one.name.rpartition(", ")[2]}
    if "words" not in told and not payload.get("figures") and not payload.get("parts"):
        told["words"] = one.result  # an answer of before the questions were asked one by one
    asked = asks_of(there, test) if one.answer == "done" else _otherwise(there, test).asks[:2]
    asks = tuple(replace(ask, value=told.get(ask.name, "")) for ask in asked)
    asks = tuple(replace(ask, name="why", label="Why it was so") if ask.name == "reason" else ask for ask in asks)
    return Deed("guided", "Correct…", (*asks, REASON), of=f"{test.key}/{one.entry}", caution=test.caution)


def asks_of(there: Diagnosis, test: Guided) -> tuple[Ask, ...]:
    """What a test asks: its parts, what else it showed, and folded away the limits with the place where they stand."""
    words = Ask("words", "What else it showed", "long text", required=False, hint=slip_hint(there.phrases))
    asks = (
        *(_ask(part, _known(there, part)) for part in test.parts),
        replace(words, phrases=phrases_for(there.phrases, f"test {test.key}")),
    )
    limits = tuple(_limit(part) for part in test.parts if part.kind == "quantity")
    if not limits:
        return asks
    source = Ask("source", LIMITS_FROM, required=False, folded=True, phrases=phrases_for(there.phrases, "source"))
    return (*asks, *limits, source)


def _known(there: Diagnosis, part: Part) -> tuple[tuple[str, str], ...]:
    """What a figure is given that the job knows already: of a fall, the last stand that counts."""
    counting = [one for one in there.judged.values() if not one.void and one.stand.ended is not None]
    if part.figure != "leak-down" or not counting:
        return ()
    return known_of_stand(counting[-1])


def _ask(part: Part, known: tuple[tuple[str, str], ...]) -> Ask:
    kind = {"several": "pieces"}.get(part.kind, part.kind)
    unit = UNIT[part.unit].label if part.unit else ""
    reckoned = Reckoned(part.figure, part.result, known) if part.figure else None
    options = options_of(part.options)
    hint = hint_of if part.key == "sign" else None
    return Ask(part.key, part.label, kind, options, unit, required=False, reckoned=reckoned, hint=hint)


def _limit(part: Part) -> Ask:
    label = f"Limits: {part.label.lower()}, like at most 9 {UNIT[part.unit].label}"
    return Ask(LIMIT + part.key, label, required=False, folded=True, hint=lambda typed: _doubt(part, typed))


def _doubt(part: Part, typed: str) -> str:
    """Why a limit cannot be read yet; empty for one that can."""
    try:
        read_bounds(typed, part.quantity, part.unit)
    except Refused as refused:
        return str(refused) if typed.strip() else ""
    return ""


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    key, _, entry = deed.of.partition("/")
    if not entry:
        return keep_guided(book, by.who, job, key, given).words
    answers = {name: text for name, text in given.items() if name not in ("reason", *NAMES)}
    answers |= {"reason": answers.pop("why")} if "why" in answers else {}
    return correct_guided(book, by.who, job, key, int(entry), answers, given["reason"]).words
