"""What is on a vehicle by place and what was there before, the joiners in its lines, and what was declined on it."""

from jobbook.core.desk.outcomes import OF_A_VISIT
from jobbook.core.desk.retorque import VisitThen
from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.vehicle.history import WHOSE, DeclinedThen, Joiner, joiners_words
from jobbook.core.vehicle.part_lives import REASONS, FittedPart
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicle_history import PartNow, history
from jobbook.ui.jobs.tabs.after import DONE, wheel_line
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, TabSheet
from jobbook.ui.moments import day
from jobbook.ui.places import Place, a_job


def show(book: OpenBook, number: int) -> TabSheet:
    told = history(book, number)
    wheels = _wheels(book, told.visits)
    return TabSheet((_parts(told.places), _joiners(told.joiners), *wheels, _declined(told.declined)))


def _parts(places: tuple[PartNow, ...]) -> Block:
    nothing = (
        "No part of ours is on this vehicle yet. One stands here from the moment when a job fits it at its corner."
    )
    lines = tuple(line for one in places for line in (_now(one), *(_before(part) for part in one.parts.before)))
    return Block("On it now, and what was there before", lines, nothing=nothing)


def _now(one: PartNow) -> Line:
    where = one.parts.place or "vehicle"
    part = one.parts.now
    if part is None:
        return Line(f"{where} · {one.parts.title}: none of ours is on it now", "", "bar")
    beside = [f"fitted {day(part.fitted_at)}, job {part.job}", part.supplier, *one.warranty]
    mark = "double" if one.runs else "disc"
    return Line(f"{where} · {_title(part)}", " · ".join(filter(None, beside)), mark, deeds=_open(part.job))


def _before(part: FittedPart) -> Line:
    why = REASONS.get(part.reason, "nobody said why")
    beside = (
        f"from {day(part.fitted_at)}, job {part.job}",
        f"until {day(part.off_at)}, job {part.off_job}: {why}" if part.off_at else "not taken off by us",
        part.supplier,
    )
    return Line(f"before: {_title(part)}", " · ".join(filter(None, beside)), "bar", deeds=_open(part.job))


def _title(part: FittedPart) -> str:
    told = (
        part.title,
        part.number,
        part.serial and f"serial {part.serial}",
        "" if part.condition == "new" else part.condition,
    )
    return " · ".join(filter(None, told))


def _joiners(joiners: tuple[Joiner, ...]) -> Block:
    return Block(
        "Joiners in the air lines",
        (Line(joiners_words(joiners)), *(_joiner(one) for one in joiners if not one.gone_in)),
    )


def _joiner(one: Joiner) -> Line:
    words = f"{one.corner} · {one.line}" if one.corner else one.line
    beside = " · ".join(filter(None, (WHOSE[one.whose], f"{day(one.at)}, job {one.job}", one.note)))
    return Line(words, beside, "disc", deeds=_open(one.job))


def _wheels(book: OpenBook, visits: tuple[VisitThen, ...]) -> tuple[Block, ...]:
    """The visits after wheels were off, with each wheel; nothing where none was ever asked for."""
    lines = tuple(line for one in visits for line in (_visit(one), *(wheel_line(book, wheel) for wheel in one.wheels)))
    return (Block("Wheel joints tightened once more", lines),) if visits else ()


def _visit(one: VisitThen) -> Line:
    words = OF_A_VISIT.get(one.outcome, one.outcome) or f"not yet, due {day(one.due_on)}"
    note = "note erased" if one.note is None else one.note
    mark = "ring" if not one.outcome else "disc" if one.outcome in DONE else "bar"
    return Line(f"After job {one.job}: {words}", note, mark, one.at, deeds=_open(one.job))


def _declined(declined: tuple[DeclinedThen, ...]) -> Block:
    lines = tuple(
        Line(one.what, f"{day(one.at)}, job {one.job} · {one.consequence}".rstrip(" ·"), "bar", deeds=_open(one.job))
        for one in declined
    )
    return Block("Declined by the customer", lines, nothing="Nothing was declined on this vehicle.")


def _open(job: int) -> tuple[Deed, ...]:
    return (Deed("job", "Open the job", of=str(job), opens=True),)


def keep(book: OpenBook, who: Person, number: int, deed: Deed, given: Answers) -> str:
    raise Refused("Nothing was kept: parts, joiners and what is declined are kept in a job.")


def place(deed: Deed) -> Place:
    return a_job(int(deed.of))
