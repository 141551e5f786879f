"""The job page's sheet: the two facing pages of one job, in one reading."""

from dataclasses import replace
from datetime import date, datetime

from jobbook.core import written
from jobbook.core.jobs import Job
from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import LooseEnd, Refusal
from jobbook.core.work.state import State, called
from jobbook.core.written import day_and_month, unless_erased
from jobbook.db.store import Book
from jobbook.services.agreed.permission_records import priced_of
from jobbook.services.agreed.price_words import allowed_and_used
from jobbook.services.job.in_hand import closed_words
from jobbook.services.job.methods import running_methods
from jobbook.services.job.replay import Kept, kept_acts, work_entries
from jobbook.services.measured import stand_records
from jobbook.services.measured.height_words import heights_from, staffs
from jobbook.services.measured.heights import Surroundings, height_readings
from jobbook.services.measured.readings import odometers_of
from jobbook.services.opened import OpenBook
from jobbook.services.sheet import sheet_left
from jobbook.services.sheet.choices import stands_alone
from jobbook.services.sheet.sheet_paper import as_paper
from jobbook.services.sheet.sheet_tabs import tabs
from jobbook.services.sheet.sheet_waits import waiting_words
from jobbook.services.sheet.sheet_work import WorkFacts, act_note, card, find_open, step_rows
from jobbook.services.sheet.sheets import BegunMethod, Blocked, Card, JobSheet, Unsigned
from jobbook.services.sheet.step_words import state_words
from jobbook.services.vehicle.cries import cry
from jobbook.services.work import countersigning
from jobbook.services.work.figures import bay_of, specifications_of
from jobbook.services.work.passing import passing_of
from jobbook.services.work.waiting import waits

UNSIGNED = (
    *("permit", "ask_authority", "authority", "price", "figure", "issue", "arrive", "begin", "allow", "let_go"),
    *("declare", "said"),
)


def job_sheet(book: OpenBook, number: int, open_step: tuple[int, int] | None = None, who: str = "") -> JobSheet:
    """Everything that the job page shows. `open_step` is the step that is wanted open: (begun, number)."""
    with book.store.read() as reading:
        job = reading.jobs.get(number)
        return as_paper(_sheet(book, reading, job, open_step, who), job)


def _sheet(book: OpenBook, reading: Book, job: Job, open_step: tuple[int, int] | None, who: str) -> JobSheet:
    entries = work_entries(reading, job.number)
    kept = kept_acts(entries)
    bay = bay_of(reading, job.number, kept, book)
    names = {person.id: person.name for person in reading.people.all()}
    running = running_methods(reading, kept)
    facts = WorkFacts(bay, running, kept, names, waits(reading, job.number), book.clock(), who)
    vehicle = reading.vehicles.get(job.vehicle_id)
    ends = all_loose_ends(bay.state, kept)
    place = find_open(facts, open_step)
    rows = step_rows(facts)
    at = (place.run.begun, place.step.number) if place else None
    opened = next((row for row in rows if (row.begun, row.number) == at), None)
    odometers = odometers_of(reading, job)
    around = Surroundings(specifications_of(reading, job.number), bay.tools, bay.shop)
    stand = stand_records.running(reading, job.number)
    money = allowed_and_used(priced_of(entries), bay.shop.currency)
    return JobSheet(
        number=job.number,
        stage=job.stage,
        stage_words=_stage_words(job, kept, book.today()),
        vehicle=vehicle.title,
        plate=vehicle.plate,
        concern=_concern(job),
        facts=sheet_left.facts(job, vehicle, odometers, money, book.today()),
        cry=stand_records.cry(stand) or cry(reading, job, vehicle, bay.shop, book.today()),
        staffs=staffs(height_readings(kept, around), around),
        heights_from=heights_from(around.shop.height_unit),
        state=(*waiting_words(reading, job.number, stand, book.clock()), *state_words(bay.state)),
        loose_now=tuple(end for end in ends if end.group == "loose now"),
        still_to_do=tuple(end for end in ends if end.group != "loose now"),
        held=_held(job, ends),
        tabs=tabs(reading, job, bay.state, rows, ends),
        methods=tuple(BegunMethod(run.begun, run.method.title, run.corner) for run in running),
        steps=rows,
        card=_in_hand_or_late(card(facts, place, opened), job) if place and opened else None,
        unsigned=unsigned(bay.state, kept, names),
        passing=passing_of(reading, job.number),
        files=reading.files.count(job.number),
    )


def _in_hand_or_late(card: Card, job: Job) -> Card:
    """Of a released job a step offers nothing; what was forgotten can still be kept as it happened."""
    closed = closed_words(job)
    if not closed:
        return card
    said = Refusal("released", closed[:1].upper() + closed[1:])
    late = tuple(Blocked(choice, (said,)) for choice in card.choices)
    return replace(card, choices=(), needs=(said.sentence,), blocked=(*late, *card.blocked))


def all_loose_ends(state: State, kept: tuple[Kept, ...]) -> tuple[LooseEnd, ...]:
    """What the rules find loose, what waits for a countersignature, and the acts that nobody signed yet."""
    found = (*loose_ends(state), *countersigning.open_ends(state, kept))
    waiting = [k for k in kept if not k.signed and k.act.do not in UNSIGNED]
    if not waiting:
        return found
    words = "1 act is not signed yet." if len(waiting) == 1 else f"{len(waiting)} acts are not signed yet."
    end = LooseEnd("not-signed", "acts", words, "still to do", "half", waiting[0].act.at)
    return (*found, end)


def unsigned(state: State, kept: tuple[Kept, ...], names: dict[str, str]) -> tuple[Unsigned, ...]:
    """The acts that wait for a signature."""
    return tuple(
        Unsigned(
            k.entry.act,
            k.entry.number,
            _what(state, k),
            names.get(k.act.by, k.act.by),
            k.act.at,
            not stands_alone(k.act),
        )
        for k in kept
        if not k.signed and k.act.do not in UNSIGNED
    )


def _what(state: State, kept: Kept) -> str:
    act = kept.act
    what = called(state, act.on) if act.on else (act.what or act.text or act.do).replace("_", " ")
    words = {"take_out": "out", "take_off": "off", "put_on": "on", "start": "by hand", "measure": ""}
    return " ".join(filter(None, (what, words.get(act.do, act.do.replace("_", " ")), act_note(act))))


def _stage_words(job: Job, kept: tuple[Kept, ...], today: date) -> str:
    if job.stage == "released":
        return f"released {_when(job.released_at, today)}"
    begun = next((k.act.at for k in kept if k.act.do == "begin"), "")
    return f"in work since {_when(begun, today)}" if begun else f"arrived {_when(job.opened_at, today)}"


def _when(at: str, today: date) -> str:
    """The hour of today, the day and hour of this year, or the whole date."""
    moment = datetime.fromisoformat(at)
    if moment.date() == today:
        return f"{moment:%H:%M}"
    day = day_and_month(moment) if moment.year == today.year else written.day(moment)
    return f"{day} {moment:%H:%M}"


def _concern(job: Job) -> str:
    first = next(iter(job.concerns), None)
    if first is None:
        return ""
    return unless_erased(first.words)


def _held(job: Job, ends: tuple[LooseEnd, ...]) -> str:
    if job.stage == "released" or not ends:
        return ""
    return f"Release is held by {len(ends)} loose end{'s' if len(ends) != 1 else ''}"
