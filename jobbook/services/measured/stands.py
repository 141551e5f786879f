"""Leak-down stands of a job: begun, ended, given up, corrected."""

from collections.abc import Mapping
from dataclasses import asdict, fields, replace
from datetime import datetime
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.figures.leakdown import CORNERS
from jobbook.core.measured.heights import settled
from jobbook.core.measured.stands import Begun, Ended, Stand, look_at_begin, look_at_end
from jobbook.core.people import Person
from jobbook.core.quantities import read_quantity
from jobbook.core.record.journal import Draft
from jobbook.core.work.state import air
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand, reopen, to_be_tested
from jobbook.services.job.replay import job_state
from jobbook.services.measured.heights import pairs_of
from jobbook.services.measured.stand_records import BEGUN, ENDED, running, stands_of
from jobbook.services.opened import OpenBook
from jobbook.services.typed_times import read_moment
from jobbook.services.work.written import Written, written

UNITS = {"temperature": ("temperature", "degC"), "volume": ("volume", "L"), "area": ("area", "cm2")}


def begin_stand(book: OpenBook, who: Person, job: int, given: Mapping[str, str]) -> Written:
    """Keep how the vehicle is left standing. Refused while another stand of the job runs, and on an empty spring."""
    with writing(book, who, "work") as tx:
        to_be_tested(tx, job)
        there = running(tx, job)
        if there is not None:
            raise Refused(f"The stand was not begun: one runs since {there.begun.at[11:16]}. End that one first.")
        _look_for_air(tx, job)
        begun = _begun(given, book.clock(), tx.shop().height_unit)
        look_at_begin(begun)
        entry = tx.keep(_draft(BEGUN, job, begun, who))
    return written(entry, f"Leak-down stand begun at {begun.at[11:16]}")


def end_stand(book: OpenBook, who: Person, job: int, stand: int, given: Mapping[str, str]) -> Written:
    """Keep how the vehicle was found: heights read before it was woken, and whether anything woke it."""
    with writing(book, who, "work") as tx:
        in_hand(tx, job)
        there = _get(tx, job, stand)
        if there.ended is not None:
            raise Refused("The stand was not ended: it has ended already. Correct what is wrong in it.")
        ended = _ended(given, book.clock(), tx.shop().height_unit)
        look_at_end(there.begun, ended)
        entry = tx.keep(_draft(ENDED, job, ended, who, stand=stand))
    return written(entry, "Leak-down stand ended")


def stop_stand(book: OpenBook, who: Person, job: int, stand: int, reason: str) -> Written:
    """Give a running stand up without a last reading: the vehicle was needed, or moved. The reason stays."""
    if not reason.strip():
        raise Refused("The stand still runs: say why it is given up.")
    with writing(book, who, "work") as tx:
        in_hand(tx, job)
        if _get(tx, job, stand).ended is not None:
            raise Refused("Nothing was changed: this stand has ended already.")
        stopped = Ended(book.now(), stopped=reason.strip())
        entry = tx.keep(_draft(ENDED, job, stopped, who, stand=stand))
    return written(entry, "Leak-down stand given up")


def correct_begin(book: OpenBook, who: Person, job: int, stand: int, given: Mapping[str, str], reason: str) -> Written:
    """Keep a correction of how a stand began; the rest stays. A released job is opened again by it."""
    return _correct(book, who, job, stand, BEGUN, given, reason)


def correct_end(book: OpenBook, who: Person, job: int, stand: int, given: Mapping[str, str], reason: str) -> Written:
    """Keep a correction of how a stand ended; the rest stays. A released job is opened again by it."""
    return _correct(book, who, job, stand, ENDED, given, reason)


def _correct(
    book: OpenBook, who: Person, job: int, stand: int, kind: str, given: Mapping[str, str], reason: str
) -> Written:
    if not reason.strip():
        raise Refused("The correction was not kept: it needs its reason.")
    with writing(book, who, "work") as tx:
        there = _get(tx, job, stand)
        draft = _corrected(there, kind, given, book.clock(), tx.shop().height_unit, job, who)
        old = there.entries[0] if kind == BEGUN else there.entries[-1]
        entry = tx.keep(replace(draft, replaces=old, reason=reason.strip()))
        reopen(tx, job, reason.strip())
    return written(entry, "Correction of the stand kept")


def _corrected(
    there: Stand, kind: str, given: Mapping[str, str], now: datetime, unit: str, job: int, who: Person
) -> Draft:
    """The corrected entry, looked at together with the other end of the stand."""
    begun, ended = there.begun, there.ended
    if kind == BEGUN:
        begun = _begun(_with_what_was(begun, given), now, unit)
        look_at_begin(begun)
    elif ended is None or ended.stopped:
        raise Refused("Nothing was corrected: this stand has no last reading.")
    else:
        ended = _ended(_with_what_was(ended, given), now, unit)
    if ended is not None and not ended.stopped:
        look_at_end(begun, ended)
    if kind == ENDED and ended is not None:
        return _draft(ENDED, job, ended, who, stand=there.number)
    return _draft(BEGUN, job, begun, who)


def _look_for_air(tx: WritingBook, job: int) -> None:
    state = job_state(tx, job)
    flat = [corner for corner in CORNERS if air(state, corner) == "vented"]
    if flat:
        raise Refused(
            f"The stand was not begun: {' and '.join(flat)} stands with no air, so nothing can be seen to leak. Answer "
            "the test “Leak-down stand” as not possible, with that reason."
        )


def _get(reading: Book, job: int, stand: int) -> Stand:
    there = next((one for one in stands_of(reading, job) if one.number == stand), None)
    if there is None:
        raise Refused(f"Nothing was kept: job {job} has no stand {stand}. Look at the job again.")
    return there


def _begun(given: Mapping[str, str], now: datetime, unit: str) -> Begun:
    return Begun(**_facts(Begun, given, now, unit))


def _ended(given: Mapping[str, str], now: datetime, unit: str) -> Ended:
    return Ended(**_facts(Ended, given, now, unit))


def _facts(kind: type[Begun] | type[Ended], given: Mapping[str, str], now: datetime, unit: str) -> dict[str, Any]:
    """The answers as a record has them: quantities with their unit, heights as mean and as typed, the time whole."""
    typed = {corner: settled(given.get(f"heights {corner}", ""), unit) for corner in CORNERS}
    typed = {corner: text for corner, text in typed.items() if text}
    known = {field.name for field in fields(kind)} - {"at", "heights", "typed", "stopped"}
    said = {name: given[name].strip() for name in known if given.get(name, "").strip()}
    for name in UNITS.keys() & said.keys():
        kind_of, usual = UNITS[name]
        said[name] = read_quantity(said[name], kind_of, default_unit=usual).text()
    heights = {corner: pairs_of(corner, text)[0][1] for corner, text in typed.items()}
    return {"at": read_moment(given.get("time", ""), now).isoformat(), "heights": heights, "typed": typed, **said}


def _with_what_was(was: Begun | Ended, given: Mapping[str, str]) -> dict[str, str]:
    """The answers, completed by what was said before; a height that is not given stays as it was typed."""
    told = {name: value for name, value in asdict(was).items() if isinstance(value, str) and name != "stopped"}
    told["time"] = told.pop("at")
    heights = {f"heights {corner}": text for corner, text in was.typed.items()}
    return told | heights | {name: text for name, text in given.items() if text.strip()}


def _draft(kind: str, job: int, record: Begun | Ended, who: Person, **more: int) -> Draft:
    facts = {name: value for name, value in asdict(record).items() if name != "at"}
    return Draft(kind, f"job/{job}", facts | more | {"job": job}, job=job, done_at=record.at, done_by=who.id)
