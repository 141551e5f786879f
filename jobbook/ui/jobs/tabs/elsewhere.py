"""What answers a test of the order in another block of the Diagnosis tab: heights, codes, stands."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.measured.guided import Guided
from jobbook.core.measured.heights import shown
from jobbook.core.measured.stands import Stand
from jobbook.services.measured.diagnosing import Diagnosis
from jobbook.services.measured.heights import AS_IT_STOOD, BEFORE, LEVELLED, HeightReading
from jobbook.services.sheet.sheets import Ask
from jobbook.ui.jobs.tabs import codes, heights, stand
from jobbook.ui.jobs.tabs.records import Deed

NO_AIR = "not possible · arrived with no air, on its stops"
NOT_WITHOUT_AIR = ("heights", "levelled", "stand")  # nothing of a ride height can be told of a vehicle on its stops
DISC, HALF, BAR = "disc", "half", "bar"


def running(there: Diagnosis) -> Stand | None:
    """The stand that is not ended yet: nothing is done at the vehicle before it is read."""
    return next((one for one in there.stands if one.runs), None)


def answer(there: Diagnosis, test: Guided) -> tuple[str, str]:
    """The words and the mark of what answers it; both empty while nothing does."""
    words, mark = {"heights": _heights, "levelled": _levelled, "codes": _codes, "stand": _stand}[test.by](there)
    kept = any(one.name == test.title for one in there.tests)
    if not words and not kept and there.job.arrival == "no air" and test.key in NOT_WITHOUT_AIR:
        return NO_AIR, BAR
    return words, mark


def _before(there: Diagnosis, levelled: bool) -> list[HeightReading]:
    return [one for one in there.readings if one.phase == BEFORE and one.levelled is levelled]


def _heights(there: Diagnosis) -> tuple[str, str]:
    found = _before(there, levelled=False)
    return (f"done · {_read(found[0], there.unit)}", DISC) if found else ("", "")


def _levelled(there: Diagnosis) -> tuple[str, str]:
    found = _before(there, levelled=True)
    return (f"done · {_read(found[-1], there.unit)}", DISC) if found else ("", "")


def _read(one: HeightReading, unit: str) -> str:
    return " · ".join(f"{corner} {shown(mean, unit)}" for corner, mean in one.means.items())


def _codes(there: Diagnosis) -> tuple[str, str]:
    modules = sorted({code.module for code in there.codes if code.when == "before"})
    if not modules:
        return "", ""
    return f"done · {len(modules)} module{'s' if len(modules) > 1 else ''} read: {', '.join(modules)}", DISC


def _stand(there: Diagnosis) -> tuple[str, str]:
    """The stand that runs, or what the last one with a last reading shows; one that was given up answers nothing."""
    if running(there) is not None:
        return "it stands: wake nothing and read no codes before it is read", HALF
    read = [there.judged[one.number] for one in there.stands if one.number in there.judged]
    if not read:
        return "", ""
    return f"done · {read[-1].sentence}", stand.MARKS.get(read[-1].verdict, DISC)


def deeds(there: Diagnosis, test: Guided, now: str) -> tuple[Deed, ...]:
    """The acts of the other block, to be done from here."""
    if there.job.released_at:
        return ()
    if test.by == "codes":
        none = Deed("code", "None stored…", (codes.MODULE, codes.TIME), of="none")
        return Deed("code", "A code…", codes.ASKS), none
    if test.by != "stand":
        stood = {"stood": LEVELLED if test.by == "levelled" else AS_IT_STOOD}
        measure = heights.block(there).deeds
        return tuple(replace(deed, label="Measure…", main=False, asks=_told(deed, stood)) for deed in measure)
    there_is = stand.block(there, now)
    if running(there) is not None:
        return tuple(deed for line in there_is.lines for deed in line.deeds if deed.of.startswith(("end ", "stop ")))
    return tuple(replace(deed, label="Begin…") for deed in there_is.deeds)


def _told(deed: Deed, known: Mapping[str, str]) -> tuple[Ask, ...]:
    """What a deed asks, with what is known already."""
    return tuple(replace(ask, value=known.get(ask.name, ask.value)) for ask in deed.asks)
