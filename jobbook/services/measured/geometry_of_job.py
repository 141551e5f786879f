"""The wheel geometry of a job as its block shows it, in one reading."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from jobbook.core.jobs import Job
from jobbook.core.measured.heights import shown
from jobbook.core.people import Shop
from jobbook.core.record.files import KeptFile
from jobbook.core.tools import Tool
from jobbook.core.vehicle.specifications import Specification
from jobbook.services.job.replay import kept_acts, work_entries
from jobbook.services.measured.alignment import Answered, GeometryReading, geometry_answers, geometry_readings
from jobbook.services.measured.alignment_answers import SHEET
from jobbook.services.measured.alignment_asks import PLACE
from jobbook.services.measured.heights import Surroundings
from jobbook.services.opened import OpenBook
from jobbook.services.work.figures import figures_for

SHEETS = ("alignment sheet", "document")


@dataclass(frozen=True)
class GeometryOfJob:
    """Readings and answers in order, with what they are judged by and shown with."""

    readings: tuple[GeometryReading, ...]
    answers: tuple[Answered, ...]
    specifications: tuple[Specification, ...]
    tools: tuple[Tool, ...]
    shop: Shop
    names: Mapping[str, str]
    sheets: tuple[KeptFile, ...] = ()

    def sheet_words(self, one: GeometryReading) -> str:
        return sheet_words(one, self.sheets)

    def name(self, person: str) -> str:
        return self.names.get(person, person)

    def heights_words(self, one: GeometryReading) -> str:
        return heights_words(one, self.shop.height_unit)


def heights_words(one: GeometryReading, unit: str) -> str:
    """The ride heights that the geometry was taken at: “at FL 401 · FR 402 mm (read after calibration)”."""
    if one.heights is None:
        return ""
    read = " · ".join(f"{corner} {shown(mean, unit)}" for corner, mean in one.heights.means.items())
    return f"at {read} {unit} (read {one.heights.phase})"


def sheet_words(one: GeometryReading, files: Sequence[KeptFile]) -> str:
    """The sheet among the job's files, by the name that it has there: the one that was chosen with the reading, or
    else whatever was said of a file to belong to the geometry."""
    number = dict(one.act.readings).get(SHEET, "")
    chosen = [file for file in files if str(file.entry) == number] or belonging(files)
    return ", ".join(f"sheet {file.called}" for file in chosen)


def belonging(files: Sequence[KeptFile]) -> list[KeptFile]:
    """The files that were said to belong to the geometry where they arrived, among the pictures and files."""
    return [file for file in files if file.to == PLACE]


def geometry_of_job(book: OpenBook, job: Job) -> GeometryOfJob:
    """Read it."""
    with book.store.read() as reading:
        shop, tools = reading.shop(), tuple(reading.tools.all())
        known = figures_for(reading, job)
        kept = kept_acts(work_entries(reading, job.number))
        names = {person.id: person.name for person in reading.people.all()}
        sheets = tuple(file for file in reading.files.of_job(job.number) if file.what in SHEETS or file.to == PLACE)
    around = Surroundings(known, tools, shop)
    read, said = geometry_readings(kept, around), geometry_answers(kept)
    return GeometryOfJob(read, said, known, tools, shop, names, sheets)
