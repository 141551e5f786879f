"""Heights and stands as papers say them: readings with their limits, what was judged, how it was measured."""

from decimal import Decimal

from jobbook.core.drawing import CornerHeights
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.measured.heights import typed_words
from jobbook.core.measured.stand_judging import Judged, void_because
from jobbook.core.measured.stands import Stand
from jobbook.core.vehicle.specifications import Specification
from jobbook.paperwork.codes import Test
from jobbook.paperwork.heights import Heights, LeakDown
from jobbook.services.measured.height_words import difference_words, heights_from, instrument_words, judged_words
from jobbook.services.measured.heights import HeightReading, Surroundings, before_and_after, height_readings, limits_mm
from jobbook.services.measured.stand_records import curves, found_words, heights_words, judged_stands, left_words
from jobbook.services.papers.gathered import JobFacts, moment
from jobbook.services.papers.joint_stories import Sources

DASHED = "dashed: the other three corners"


def heights(facts: JobFacts, sources: Sources) -> Heights:
    around = Surroundings(facts.specifications, tuple(facts.tools.values()), facts.shop)
    before, after = before_and_after(height_readings(facts.kept, around))
    limits = {spec.key.removeprefix("height "): spec for spec in facts.specifications if spec.key[:7] == "height "}
    unit, newest = facts.shop.height_unit, after or before
    return Heights(
        tuple(_corner(facts, corner, limits.get(corner), before, after) for corner in CORNERS),
        heights_from(unit),
        "; ".join(_limit_words(corner, limits[corner], sources) for corner in CORNERS if corner in limits),
        _read_words(facts, before),
        _read_words(facts, after),
        "; ".join(filter(None, (_judged_words(newest, unit), _before_words(before, after, unit)))),
        "; ".join(difference_words(one, unit) for one in (newest.differences if newest else ())),
        unit,
    )


def _corner(
    facts: JobFacts, corner: str, spec: Specification | None, before: HeightReading | None, after: HeightReading | None
) -> CornerHeights:
    newest = next((one.judged[corner] for one in (after, before) if one and corner in one.judged), None)
    lower, target, upper = limits_mm(spec)
    first, last = (_mean(one, corner) for one in (before, after))
    guard = newest.height.expanded_mm if newest is not None and newest.verdict else None
    verdict, unit = newest.verdict if newest is not None else "", facts.shop.height_unit
    why = _why_not(facts, corner)
    return CornerHeights(corner, lower, target, upper, first, last, why, "not measured", guard, verdict, unit)


def _mean(read: HeightReading | None, corner: str) -> Decimal | None:
    if read is None or corner not in read.judged:
        return None
    return read.judged[corner].height.mean_mm.quantize(Decimal("0.1"))


def _limit_words(corner: str, spec: Specification, sources: Sources) -> str:
    return f"{corner} {spec.text} {spec.tolerance}".strip() + sources.mark(spec.document, spec.edition, spec.read_by)


def _why_not(facts: JobFacts, corner: str) -> str:
    air = next((k.act.conditions.get(f"air {corner}", "") for k in facts.kept if k.act.do == "arrive"), "")
    return "not possible: no air" if air == "vented" else "not measured"


def _judged_words(read: HeightReading | None, unit: str) -> str:
    """Each corner that has limits against them, with the guard band and how it came about."""
    told = [one for one in read.judged.values() if one.verdict] if read is not None else []
    said = [judged_words(one, unit) for one in told]
    if not said:
        return "not judged: no limits from a document are known for this variant"
    repeated = any(one.height.repeated for one in told)
    how = "from spread, rule and certificate; " if repeated else ""
    return "; ".join(said) + f". ± is the guard band (k = 2): {how}for one reading the shop's figure"


def _before_words(before: HeightReading | None, after: HeightReading | None, unit: str) -> str:
    """What did not conform before the work, where there is a later reading that says how it was left."""
    wrong = [one for one in before.judged.values() if one.verdict == "not conform"] if before and after else []
    return f"before the work: {'; '.join(judged_words(one, unit) for one in wrong)}" if wrong else ""


def _read_words(facts: JobFacts, read: HeightReading | None) -> str:
    """When, at what temperature, by whom, with what, under which conditions, and what was typed where it says more."""
    if read is None:
        return ""
    told = dict(read.conditions)
    conditions = [f"{label} {said}" for label, said in told.items() if label != "air temperature"]
    parts = [
        f"{moment(read.act.at)}, {read.phase}",
        told.get("air temperature", "temperature not recorded"),
        f"by {facts.name(read.act.by)} with {instrument_words(read.act)}",
        *conditions,
    ]
    typed = typed_words([one.height for one in read.judged.values()])
    return ", ".join(parts) + (f"; read: {typed}" if typed else "")


def stand_for_paper(facts: JobFacts) -> LeakDown | None:
    """The stand that counts: the last one that is not void, or else the last one; None where there was none."""
    judged = judged_stands(facts.stands, facts.codes, facts.shop)
    counting = [one for one in judged if not one.void] or list(judged)
    return _stand(facts, counting[-1], len(facts.stands)) if counting else None


def _stand(facts: JobFacts, one: Judged, stands: int) -> LeakDown:
    begun, ended = one.stand.begun, one.stand.ended
    if ended is None:
        raise ValueError("a stand that still runs has no chart")
    read = f"{heights_words(begun.heights)}; then {heights_words(ended.heights)} mm."
    others = f" {stands} stands of this job are on record." if stands > 1 else ""
    by = " and ".join(dict.fromkeys(facts.name(person) for person in (one.stand.begun_by, one.stand.ended_by)))
    return LeakDown(
        curves(one),
        _end_words(begun.at, begun.temperature),
        _end_words(ended.at, ended.temperature),
        DASHED,
        f"{left_words(begun)}; {found_words(ended)}; by {by}",
        f"{read} {one.sentence} {' '.join(one.findings)}{others}",
    )


def _end_words(at: str, temperature: str) -> str:
    return ", ".join(filter(None, (moment(at), temperature)))


def stand_tests(facts: JobFacts) -> tuple[Test, ...]:
    """The stands among the tests: done with what they show, or not done because they were given up or still run."""
    judged = {one.stand.number: one for one in judged_stands(facts.stands, facts.codes, facts.shop)}
    return tuple(_test(facts, stand, judged.get(stand.number)) for stand in facts.stands)


def _test(facts: JobFacts, stand: Stand, one: Judged | None) -> Test:
    begun, by = f"Leak-down stand from {moment(stand.begun.at)}", facts.name(stand.ended_by or stand.begun_by)
    if one is not None:
        return Test(begun, "done", " ".join((one.sentence, *void_because(one.stand))), "", by)
    return Test(begun, "not done", "", stand.ended.stopped if stand.ended is not None else "it still runs", by)
