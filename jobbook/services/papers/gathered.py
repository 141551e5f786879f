"""Everything about a job that a paper may speak of, gathered in one reading."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property

from jobbook.core import written
from jobbook.core.desk.retorque import VisitThen
from jobbook.core.jobs import FaultCode, Job, Permission, Reminder, Test
from jobbook.core.measured.diagnosis import Finding
from jobbook.core.measured.stands import Stand
from jobbook.core.people import Shop
from jobbook.core.record.files import KeptFile
from jobbook.core.record.journal import Entry
from jobbook.core.tools import Tool
from jobbook.core.vehicle.odometers import Distance, kilometres
from jobbook.core.vehicle.ownership import Modification
from jobbook.core.vehicle.parts import Piece
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.vehicle.vehicles import Customer, Odometer, Unread, Vehicle
from jobbook.core.work.rules import apply
from jobbook.core.work.state import START, State
from jobbook.core.written import thousands
from jobbook.db.store import Book
from jobbook.services.agreed.finding_acts import FINDING
from jobbook.services.agreed.permission_records import NOTHING_AGREED, Agreed, agreed
from jobbook.services.job.moving import Moved, moved_of
from jobbook.services.job.replay import Kept, kept_acts, work_entries
from jobbook.services.measured.findings import UNDONE, findings_among
from jobbook.services.measured.readings import odometers_of, read_when
from jobbook.services.measured.stand_records import stands_of
from jobbook.services.office.visits_then import visits_of_job
from jobbook.services.vehicle.odometers import true_at_each, true_words
from jobbook.services.work.figures import specifications_of, variant_for


@dataclass(frozen=True)
class Moment:
    """An act that counts, with the state that it was done in."""

    kept: Kept
    before: State


@dataclass(frozen=True)
class JobFacts:
    """One job as papers see it."""

    shop: Shop
    job: Job
    vehicle: Vehicle
    customer: Customer | None
    kept: tuple[Kept, ...]
    pieces: tuple[Piece, ...]
    odometers: tuple[Odometer, ...]  # of this job, the newest first
    permissions: tuple[Permission, ...]
    tests: tuple[Test, ...]
    codes: tuple[FaultCode, ...]
    specifications: tuple[Specification, ...]
    tools: Mapping[str, Tool]
    names: Mapping[str, str]
    reminders: tuple[Reminder, ...]
    release: Entry | None
    corrections: tuple[tuple[Entry, Entry], ...]
    stands: tuple[Stand, ...] = ()
    moved: tuple[Moved, ...] = ()
    files: tuple[KeptFile, ...] = ()
    agreed: Agreed = NOTHING_AGREED
    unread: tuple[Unread, ...] = ()  # the times at which the odometer could not be read
    true: Mapping[int, Distance] = field(default_factory=dict)  # the true distance at each reading, by its entry
    findings: tuple[Finding, ...] = ()
    modifications: tuple[Modification, ...] = ()  # by others, that were on the vehicle
    visits: tuple[VisitThen, ...] = ()  # after the release, to tighten wheel joints once more

    @cached_property
    def moments(self) -> tuple[Moment, ...]:
        state, moments = START, []
        for kept in self.kept:
            moments.append(Moment(kept, state))
            state = apply(state, kept.act)
        return tuple(moments)

    @cached_property
    def state(self) -> State:
        last = self.moments[-1] if self.moments else None
        return apply(last.before, last.kept.act) if last else START

    def name(self, person: str) -> str:
        return self.names.get(person, person)


def gather(reading: Book, number: int) -> JobFacts:
    """Gather what the book knows of a job. Raises NotFound."""
    job = reading.jobs.get(number)
    entries = work_entries(reading, number)
    releases = reading.journal.entries(job=number, kind="released/1")
    return JobFacts(
        reading.shop(),
        job,
        _as_it_was(reading, job),
        reading.customers.get(job.customer_id) if job.customer_id else None,
        kept_acts(entries),
        tuple(reading.pieces.of_job(number)),
        odometers_of(reading, job),
        tuple(reading.permissions(number)),
        tuple(reading.tests(number)),
        tuple(reading.fault_codes(number)),
        specifications_of(reading, number),
        {tool.number: tool for tool in reading.tools.all()},
        {person.id: person.name for person in reading.people.all()},
        tuple(reading.reminders.of_job(number)),
        releases[-1] if releases and job.stage == "released" else None,
        _corrections(entries),
        stands_of(reading, number),
        moved_of(reading, number),
        tuple(reading.files.of_job(number)),
        agreed(reading, number),
        tuple(one for one in reading.vehicles.unread(job.vehicle_id) if one.job == number),
        true_at_each(reading.vehicles.odometers(job.vehicle_id)),
        tuple(findings_among([entry for entry in entries if entry.kind in (FINDING, UNDONE)])),
        _changed_by_then(reading, job),
        visits_of_job(reading, number),
    )


def _changed_by_then(reading: Book, job: Job) -> tuple[Modification, ...]:
    """What others had changed on the vehicle and was on it while the job lasted."""
    ended = job.released_at[:10] or "9999-12-31"
    found = reading.vehicles.modifications(job.vehicle_id)
    return tuple(m for m in found if m.found_on <= ended and (not m.gone_on or m.gone_on > job.opened_at[:10]))


def _as_it_was(reading: Book, job: Job) -> Vehicle:
    """The vehicle with the plate that it bore when the job ended: a later owner's plate is on no paper of this one; and
    as the variant that it was taken for then, which the figures are of."""
    there = replace(reading.vehicles.get(job.vehicle_id), variant=variant_for(reading, job)[0])
    ended = job.released_at[:10]
    then = next((one for one in reading.vehicles.plates(there.id) if one.since <= ended and one.until > ended), None)
    return there if then is None or job.stage != "released" else replace(there, plate=then.plate)


def _corrections(entries: list[Entry]) -> tuple[tuple[Entry, Entry], ...]:
    by_number = {entry.number: entry for entry in entries}
    return tuple((by_number[e.replaces], e) for e in entries if e.replaces in by_number)


def day(iso: str) -> str:
    """A day as papers write it: 25 Nov 2026; empty stays empty."""
    return written.day(datetime.fromisoformat(iso)) if iso else ""


def moment(iso: str) -> str:
    """A day with the hour: 25 Nov 2026 10:52."""
    return f"{day(iso)} {datetime.fromisoformat(iso):%H:%M}" if iso else ""


def promised(job: Job) -> str:
    """When the vehicle was promised, as papers write it; an older promise in words stays as it was written."""
    try:
        return moment(job.promised)
    except ValueError:
        return job.promised


def hour(iso: str) -> str:
    return f"{datetime.fromisoformat(iso):%H:%M}" if iso else ""


def odometer(facts: JobFacts, *whats: str) -> str:
    """The newest reading of the first of these kinds, with the true distance where the counter began anew once; or that
    it could not be read, and why."""
    found = read_when(facts.odometers, *whats)
    unread = next((one for what in whats for one in facts.unread if one.what == what), None)
    if found is None:
        return f"unknown: {unread.why}" if unread is not None else ""
    true = facts.true.get(found.entry)
    if true is None or (true.known == "exact" and true.km == kilometres(found.value, found.unit)):
        return distance(found)
    return f"{distance(found)}; true distance {true_words(true, found.unit)}"


def distance(reading: Odometer | None) -> str:
    """An odometer reading with its day: 128 410 km, 25 Nov 2026 09:12."""
    if reading is None:
        return ""
    return f"{thousands(reading.value)} {reading.unit}, {moment(reading.at)}"
