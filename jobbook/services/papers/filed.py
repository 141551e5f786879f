"""Fault codes before and after, and the files of a job with its chosen pictures, as the evidence shows them."""

from collections.abc import Mapping

from jobbook.core.errors import BookError
from jobbook.core.jobs import FaultCode
from jobbook.core.measured.codes import GONE, READ, Compared, both_forms, compare
from jobbook.core.record.files import KeptFile, camera_words
from jobbook.db.store import Book
from jobbook.paperwork.codes import CodeRow
from jobbook.paperwork.files import FileRow, Picture
from jobbook.services.files.erasing import erased_words
from jobbook.services.files.telling import place_words
from jobbook.services.papers.gathered import JobFacts, moment
from jobbook.services.pictures import PRINTED, copy_to_leave

NOWHERE = "the job"


def code_rows(facts: JobFacts) -> tuple[CodeRow, ...]:
    """One row for each code of each module: what was there before the work, and what became of it."""
    return tuple(_code(one) for one in compare(facts.codes))


def _code(one: Compared) -> CodeRow:
    text = next((reading.text for reading in (one.after, one.before) if reading and reading.text), "")
    cleared = {"no": "not cleared", "yes": "cleared"}
    said = next((reading.cleared for reading in (one.before, one.after) if reading and reading.cleared), "")
    return CodeRow(
        one.module,
        both_forms(one.code) or "none stored",
        text,
        _read(one.before, "") if one.before or one.found == READ else "not there",
        _read(one.after, "" if one.found == READ else one.found),
        cleared.get(said, said),
    )


def _read(code: FaultCode | None, found: str) -> str:
    if code is None:
        return found or "not read"
    said = found if found == GONE else ", ".join(filter(None, (found, code.status))) or "none stored"
    return "\n".join(filter(None, (said, moment(code.at), code.odometer)))


def file_rows(reading: Book, facts: JobFacts) -> tuple[FileRow, ...]:
    """Every file of the job with the digest by which it can be told."""
    words = place_words(reading, facts.job.number, facts.files)
    return tuple(
        FileRow(_called(facts, one), one.what, words.get(one.to, NOWHERE), _taken(facts, one), one.digest)
        for one in facts.files
    )


def _called(facts: JobFacts, file: KeptFile) -> str:
    gone = erased_words(file.erased_at, file.erased_by, facts.names) if file.is_erased else ""
    return "\n".join(filter(None, (file.called, gone)))


def _taken(facts: JobFacts, file: KeptFile) -> str:
    if not file.is_picture:
        return f"kept {moment(file.at)}"
    odd = camera_words(file.taken_at, facts.job.opened_at, file.at)
    return "\n".join(filter(None, (moment(file.taken_at), odd, f"kept {moment(file.at)}")))


def printed_pictures(reading: Book, facts: JobFacts) -> tuple[Picture, ...]:
    """The pictures that were chosen, small, with their marks, covered where something was to be covered."""
    words: Mapping[str, str] = place_words(reading, facts.job.number, facts.files)
    return tuple(_picture(reading, one, words.get(one.to, "")) for one in facts.files if one.chosen and one.is_picture)


def _picture(reading: Book, file: KeptFile, belongs: str) -> Picture:
    caption = "\n".join(filter(None, (belongs or file.called, f"SHA-256 {file.digest[:16]}")))
    try:
        return Picture(caption, copy_to_leave(reading.files.bytes(file.digest), file.called, file.marks, PRINTED))
    except BookError as error:
        return Picture(f"{caption}\n{error}")
