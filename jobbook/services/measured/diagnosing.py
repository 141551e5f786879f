"""What the diagnosis of a job shows, in one reading; and heights measured beside a method."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from jobbook.core.desk.phrases import Phrase
from jobbook.core.jobs import FaultCode, Job, Test
from jobbook.core.measured.diagnosis import Finding
from jobbook.core.measured.stand_judging import Judged
from jobbook.core.measured.stands import Stand
from jobbook.core.people import Person, Shop
from jobbook.core.record.journal import Entry, as_it_stands
from jobbook.core.tools import Tool
from jobbook.core.work.model import Act
from jobbook.services import work
from jobbook.services.agreed.finding_acts import FINDING
from jobbook.services.job.replay import kept_acts, work_entries
from jobbook.services.measured.findings import UNDONE, findings_among
from jobbook.services.measured.guided import TEST
from jobbook.services.measured.heights import AS_IT_STOOD, LEVELLED, HeightReading, Surroundings, height_readings
from jobbook.services.measured.stand_records import judged_stands, stands_of
from jobbook.services.office.phrases import all_of
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.asks import height_asks
from jobbook.services.sheet.sheets import Ask, Choice, options_of
from jobbook.services.work.figures import figures_for

STOOD = Ask("stood", "Read", "choice", options_of((AS_IT_STOOD, LEVELLED)), required=False)
HEIGHTS = Act("measure", what="heights")
TOLD = (TEST, FINDING, UNDONE)


@dataclass(frozen=True)
class Diagnosis:
    """Heights, stands, tests, codes and findings of a job.

    `judged` are the stands with a last reading, by their number; `told` what was typed for a test, `entered` who wrote
    it down and when, both by the test's entry."""

    job: Job
    tests: tuple[Test, ...]
    codes: tuple[FaultCode, ...]
    readings: tuple[HeightReading, ...]
    stands: tuple[Stand, ...]
    judged: Mapping[int, Judged]
    shop: Shop
    tools: tuple[Tool, ...]
    people: tuple[Person, ...]
    told: Mapping[int, Mapping[str, Any]]
    entered: Mapping[int, tuple[str, str]]
    findings: tuple[Finding, ...]
    phrases: tuple[Phrase, ...]

    @cached_property
    def names(self) -> Mapping[str, str]:
        return {person.id: person.name for person in self.people}

    @property
    def unit(self) -> str:
        return self.shop.height_unit

    @property
    def height_asks(self) -> tuple[Ask, ...]:
        """What is asked with heights, and first whether the vehicle had levelled itself."""
        stood = "" if self.readings else AS_IT_STOOD
        return (replace(STOOD, value=stood), *height_asks(self.tools, self.unit))


def diagnosis(book: OpenBook, number: int) -> Diagnosis:
    """Read it. Raises NotFound."""
    with book.store.read() as reading:
        job, shop, tools = reading.jobs.get(number), reading.shop(), tuple(reading.tools.all())
        around = Surroundings(figures_for(reading, job), tools, shop)
        entries = reading.journal.entries(job=number, kind=TOLD)
        stands, codes = stands_of(reading, number), tuple(reading.fault_codes(number))
        return Diagnosis(
            job,
            tuple(_test(entry) for entry in as_it_stands(entries) if entry.kind == TEST),
            codes,
            height_readings(kept_acts(work_entries(reading, number)), around),
            stands,
            {one.stand.number: one for one in judged_stands(stands, codes, shop)},
            shop,
            tools,
            tuple(reading.people.all()),
            {entry.number: entry.payload for entry in entries},
            {entry.number: (entry.entered_by, entry.entered_at) for entry in entries},
            tuple(findings_among(entries)),
            all_of(reading),
        )


def _test(entry: Entry) -> Test:
    said = {name: entry.payload[name] for name in ("name", "answer", "result", "reason")}
    return Test(**said, by=entry.done_by, at=entry.done_at, entry=entry.number)


def measure_heights(book: OpenBook, who: Person, job: int, answers: Mapping[str, str]) -> work.Written:
    """Keep a reading of the heights that no step of a method asked for. The rules of the work judge it like any act."""
    choice = Choice("main", "Heights", "", HEIGHTS, main=True)
    return work.keep(book, who, job, choice, answers, signer=who)
