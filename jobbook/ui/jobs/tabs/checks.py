"""Final checks: everything that is still loose or to do, letting go with a reason, and the release."""

from collections.abc import Mapping

from jobbook.core.work.model import CORNERS, LooseEnd
from jobbook.services import work
from jobbook.services.agreed.finding_acts import finding_of
from jobbook.services.agreed.permission_page import permission_page
from jobbook.services.job import release
from jobbook.services.office import desk
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, JobSheet, Option
from jobbook.services.vehicle.vehicles import vehicle
from jobbook.ui.jobs.left_fit import loudest_first
from jobbook.ui.jobs.signing import name_of
from jobbook.ui.jobs.tabs import after, geometry, permission, permission_found
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet
from jobbook.ui.moments import day_and_hour

Asked = Mapping[int, tuple[Deed, ...]]
UNITS = (Option("km", "km"), Option("mi", "mi"))
FINDING, NOT_SIGNED, NOT_COUNTERSIGNED = "finding-open", "not-signed", "not-countersigned"
STOOD_EMPTY = "weight-on-empty-spring"
CLEARED = (Ask("reason", "How it was looked at under pressure, and why it may stay", "long text"),)
ENDED = (
    Ask(
        "how",
        "How did it end?",
        "choice",
        (Option("repaired", "repaired"), Option("declined", "declined"), Option("referred", "referred")),
    ),
    Ask("reason", "What was done, or who declined or was told", "long text"),
)
LET_GO = (Ask("reason", "Why is it let go? The papers print it", "long text"),)


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    job = desk.get_job(book, sheet.number)
    asked = _to_be_asked(book, sheet)
    blocks = (
        _ends("Loose now", sheet.loose_now, "Nothing is loose.", asked),
        _ends("Still to do", sheet.still_to_do, "Nothing is left to do.", asked),
        geometry.block(book, job),
    )
    if job.released_at:
        said = f"Released {day_and_hour(job.released_at)} by {name_of(book, job.released_by)}"
        restriction = f"Restriction: {job.restriction}" if job.restriction else ""
        release_block = Block("Release", (Line(said, restriction, "disc"),))
        return TabSheet((*blocks, release_block, *after.blocks(book, sheet.number)))
    unit = vehicle(book, job.vehicle_id).vehicle.distance_unit
    return TabSheet((*blocks, _release(sheet, unit)), sheet.held)


def _to_be_asked(book: OpenBook, sheet: JobSheet) -> Asked:
    """What can be answered to each finding of the desk that holds the release, as on the Permission tab."""
    held = {finding_of(end.on) for end in sheet.still_to_do} - {0}
    if not held:
        return {}
    page, now = permission_page(book, sheet.number), book.clock()
    return {one.entry: permission_found.answers_left(page, one, now) for one in page.findings if one.entry in held}


def _ends(title: str, ends: tuple[LooseEnd, ...], nothing: str, asked: Asked) -> Block:
    lines = tuple(
        Line(
            end.sentence,
            "",
            end.mark,
            end.since,
            loud=end.loud,
            deeds=(*asked.get(finding_of(end.on), ()), *_deeds(end)),
        )
        for end in loudest_first(ends)
    )
    return Block(f"{title}, {len(ends)}" if ends else title, lines, nothing=nothing)


def _deeds(end: LooseEnd) -> tuple[Deed, ...]:
    """A loose end can be let go; one that is an act to sign only be signed; a finding also be ended."""
    if end.rule == NOT_SIGNED:
        return ()
    if end.rule == NOT_COUNTERSIGNED:
        return (Deed("countersign", "Countersign…", signs=True, keep="Countersign", end=end),)
    let_go = Deed("let-go", "Let go…", LET_GO, signs=True, keep="Let go", end=end)
    if end.rule == STOOD_EMPTY and end.on in CORNERS:
        return (Deed("cleared", "Cleared…", CLEARED, signs=True, keep="Cleared", end=end), let_go)
    if end.rule != FINDING or finding_of(end.on):
        return (let_go,)
    ended = Deed("ended", "How it ended…", ENDED, signs=True, keep="Keep", end=end)
    return (ended, let_go)


def _release(sheet: JobSheet, unit: str) -> Block:
    loose = bool(sheet.loose_now or sheet.still_to_do)
    reason = Ask("reason", "It leaves with loose ends: why? The papers print it", "long text")
    asks = (
        Ask("odometer", "Odometer out, as read now", "number"),
        Ask("unit", "Unit", "choice", UNITS, value=unit),
        Ask("note", "Note on the odometer, where its reading is doubtful", required=False),
        Ask("restriction", "Restriction: what it may not do until something is put right", required=False),
        *((reason,) if loose else ()),
    )
    words = "Release with loose ends…" if loose else "Release…"
    deed = Deed("release", words, asks, signs=True, keep="Release", main=not loose)
    said = "The vehicle goes back to its customer; the entry names who released it."
    return Block("Release", (Line(said),), deeds=(deed,))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    signer = by.signer or by.who
    if deed.key == geometry.KEY:
        return geometry.keep(book, by, job, deed, given)
    if deed.key in permission_found.KEYS:
        return permission.keep(book, by, job, deed, given)
    if deed.end is not None:
        if deed.key == "countersign":
            return work.countersign(book, signer, job, deed.end.on).words
        if deed.key == "cleared":
            return work.end_finding(book, signer, job, deed.end.on, "cleared", given["reason"]).words
        if deed.key == "ended":
            return work.end_finding(book, signer, job, deed.end.on, given["how"], given["reason"]).words
        return work.let_go(book, signer, job, deed.end, given["reason"]).words
    release.release(
        book,
        signer,
        job,
        given["odometer"],
        given["unit"],
        given["restriction"].strip(),
        given.get("reason", ""),
        given.get("note", ""),
    )
    return f"Job {job} is released"
