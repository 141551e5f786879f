"""Leak-down stands on the Diagnosis tab: begin, see what runs, end, and what each one shows, with its chart."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.drawing import Drawing, leak_down_chart
from jobbook.core.measured.stand_judging import Judged, hours_words
from jobbook.core.measured.stands import Ended, Stand, hours_between
from jobbook.services.measured import stands
from jobbook.services.measured.diagnosing import Diagnosis
from jobbook.services.measured.stand_records import curves, found_words, heights_words, left_words
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.asks import HOW_OFF
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing
from jobbook.ui.moments import day_and_hour

TITLE = "Leak-down stand"
DASHED = "dashed: the other three corners"
EXPLAIN_BEGIN = "Normal height, level floor, keys away from the vehicle. Measure, then leave it alone."
EXPLAIN_END = "Read the heights before anybody unlocks it or opens a door."
NOTHING = "No stand yet. One hour shows a large leak, a night a small one."
MARKS = {"void": "bar", "too short": "half", "woken": "half"}
NO_TEMPERATURE = "temperature not recorded"
REASON = Ask("reason", "Why it is corrected")


YES_NO = options_of(("no", "yes", "unknown"))
TIME = Ask("time", "Read at, if not now: 17:40", "time", required=False, folded=True)


def _begin_asks(there: Diagnosis) -> tuple[Ask, ...]:
    rules = options_of(tool.number for tool in there.tools if tool.kind == "rule or tape")
    return (
        Ask("heights", "Heights, hub centre to arch edge", "heights", unit=there.unit),
        Ask("temperature", "Air temperature", "quantity", unit="°C", required=False),
        Ask("parked", "Where it is parked", required=False),
        Ask("levelling", "Levelling", "choice", options_of(("off", "asleep", "active"))),
        Ask("how", "Switched off by", "list", options_of(HOW_OFF), required=False),
        Ask("ignition", "Ignition", "choice", options_of(("off", "on")), value="off"),
        Ask("doors", "Doors", "choice", options_of(("shut", "open")), value="shut"),
        TIME,
        Ask("mode", "Ride mode", required=False, folded=True),
        Ask("load", "Load", required=False, folded=True),
        *((Ask("instrument", "Measured with", "choice", rules, "", rules[0].value, False, True),) if rules else ()),
    )


def _end_asks(there: Diagnosis) -> tuple[Ask, ...]:
    return (
        Ask("heights", "Heights, before waking it", "heights", unit=there.unit),
        Ask("temperature", "Air temperature", "quantity", unit="°C", required=False),
        Ask("woken", "Was it woken before the reading?", "choice", YES_NO),
        Ask("door", "Was a door opened?", "choice", YES_NO),
        Ask("codes", "Were codes read?", "choice", YES_NO),
        TIME,
        Ask("volume", "Air volume of a spring, where known", "quantity", unit="L", required=False, folded=True),
        Ask("area", "Its working area, where known", "quantity", unit="cm²", required=False, folded=True),
        Ask("note", "Note", required=False, folded=True),
    )


def block(there: Diagnosis, now: str) -> Block:
    """The stands, the newest first under the chart of the last one that counts."""
    lines = tuple(line for stand in reversed(there.stands) for line in _lines(there, stand, now))
    closed = there.job.released_at or any(stand.runs for stand in there.stands)
    begin = Deed("stand", "Begin a stand…", _begin_asks(there), of="begin", keep="Begin", explain=EXPLAIN_BEGIN)
    return Block(TITLE, lines, nothing=NOTHING, deeds=() if closed else (begin,), drawing=_chart(there))


def _chart(there: Diagnosis) -> Drawing | None:
    shown = [there.judged[stand.number] for stand in there.stands if stand.number in there.judged]
    counting = [one for one in shown if not one.void] or shown
    return _drawn(counting[-1]) if counting else None


def _drawn(one: Judged) -> Drawing:
    begun, ended = one.stand.begun, one.stand.ended
    ends = [(begun.at, begun.temperature), (ended.at, ended.temperature)] if ended is not None else []
    start, end = (", ".join(filter(None, (day_and_hour(at), celsius))) for at, celsius in ends)
    return leak_down_chart(curves(one), start, end, DASHED)


def _lines(there: Diagnosis, stand: Stand, now: str) -> tuple[Line, ...]:
    """What a stand shows; under it how the vehicle was left and how it was found, each to be corrected."""
    ended = stand.ended
    if ended is None:
        return _running(there, stand, now), _left(there, stand)
    if ended.stopped:
        said = f"given up by {there.names.get(stand.ended_by, stand.ended_by)}: {ended.stopped}"
        return Line("A stand without a last reading", said, "ring", ended.at), _left(there, stand)
    one = there.judged[stand.number]
    loud = one.verdict == "leak"
    shows = Line(one.sentence, "\n".join(one.findings), MARKS.get(one.verdict, "disc"), ended.at, loud=loud)
    return shows, _left(there, stand), _found(there, stand, ended)


def _running(there: Diagnosis, stand: Stand, now: str) -> Line:
    begun, number = stand.begun, str(stand.number)
    lasted = hours_words(hours_between(begun.at, now))
    end = Deed("stand", "End it…", _end_asks(there), of=f"end {number}", keep="End", explain=EXPLAIN_END, main=True)
    give_up = Deed("stand", "Give it up…", (Ask("reason", "Why"),), of=f"stop {number}")
    return Line(f"It stands since {day_and_hour(begun.at)}, {lasted}", "", "half", deeds=(end, give_up))


def _left(there: Diagnosis, stand: Stand) -> Line:
    begun, who = stand.begun, there.names.get(stand.begun_by, stand.begun_by)
    asks = _again(_begin_asks(there), vars(begun), begun.typed)
    deed = Deed("stand", "Correct…", (*asks, REASON), of=f"correct-begin {stand.number}")
    words = f"left: {heights_words(begun.heights)} mm, {begun.temperature or NO_TEMPERATURE}"
    return Line(words, f"{left_words(begun)} · {who}", at=begun.at, deeds=(deed,))


def _found(there: Diagnosis, stand: Stand, ended: Ended) -> Line:
    asks = _again(_end_asks(there), vars(ended), ended.typed)
    deed = Deed("stand", "Correct…", (*asks, REASON), of=f"correct-end {stand.number}")
    words = f"found: {heights_words(ended.heights)} mm, {ended.temperature or NO_TEMPERATURE}"
    who = there.names.get(stand.ended_by, stand.ended_by)
    return Line(words, f"{found_words(ended)} · {who}", at=ended.at, deeds=(deed,))


def _again(asks: tuple[Ask, ...], told: Mapping[str, object], typed: Mapping[str, str]) -> tuple[Ask, ...]:
    """The questions with what was answered, all of them in sight."""
    heights = "; ".join(f"{corner} {text}" for corner, text in typed.items())
    values = {"heights": heights, "time": str(told["at"])[:16].replace("T", " ")}
    return tuple(replace(ask, value=values.get(ask.name, str(told.get(ask.name, ""))), folded=False) for ask in asks)


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    what, _, number = deed.of.partition(" ")
    if what == "begin":
        return stands.begin_stand(book, by.who, job, given).words
    stand, reason = int(number), given.get("reason", "")
    if what == "end":
        return stands.end_stand(book, by.who, job, stand, given).words
    if what == "stop":
        return stands.stop_stand(book, by.who, job, stand, reason).words
    answers = {name: text for name, text in given.items() if name != "reason"}
    correct = stands.correct_begin if what == "correct-begin" else stands.correct_end
    return correct(book, by.who, job, stand, answers, reason).words
