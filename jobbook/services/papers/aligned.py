"""Wheel geometry as papers say it: as found and as set, each figure with its limit and where that stands."""

from jobbook.core.measured.alignment import ACROSS, angle_text, in_minutes
from jobbook.paperwork.geometry import Geometry
from jobbook.services.measured.alignment import GeometryReading, before_and_after, geometry_readings
from jobbook.services.measured.alignment_words import following_words, judged_angles, rows
from jobbook.services.measured.geometry_of_job import heights_words, sheet_words
from jobbook.services.measured.height_words import instrument_words
from jobbook.services.measured.heights import Surroundings
from jobbook.services.papers.gathered import JobFacts, moment
from jobbook.services.papers.joint_stories import Sources


def geometry(facts: JobFacts, sources: Sources) -> Geometry | None:
    """The geometry of a job; None where none was read. The figures stand in its rows."""
    around = Surroundings(facts.specifications, tuple(facts.tools.values()), facts.shop)
    found, left = before_and_after(geometry_readings(facts.kept, around))
    newest = left or found
    if newest is None:
        return None
    said = (
        ("As found", _read_words(facts, found) or "not measured"),
        ("As set", _read_words(facts, left) or "not on record"),
        ("Judged", f"{judged_angles(newest, whole=False)}{_guard_words(newest)}"),
        ("Limits", _limits_words(newest, sources)),
        ("Follows", following_words(newest)),
        ("Look at", " ".join(newest.cries)),
    )
    drawn = rows(found, left, facts.specifications)
    return Geometry(drawn, tuple((label, text) for label, text in said if text))


def _read_words(facts: JobFacts, read: GeometryReading | None) -> str:
    """When it was read, by whom, with what, at which ride heights, and under which conditions."""
    if read is None:
        return ""
    across = dict(read.act.readings).get(ACROSS, "")
    conditions = [f"{label} {said}" for label, said in read.conditions]
    how = f"by {facts.name(read.act.by)} with {instrument_words(read.act)}"
    at = heights_words(read, facts.shop.height_unit) or "heights not read before it"
    parts = (
        moment(read.act.at),
        read.phase,
        how,
        at,
        f"toe at {across}" if across else "",
        *conditions,
        sheet_words(read, facts.files),
        read.act.text,
    )
    return ", ".join(filter(None, parts))


def _guard_words(read: GeometryReading) -> str:
    """With which guard band each reading was judged, where the instrument gives one."""
    alone = (one for one in read.judged.values() if one.expanded is not None and one.measured.readings == 1)
    first = next(alone, None)
    if first is None or first.expanded is None:
        return ""
    sure = angle_text(first.expanded, in_minutes(read.measured)).lstrip("+")
    return f"; guard band ± {sure} a reading (k = 2, certificate of the instrument)"


def _limits_words(read: GeometryReading, sources: Sources) -> str:
    """Where the limits stand that are drawn, by source."""
    by_mark: dict[str, list[str]] = {}
    for spec in {spec.key: spec for spec in read.sources.values()}.values():
        by_mark.setdefault(sources.mark(spec.document, spec.edition, spec.read_by), []).append(spec.title)
    if not by_mark:
        return "none from a document are known for this variant"
    if len(by_mark) == 1:
        return f"all that are drawn{next(iter(by_mark))}"
    return "; ".join(f"{', '.join(titles)}{mark}" for mark, titles in by_mark.items())
