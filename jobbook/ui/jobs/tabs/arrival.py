"""Arrival: what was taken in, as read; another reading or another concern can be added."""

from decimal import Decimal

from jobbook.core.errors import Refused
from jobbook.core.jobs import ARRIVALS, Concern, Job
from jobbook.core.measured.heights import shown
from jobbook.core.quantities.whole import whole_number
from jobbook.core.written import ERASED
from jobbook.services.job import moving
from jobbook.services.office import desk
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Fact, JobSheet, Option, Staff
from jobbook.ui.jobs.tabs import handed_in, odometers, people_of_job, variant
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet
from jobbook.ui.moments import day_and_hour


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    job = desk.get_job(book, sheet.number)
    return TabSheet(
        (
            _concerns(job.concerns),
            people_of_job.block(book, job),
            Block("As taken in", facts=_facts(job)),
            handed_in.block(book, sheet.number),
            _heights(sheet.staffs, sheet.heights_from),
            odometers.block(book, job.vehicle_id),
            *variant.blocks(book, job.vehicle_id, bool(job.released_at)),
            _moving(book, sheet.number),
        )
    )


def _concerns(concerns: tuple[Concern, ...]) -> Block:
    lines = tuple(Line(ERASED if one.words is None else f"“{one.words}”") for one in concerns)
    add = Deed("concern", "Another concern…", (Ask("words", "In the customer's words", "long text"),))
    return Block("Concerns, in the customer's words", lines, deeds=(add,))


def _facts(job: Job) -> tuple[Fact, ...]:
    told = (
        ("Taken in", job.from_paper or day_and_hour(job.opened_at)),
        ("Arrived", ARRIVALS.get(job.arrival, job.arrival)),
        ("Promised", day_and_hour(job.promised)),
        ("Condition", job.condition),
        ("Fuel", job.fuel),
        ("Load", job.load),
        ("Old parts back", job.parts_back),
    )
    return tuple(Fact(title, value or "not recorded", strong=False) for title, value in told)


def _heights(staffs: tuple[Staff, ...], heights_from: str) -> Block:
    read = (f"{staff.corner} {_shown(staff)}" for staff in staffs)
    return Block(f"Heights as it stood, {heights_from}", (Line(" · ".join(read)),))


def _shown(staff: Staff) -> str:
    return shown(Decimal(staff.before), staff.unit) if staff.before else "not measured"


def _moving(book: OpenBook, job: int) -> Block:
    """What was kept on the wrong job is moved from here, and what was moved stays told."""
    there, gone = moving.moves(book, job)
    lines = tuple(
        Line(
            f"{one.words}: moved {'from' if one.here else 'to'} job {one.other}",
            f"{one.reason} · {one.by}",
            "half",
            at=one.at,
        )
        for one in gone
    )
    options = tuple(Option(one.act, f"{one.words} · {one.by}, {day_and_hour(one.at)}") for one in there)
    asks = (
        Ask("acts", "What belongs to another job", "pieces", options),
        Ask("to", "Number of the job that it belongs to", "number"),
        Ask("reason", "How it came to be kept here", "long text"),
    )
    deeds = (Deed("move", "Move entries to another job…", asks, signs=True, keep="Move"),) if there else ()
    return Block("Kept on the wrong job", lines, deeds=deeds, nothing="Nothing was moved.")


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if deed.key in (odometers.ADD, odometers.CORRECT):
        return odometers.keep(book, by, job, deed, given)
    if deed.key == people_of_job.KEY:
        return people_of_job.keep(book, by, job, given)
    if deed.key == handed_in.KEY:
        return handed_in.keep(book, by, job, deed, given)
    if deed.key == variant.KEY:
        return variant.keep(book, by, desk.get_job(book, job).vehicle_id, given)
    if deed.key == "move":
        acts = given["acts"].split(",")
        return moving.move(book, by.signer or by.who, job, acts, _job_number(given["to"]), given["reason"]).words
    number = 1 + max((one.number for one in desk.get_job(book, job).concerns), default=0)
    desk.concern(book, by.who, job, number, words=given["words"])
    return f"Concern {number}"


def _job_number(typed: str) -> int:
    number = whole_number(typed)
    if number is None:
        raise Refused(f"Nothing was moved: “{typed}” is no number of a job.")
    return number
