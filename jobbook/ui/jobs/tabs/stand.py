"""Leak-down stands on the Diagnosis tab: begin, see what runs, end, and what each one shows, with its chart."""

from dataclasses import replace

from jobbook.core.drawing import Drawing, leak_down_chart
from jobbook.core.stand_judging import Judged, hours_words
from jobbook.core.stands import Stand, hours_between
from jobbook.services import stands
from jobbook.services.asks import HOW_OFF
from jobbook.services.diagnosing import Diagnosis
from jobbook.services.opened import OpenBook
from jobbook.services.sheets import Ask, Option
from jobbook.services.stand_records import conditions_words, curves, heights_words
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing
from jobbook.ui.moments import day_and_hour

TITLE = "Leak-down stand"
DASHED = "dashed: the other three corners"
EXPLAIN_BEGIN = "Normal height, level floor, keys away from the vehicle. Measure, then leave it alone."
EXPLAIN_END = "Read the heights before anybody unlocks it or opens a door."
NOTHING = "No stand yet. One hour shows a large leak, a night a small one."
MARKS = {"void": "bar", "too short": "half", "woken": "half"}
REASON = Ask("reason", "Why it is corrected")


def _options(*words: str) -> tuple[Option, ...]:
    return tuple(Option(word, word) for word in words)


YES_NO = _options("no", "yes", "unknown")
TIME = Ask("time", "Read at, if not now: 17:40", "time", required=False, folded=True)


def _begin_asks(there: Diagnosis) -> tuple[Ask, ...]:
    rules = _options(*(tool.number for tool in there.tools if tool.kind == "rule or tape"))
    return (
        Ask("heights", "Heights, hub centre to arch edge", "heights", unit=there.unit),
        Ask("temperature", "Air temperature", "quantity", unit="°C", required=False),
        Ask("parked", "Where it is parked", required=False),
        Ask("levelling", "Levelling", "choice", _options("off", "asleep", "active")),
        Ask("how", "Switched off by", "list", _options(*HOW_OFF), required=False),
        Ask("ignition", "Ignition", "choice", _options("off", "on"), value="off"),
        Ask("doors", "Doors", "choice", _options("shut", "open"), value="shut"),
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
    lines = tuple(_line(there, stand, now) for stand in reversed(there.stands))
    runs = any(stand.runs for stand in there.stands)
    begin = Deed("stand", "Begin a stand…", _begin_asks(there), of="begin", keep="Begin", explain=EXPLAIN_BEGIN)
    return Block(TITLE, lines, nothing=NOTHING, deeds=() if runs else (begin,), drawing=_chart(there))


def _chart(there: Diagnosis) -> Drawing | None:
    shown = [there.judged[stand.number] for stand in there.stands if stand.number in there.judged]
    counting = [one for one in shown if not one.void] or shown
    return _drawn(counting[-1]) if counting else None


def _drawn(one: Judged) -> Drawing:
    begun, ended = one.stand.begun, one.stand.ended
    ends = [(begun.at, begun.temperature), (ended.at, ended.temperature)] if ended is not None else []
    start, end = (", ".join(filter(None, (day_and_hour(at), celsius))) for at, celsius in ends)
    return leak_down_chart(curves(one), start, end, DASHED)


def _line(there: Diagnosis, stand: Stand, now: str) -> Line:
    if stand.ended is None:
        return _running(there, stand, now)
    if stand.ended.stopped:
        said = f"given up: {stand.ended.stopped}"
        return Line(f"{TITLE} from {day_and_hour(stand.begun.at)}", said, "ring", stand.ended.at)
    one = there.judged[stand.number]
    return Line(
        one.sentence,
        "\n".join((*one.findings, _from_to(stand), conditions_words(stand), _by(there, stand))),
        MARKS.get(one.verdict, "disc"),
        stand.ended.at,
        loud=one.verdict == "leak",
        deeds=(_correct_begin(there, stand), _correct_end(there, stand)),
    )


def _running(there: Diagnosis, stand: Stand, now: str) -> Line:
    begun, number = stand.begun, str(stand.number)
    lasted = hours_words(hours_between(begun.at, now))
    end = Deed("stand", "End it…", _end_asks(there), of=f"end {number}", keep="End", explain=EXPLAIN_END, main=True)
    give_up = Deed("stand", "Give it up…", (Ask("reason", "Why"),), of=f"stop {number}")
    said = (
        f"{heights_words(begun.heights)} mm, {begun.temperature or 'temperature not recorded'}",
        conditions_words(stand),
    )
    title = f"stands since {day_and_hour(begun.at)}, {lasted}"
    return Line(title, "\n".join(said), "half", begun.at, deeds=(end, give_up, _correct_begin(there, stand)))


def _from_to(stand: Stand) -> str:
    begun, ended = stand.begun, stand.ended
    last = f" to {heights_words(ended.heights)} mm at {day_and_hour(ended.at)}" if ended is not None else ""
    return f"{heights_words(begun.heights)} at {day_and_hour(begun.at)}{last}"


def _by(there: Diagnosis, stand: Stand) -> str:
    names = dict.fromkeys(there.names.get(one, one) for one in (stand.begun_by, stand.ended_by))
    return f"by {' and '.join(names)}"


def _again(asks: tuple[Ask, ...], told: dict[str, object], typed: object) -> tuple[Ask, ...]:
    """The questions with what was answered, all of them in sight."""
    heights = "; ".join(f"{corner} {text}" for corner, text in typed.items()) if isinstance(typed, dict) else ""
    values = {"heights": heights, "time": str(told["at"])[:16].replace("T", " ")}
    return tuple(replace(ask, value=values.get(ask.name, str(told.get(ask.name, ""))), folded=False) for ask in asks)


def _correct_begin(there: Diagnosis, stand: Stand) -> Deed:
    asks = _again(_begin_asks(there), vars(stand.begun), dict(stand.begun.typed))
    return Deed("stand", "Correct the beginning…", (*asks, REASON), of=f"correct-begin {stand.number}")


def _correct_end(there: Diagnosis, stand: Stand) -> Deed:
    ended = stand.ended
    asks = _again(_end_asks(there), vars(ended), dict(ended.typed)) if ended is not None else ()
    return Deed("stand", "Correct the end…", (*asks, REASON), of=f"correct-end {stand.number}")


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
