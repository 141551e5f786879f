"""Heights on the Diagnosis tab: every reading with its place in the job, what is judged, and how it was measured."""

from dataclasses import replace

from jobbook.core.figures.doubt import CONFORM
from jobbook.core.measured.heights import shown, typed_words
from jobbook.core.work.model import CORNERS
from jobbook.services import work
from jobbook.services.measured.diagnosing import Diagnosis, measure_heights
from jobbook.services.measured.height_words import difference_words, heights_from, instrument_words, judged_words
from jobbook.services.measured.heights import TYPED, HeightReading
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing

REASON = Ask("reason", "Why it is corrected")
NOTHING = "No heights yet. Measure as it stands, before anybody opens a door or wakes it."
NO_LIMITS = "not judged: no limits from a document are known for this variant"


def block(there: Diagnosis) -> Block:
    """Every reading, the newest first and with every figure; of the earlier ones what is out of the ordinary."""
    newest = there.readings[-1:]
    lines = tuple(_line(there, one, one in newest) for one in reversed(there.readings))
    measure = Deed("heights", "Measure the heights…", there.height_asks, keep="Keep the reading")
    deeds = () if there.job.released_at else (measure,)
    return Block(f"Heights, {heights_from(there.unit)}", lines, nothing=NOTHING, deeds=deeds)


def _line(there: Diagnosis, one: HeightReading, whole: bool) -> Line:
    read = " · ".join(f"{corner} {shown(mean, there.unit)}" for corner, mean in one.means.items())
    return Line(
        f"{one.phase}: {read}",
        "\n".join(filter(None, (_judged(there, one, whole), _apart(there, one, whole), _how(there, one)))),
        "disc",
        one.act.at,
        loud=any(judged.verdict == "not conform" for judged in one.judged.values()),
        deeds=(_correction(there, one),),
    )


def _judged(there: Diagnosis, one: HeightReading, whole: bool) -> str:
    """The corners that are not sure to conform with their figures; of the newest reading all of them."""
    told = [judged for judged in one.judged.values() if judged.verdict]
    figures = [judged_words(judged, there.unit) for judged in told if whole or judged.verdict != CONFORM]
    rest = [judged.height.corner for judged in told if not whole and judged.verdict == CONFORM]
    quiet = f"{', '.join(rest)} {'conform' if len(rest) > 1 else 'conforms'}" if rest else ""
    return "; ".join(filter(None, (*figures, quiet))) or NO_LIMITS


def _apart(there: Diagnosis, one: HeightReading, whole: bool) -> str:
    return "; ".join(difference_words(apart, there.unit) for apart in one.differences if whole or apart.word)


def _how(there: Diagnosis, one: HeightReading) -> str:
    typed = typed_words([judged.height for judged in one.judged.values()])
    parts = [f"{label} {said}" for label, said in one.conditions]
    parts += [f"with {instrument_words(one.act)}", f"by {there.names.get(one.act.by, one.act.by)}"]
    return " · ".join(filter(None, (*parts, f"read {typed}" if typed else "")))


def _correction(there: Diagnosis, one: HeightReading) -> Deed:
    """The questions again, with what was answered."""
    told = dict(one.act.readings) | {"how": one.act.how}
    typed = "; ".join(f"{c} {told.get(TYPED + c, told[c])}" for c in CORNERS if c in told)
    asks = tuple(
        replace(ask, value=typed if ask.name == "heights" else told.get(ask.name, ""), folded=False)
        for ask in there.height_asks
    )
    return Deed("heights", "Correct…", (*asks, REASON), of=str(one.entry))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if not deed.of:
        return measure_heights(book, by.who, job, given).words
    answers = {name: text for name, text in given.items() if name != "reason"}
    return work.correct(book, by.who, int(deed.of), answers, given["reason"]).words
