"""What stands of a job's leak-down stands in the book: read, judged, and in words."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from decimal import Decimal
from typing import Any

from jobbook.core.drawing import Curve
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.jobs import FaultCode
from jobbook.core.measured.heights import Height, Sure, height_of
from jobbook.core.measured.practice import practice_of
from jobbook.core.measured.stand_judging import Judged, hours_words, judged, tenth
from jobbook.core.measured.stands import Begun, Ended, Stand, hours_between
from jobbook.core.people import Shop
from jobbook.core.record.journal import Entry
from jobbook.db.store import Book
from jobbook.services.sheet.sheets import StateWord

BEGUN, ENDED = "stand-begun/1", "stand-ended/1"
EXACT = Sure(Decimal(0))


def stands_of(reading: Book, job: int) -> tuple[Stand, ...]:
    """The stands of a job in the order in which they were begun, as they are after corrections."""
    return stands_from(reading.journal.entries(job=job, kind=(BEGUN, ENDED)))


def stands_from(entries: Sequence[Entry]) -> tuple[Stand, ...]:
    """The stands that entries of one job tell of."""
    last = {entry.number: entry for entry in entries if entry.replaces is None}
    first = {entry.number: entry.number for entry in entries if entry.replaces is None}
    for entry in entries:
        if entry.replaces is not None:
            first[entry.number] = first[entry.replaces]
            last[first[entry.number]] = entry
    ends = {int(one.payload["stand"]): one for one in last.values() if one.kind == ENDED}
    return tuple(_stand(number, one, ends.get(number)) for number, one in last.items() if one.kind == BEGUN)


def _stand(number: int, begun: Entry, ended: Entry | None) -> Stand:
    start = Begun(begun.done_at, **_facts(begun.payload, Begun))
    if ended is None:
        return Stand(number, start, begun.done_by, entries=(begun.number,))
    end = Ended(ended.done_at, **_facts(ended.payload, Ended))
    return Stand(number, start, begun.done_by, end, ended.done_by, (begun.number, ended.number))


def _facts(payload: Mapping[str, Any], kind: type[Begun] | type[Ended]) -> dict[str, Any]:
    return {name: payload[name] for name in kind.__dataclass_fields__ if name in payload and name != "at"}


def running(reading: Book, job: int) -> Stand | None:
    """The stand that is not ended yet."""
    return next((one for one in stands_of(reading, job) if one.runs), None)


def judged_stands(stands: Sequence[Stand], codes: Sequence[FaultCode], shop: Shop) -> tuple[Judged, ...]:
    """The stands with a last reading, judged by the shop's limits; codes that the book knows of count as read."""
    limits = practice_of(shop.practice).stand
    seen = [_with_codes(one, codes) for one in stands if one.read_again]
    return tuple(judged(one, limits, _heights(one)) for one in seen)


def _with_codes(stand: Stand, codes: Sequence[FaultCode]) -> Stand:
    """The stand as it is when fault codes were read in the midst of it, whatever was answered at its end."""
    ended = stand.ended
    if ended is None or not any(_within(code.at, stand.begun.at, ended.at) for code in codes):
        return stand
    return replace(stand, ended=replace(ended, codes="yes"))


def _within(at: str, start: str, end: str) -> bool:
    return hours_between(start, at) > 0 and hours_between(at, end) > 0


def _heights(stand: Stand) -> tuple[Mapping[str, Height], Mapping[str, Height]]:
    first, last = (
        {corner: height_of(corner, told.typed[corner], EXACT) for corner in CORNERS}
        for told in (stand.begun, stand.ended or stand.begun)
    )
    return first, last


def curves(one: Judged) -> tuple[Curve, ...]:
    """The drop of each corner over the stand; the corner that it is about is drawn strong."""
    hours = Decimal(one.hours.numerator) / one.hours.denominator
    ends = {corner: Decimal(drop.numerator) / drop.denominator for corner, drop in one.shows.drop_mm.items()}
    return tuple(
        Curve(
            f"{corner} {tenth(one.shows.drop_mm[corner])}",
            ((Decimal(0), Decimal(0)), (hours, drop)),
            corner == one.about,
        )
        for corner, drop in ends.items()
    )


def known_of_stand(one: Judged) -> tuple[tuple[str, str], ...]:
    """A stand as the figure `leak-down` takes it: both heights, the hours, the temperatures where they were read."""
    begun, ended = one.stand.begun, one.stand.ended or one.stand.begun
    before, after = ("; ".join(f"{told[corner]} mm" for corner in CORNERS) for told in (begun.heights, ended.heights))
    known = {"before": before, "after": after, "hours": f"{float(one.hours):.2f} h"}
    if begun.temperature and ended.temperature:
        known |= {"start_temperature": begun.temperature, "end_temperature": ended.temperature}
    return tuple(known.items())


def cry(stand: Stand | None) -> str:
    """What whoever comes to the vehicle must know while it stands."""
    if stand is None:
        return ""
    return (
        f"Leak-down stand since {stand.begun.at[11:16]}: open no door, read no codes, wake nothing before it is read."
    )


def state_words(stand: Stand | None, now: datetime) -> tuple[StateWord, ...]:
    """“stand since 17:40, 13.5 h”, while one runs."""
    if stand is None:
        return ()
    lasted = hours_words(hours_between(stand.begun.at, now.isoformat()))
    return (StateWord(f"stand since {stand.begun.at[11:16]}, {lasted}", True),)


def left_words(begun: Begun) -> str:
    """How it was left standing, in a line."""
    told = (
        f"ignition {begun.ignition}",
        f"mode {begun.mode}" if begun.mode else "",
        f"levelling off, {begun.how}" if begun.levelling == "off" else f"levelling {begun.levelling}",
        f"doors {begun.doors}",
        f"load {begun.load}" if begun.load else "",
        f"parked: {begun.parked}" if begun.parked else "where it was parked is not recorded",
        f"read with {begun.instrument}" if begun.instrument else "",
    )
    return "; ".join(filter(None, told))


def found_words(ended: Ended) -> str:
    """How it was found, in a line."""
    told = (
        *(_answer("woken", ended.woken), _answer("door opened", ended.door), _answer("codes read", ended.codes)),
        f"air volume {ended.volume}, area {ended.area}" if ended.volume else "",
        ended.note,
    )
    return "; ".join(filter(None, told))


def _answer(what: str, answer: str) -> str:
    return {"no": f"{what}: no", "yes": f"{what}: yes"}.get(answer, f"{what}: not known")


def heights_words(heights: Mapping[str, str]) -> str:
    return ", ".join(f"{corner} {value}" for corner, value in heights.items())
