"""Wheel geometry on the Final checks tab: found and set, against limits from a document, at the heights it was taken
at; or why it was not set here."""

from dataclasses import replace
from pathlib import Path

from jobbook.core.drawing import Drawing, geometry_drawing, mark_of_answer
from jobbook.core.jobs import Job
from jobbook.services import files, work
from jobbook.services.measured.alignment import FOUND, GeometryReading, before_and_after, excuse_geometry, keep_geometry
from jobbook.services.measured.alignment_answers import typed_answer
from jobbook.services.measured.alignment_asks import EXPLAIN, PLACE, geometry_asks
from jobbook.services.measured.alignment_words import angles_words, following_words, judged_angles, rows, verdict_of
from jobbook.services.measured.geometry_of_job import GeometryOfJob, geometry_of_job
from jobbook.services.measured.height_words import instrument_words
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.asks import EXCUSE
from jobbook.services.sheet.sheets import Ask
from jobbook.ui.jobs.tabs.codes import file_line
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing

KEY = "geometry"
TITLE = "Wheel geometry"
NOTHING = "No geometry yet. Read the heights first: camber and toe change with them. Set it after they are calibrated."
REASON = Ask("reason", "Why it is corrected")
SHEET = "alignment sheet"
ATTACH = Deed(KEY, "Attach the sheet…", (Ask("path", "The sheet as the aligner saved it", "file"),), "sheet")
WIDTH, COLUMNS = 464.0, 2  # in points, as wide as a tab of the smallest window


def block(book: OpenBook, job: Job) -> Block:
    there = geometry_of_job(book, job)
    lines = tuple(_line(there, one) for one in reversed(there.readings))
    answers = tuple(
        Line(
            f"{one.act.answer}: {one.act.reason or one.act.text}",
            there.name(one.act.by),
            mark_of_answer(one.act.answer),
            one.act.at,
        )
        for one in there.answers
    )
    sheets = tuple(file_line("Sheet", file) for file in there.sheets if file.what == SHEET or file.to == PLACE)
    deeds = (*(() if job.released_at else _deeds(there)), ATTACH)
    return Block(TITLE, (*lines, *answers, *sheets), nothing=NOTHING, deeds=deeds, drawing=_drawing(there))


def _drawing(there: GeometryOfJob) -> Drawing | None:
    found, left = before_and_after(there.readings)
    drawn = rows(found, left, there.specifications)
    return geometry_drawing(drawn, WIDTH, COLUMNS) if drawn else None


def _deeds(there: GeometryOfJob) -> tuple[Deed, ...]:
    asks = geometry_asks(there.tools, there.sheets)
    found = any(one.phase == FOUND for one in there.readings)
    return (
        Deed(KEY, "Measure again…" if found else "As found…", asks, "measure", "Keep the reading", EXPLAIN),
        Deed(KEY, "As set…", asks, "set", "Keep the geometry", EXPLAIN),
        Deed(KEY, "Not set here…", EXCUSE, "excuse", "Keep"),
    )


def _line(there: GeometryOfJob, one: GeometryReading) -> Line:
    """A reading in words; its figures stand in the drawing, unless a later reading took their place there."""
    newest, drawn = one is there.readings[-1], one in before_and_after(there.readings)
    beside = (*one.cries, judged_angles(one, whole=False), following_words(one) if newest else "", _how(there, one))
    loud = newest and (verdict_of(one) == "not conform" or bool(one.cries))
    words = one.phase.capitalize() if drawn else f"{one.phase.capitalize()}: {angles_words(one)}"
    return Line(words, "\n".join(filter(None, beside)), "disc", one.act.at, loud=loud, deeds=(_correction(there, one),))


def _how(there: GeometryOfJob, one: GeometryReading) -> str:
    parts = [f"{label} {said}" for label, said in one.conditions]
    parts += [f"with {instrument_words(one.act)}", f"by {there.name(one.act.by)}"]
    parts += [there.heights_words(one)] if one.heights else []
    return " · ".join(filter(None, (*parts, there.sheet_words(one), one.act.text)))


def _correction(there: GeometryOfJob, one: GeometryReading) -> Deed:
    """The questions again, with what was answered."""
    asked = geometry_asks(there.tools, there.sheets)
    asks = tuple(replace(ask, value=typed_answer(one.act, ask.name), folded=False) for ask in asked)
    return Deed(KEY, "Correct…", (*asks, REASON), str(one.entry), explain=EXPLAIN)


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if deed.of == "sheet":
        added = files.add_files(book, by.who, job, [Path(given["path"]).expanduser()], SHEET, "geometry")
        return files.said_of(added)
    if deed.of == "excuse":
        return excuse_geometry(book, by.who, job, given).words
    if deed.of in ("measure", "set"):
        return keep_geometry(book, by.who, job, deed.of, given).words
    answers = {name: text for name, text in given.items() if name != "reason"}
    return work.correct(book, by.who, int(deed.of), answers, given["reason"]).words
