"""The tests of the diagnosis in their order: what is answered, and what comes next."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from jobbook.core.bounds import read_bounds
from jobbook.core.drawing import mark_of_answer
from jobbook.core.errors import Refused
from jobbook.core.guided import ORDER, Guided, Part, belongs
from jobbook.core.heights import shown
from jobbook.core.jobs import ANSWERS, Test
from jobbook.core.quantities.units import UNIT
from jobbook.services.diagnosing import Diagnosis
from jobbook.services.guided import LIMIT, correct_guided, hint_of, keep_guided
from jobbook.services.heights import BEFORE, HeightReading
from jobbook.services.late import NAMES, late_asks, noted_words
from jobbook.services.opened import OpenBook
from jobbook.services.phrases import phrases_for, slip_hint
from jobbook.services.sheets import Ask, Option, Reckoned
from jobbook.services.stand_records import known_of_stand
from jobbook.ui.jobs.tabs import codes, heights, stand
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing
from jobbook.ui.moments import day_and_hour

TITLE = "The order that wastes least time"
OTHERWISE = tuple(answer for answer in ANSWERS if answer != "done")
LIMITS_FROM = "Limits: where they stand, document and edition"
REASON = Ask("reason", "Why it is corrected")
NO_AIR = "arrived with no air, on its stops"
NOT_WITHOUT_AIR = ("heights", "levelled", "stand")  # nothing of a ride height can be told of a vehicle on its stops


def block(there: Diagnosis) -> Block:
    """Every test of the order with its answer; the first without one is the next, and says how it is done. Of a job
    that was released only what was answered is shown."""
    lines: list[Line] = []
    for test in ORDER:
        answered = tuple(_answered(there, test))
        if answered:
            lines += answered
        elif not there.job.released_at:
            lines.append(_open(there, test, not any(line.mark == "ring" and line.deeds for line in lines)))
    nothing = "No test of the order was answered before the vehicle was released."
    return Block(TITLE, tuple(lines), nothing=nothing)


def in_the_order(test: Test) -> bool:
    return any(belongs(one, test.name) for one in ORDER)


def _answered(there: Diagnosis, test: Guided) -> Iterator[Line]:
    yield from (_line(there, test, one) for one in there.tests if belongs(test, one.name))
    beside = _elsewhere(there, test)
    if beside:
        yield Line(test.title, beside, "disc", deeds=_elsewhere_deeds(there, test))
    elif there.job.arrival == "no air" and test.key in NOT_WITHOUT_AIR and not _kept(there, test):
        yield Line(test.title, f"not possible · {NO_AIR}", "bar", deeds=_elsewhere_deeds(there, test))


def _kept(there: Diagnosis, test: Guided) -> bool:
    return any(belongs(test, one.name) for one in there.tests)


def _elsewhere(there: Diagnosis, test: Guided) -> str:
    """What answers a test that has a place of its own on the tab; empty while nothing does."""
    before = [one for one in there.readings if one.phase == BEFORE]
    read = [code for code in there.codes if code.when == "before"]
    told = {
        "heights": (before[:1], heights_read(before[0], there.unit) if before else ""),
        "levelled": (before[1:], heights_read(before[-1], there.unit) if before else ""),
        "codes": (read, _modules_words({code.module for code in read})),
        "stand": (there.stands, there.stands and _stand_words(there)),
    }
    there_is, words = told.get(test.by, ((), ""))
    return f"done · {words}" if there_is else ""


def heights_read(one: HeightReading, unit: str) -> str:
    return " · ".join(f"{corner} {shown(mean, unit)}" for corner, mean in one.means.items())


def _modules_words(modules: set[str]) -> str:
    return f"{len(modules)} module{'s' if len(modules) > 1 else ''} read: {', '.join(sorted(modules))}"


def _stand_words(there: Diagnosis) -> str:
    last = there.stands[-1]
    return there.judged[last.number].sentence if last.number in there.judged else "begun, see below"


def _elsewhere_deeds(there: Diagnosis, test: Guided) -> tuple[Deed, ...]:
    """The acts of the block further down that answers this test, to be done from here."""
    if there.job.released_at:
        return ()
    if test.by == "codes":
        none = Deed("code", "None stored…", (codes.MODULE, codes.TIME), of="none")
        return Deed("code", "A code…", codes.ASKS), none
    if test.by == "stand":
        return tuple(replace(deed, label="Begin…") for deed in stand.block(there, "").deeds) if not there.stands else ()
    if test.by in ("heights", "levelled"):
        return tuple(replace(deed, label="Measure…", main=False) for deed in heights.block(there).deeds)
    return ()


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


def _open(there: Diagnosis, test: Guided, is_next: bool) -> Line:
    """A test that has no answer yet. The next one says how it is done, and its main act is the one at hand."""
    own = () if test.by else (_done(there, test),)
    deeds = (*(_elsewhere_deeds(there, test) or own), _otherwise(there, test))
    first = (replace(deeds[0], main=True), *deeds[1:]) if is_next else deeds
    return Line(test.title, test.how if is_next else "", "ring", deeds=first)


def _done(there: Diagnosis, test: Guided) -> Deed:
    asks = (*asks_of(there, test), *late_asks(there.people))
    return Deed("guided", "Done…", asks, of=test.key, keep="Keep", explain=test.how, caution=test.caution)


def _otherwise(there: Diagnosis, test: Guided) -> Deed:
    answers = tuple(Option(answer, answer) for answer in OTHERWISE)
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
    options = tuple(Option(word, word) for word in part.options)
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
