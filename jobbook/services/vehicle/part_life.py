"""Looking back on parts: how long those live that this shop fitted, kind by kind, and whether two kinds differ."""

from collections.abc import Sequence
from csv import writer
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from jobbook.core.days import in_time
from jobbook.core.drawing import Drawing
from jobbook.core.drawing.survival import LifeCurve, Step, survival_plot
from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.life_curves import life_curve, sample
from jobbook.core.vehicle.part_life_words import alike, life_words
from jobbook.core.vehicle.part_lives import (
    DAYS_IN_A_YEAR,
    REASONS,
    STILL_ON,
    Counted,
    FittedPart,
    Kind,
    Watched,
    kind_title,
    watched,
)
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

YEARS_FROM = 3 * 365  # days: what was watched for longer is drawn in years
THOUSAND_KM = 1000
NO_SUPPLIER, NO_NUMBER = "supplier not recorded", "number not recorded"
COLUMNS = (
    "part", "corner", "number", "supplier", "serial", "batch", "condition", "fitted on", "job", "came off on",
    "in job", "why", "days watched", "km watched",
)  # fmt: skip
FORMULA = "=+-@\t\r"


@dataclass(frozen=True)
class Life:
    """What is shown of one or two kinds: the plot, what follows in words, and the parts behind it."""

    plot: Drawing | None
    words: tuple[str, ...]
    parts: tuple[Watched, ...]


def kinds(book: OpenBook, by: str) -> tuple[Counted, ...]:
    """The kinds of parts that were ever fitted, the most frequent first; `by` is kind, supplier or number."""
    with book.store.read() as reading:
        return tuple(reading.part_lives.counted(by))


def name_of(counted: Counted) -> str:
    """“Air strut, front · AS-4471-L · Quillhaven Spring Supply”."""
    return " · ".join(filter(None, (kind_title(counted.title, counted.kind.axle), short_name(counted.kind))))


def short_name(kind: Kind) -> str:
    """What tells a kind from others of the same function."""
    number = None if kind.number is None else kind.number or NO_NUMBER
    supplier = None if kind.supplier is None else kind.supplier or NO_SUPPLIER
    return " · ".join(filter(None, (number, supplier)))


def life(book: OpenBook, first: Counted, second: Counted | None, measure: str) -> Life:
    """How long the parts of one kind live, or of two beside each other; `measure` is days or km."""
    with book.store.read() as reading:
        seen = [_watched(reading, one.kind) for one in (first, second) if one is not None]
    names = [short_name(one.kind) or kind_title(one.title, one.kind.axle) for one in (first, second) if one is not None]
    samples = [sample(parts, measure) for parts in seen]
    words: list[str] = []
    for name, parts in zip(names, seen, strict=True):
        words += life_words(name if second is not None else "", parts, measure)
    if second is not None and all(one.durations for one in samples):
        words = [*alike(samples[0], samples[1], (names[0], names[1]), measure), *words]
    curves = [life_curve(name, one) for name, one in zip(names, samples, strict=True)]
    drawn = [curve for curve in curves if curve is not None]
    plot = survival_plot(*_scaled(drawn, measure)) if drawn else None
    return Life(plot, tuple(words), tuple(part for parts in seen for part in parts))


def _watched(reading: Book, kind: Kind) -> tuple[Watched, ...]:
    readings, seen = reading.part_lives.readings(kind), reading.part_lives.last_seen(kind)
    found = []
    for part in reading.part_lives.of_kind(kind):
        of_vehicle = readings.get(part.vehicle, [])
        jobs = {one.entry: job for job, one in of_vehicle}
        last = max([seen.get(part.vehicle, ""), *(one.at for _, one in of_vehicle[:1])], key=in_time)
        found.append(watched(part, last, [one for _, one in of_vehicle], jobs))
    return tuple(found)


def _scaled(curves: Sequence[LifeCurve], measure: str) -> tuple[list[LifeCurve], str]:
    """The curves in the unit that is easiest to read, and the name of the axis."""
    longest = max(curve.until for curve in curves)
    if measure == "km":
        return [_by(curve, 1 / THOUSAND_KM) for curve in curves], "thousand km since fitting"
    if longest >= YEARS_FROM:
        return [_by(curve, 1 / float(DAYS_IN_A_YEAR)) for curve in curves], "years since fitting"
    return list(curves), "days since fitting"


def _by(curve: LifeCurve, factor: float) -> LifeCurve:
    steps = tuple(Step(step.at * factor, step.share, step.low, step.high) for step in curve.steps)
    alive, lengths = (tuple(one * factor for one in many) for many in (curve.alive, curve.watched))
    return LifeCurve(curve.label, steps, curve.until * factor, alive, lengths)


def as_csv(parts: Sequence[Watched]) -> str:
    """The parts behind a plot as CSV, a row for each, without anything about customers or vehicles."""
    text = StringIO()
    table = writer(text)
    table.writerow(COLUMNS)
    for one in parts:
        part = one.part
        km = "" if one.km is None else str(round(one.km))
        why = REASONS.get(part.reason, "nobody said") if part.off_at else "still on"
        table.writerow(
            [
                *map(_plain, (part.title, part.place, part.number, part.supplier, part.serial, part.batch)),
                part.condition, part.fitted_at[:10], part.job, part.off_at[:10], part.off_job or "", why, one.days, km,
            ]
        )  # fmt: skip
    return text.getvalue()


def write_csv(file: Path, parts: Sequence[Watched]) -> int:
    """Write the parts as a file that spreadsheets read; returns how many. Raises StoreUnavailable."""
    try:
        file.write_text(as_csv(parts), encoding="utf-8-sig", newline="")
    except OSError as error:
        why = error.strerror or "the disk reports a fault"
        raise StoreUnavailable(f"The list was not saved as {file} ({why}). Choose another folder.") from error
    return len(parts)


def _plain(text: str) -> str:
    """A text that no spreadsheet takes for a formula."""
    return f"'{text}" if text[:1] in FORMULA and text else text


def parts_before(book: OpenBook, job: int) -> tuple[tuple[FittedPart, ...], tuple[FittedPart, ...]]:
    """The parts of this shop that came off the vehicle in a job, and those fitted earlier that are on it still."""
    with book.store.read() as reading:
        listed = reading.part_lives.of_the_vehicle(job)
    off = tuple(part for part in listed if part.off_at and part.off_job == job)
    return off, tuple(part for part in listed if not part.off_at and part.job != job)


def part_came_off(book: OpenBook, who: Person, job: int, piece: str, reason: str, note: str = "") -> None:
    """Keep why a part of this shop came off in a job, or, as “still on”, that it did not come off after all.

    Part life counts only what failed, so that what came off in good order never looks like a failure."""
    if reason not in (*REASONS, STILL_ON):
        raise Refused(f"Nothing was kept: say why it came off, {', '.join(REASONS)}.")
    with writing(book, who, "work", "desk") as tx:
        part = next((one for one in tx.part_lives.of_the_vehicle(job) if one.piece == piece), None)
        if part is None:
            raise Refused("Nothing was kept: this part was not fitted to this vehicle by this shop.")
        if part.off_at and part.off_job != job:
            raise Refused(f"Nothing was kept: this part came off in job {part.off_job}; say there why.")
        facts = {"job": job, "part": piece, "reason": reason, "note": note.strip()}
        tx.keep(Draft("part-off/1", f"job/{job}", facts, job=job))
