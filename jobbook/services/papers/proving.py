"""The evidence for the warranty desk: the part as it was fitted and as it failed, and everything that shows it."""

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from jobbook.core.days import day_of, in_time
from jobbook.core.jobs import Test as Tested
from jobbook.core.vehicle.odometers import in_unit, kilometres
from jobbook.core.vehicle.parts import Piece
from jobbook.core.vehicle.vehicles import Odometer
from jobbook.core.vehicle.warranty import Term, running
from jobbook.core.written import thousands
from jobbook.db.store import Book
from jobbook.paperwork.codes import Test
from jobbook.paperwork.evidence import Deed, Evidence, Failure, Fitting
from jobbook.paperwork.parts import Piece as PieceRow
from jobbook.paperwork.parts import Tool
from jobbook.services.job.stores import needs_of
from jobbook.services.measured.readings import read_when
from jobbook.services.papers import asked
from jobbook.services.papers.aligned import geometry
from jobbook.services.papers.filed import code_rows
from jobbook.services.papers.gathered import JobFacts, day, gather, moment, odometer
from jobbook.services.papers.joint_stories import Sources, joint_stories, sheet_row
from jobbook.services.papers.measured import heights, stand_for_paper, stand_tests
from jobbook.services.papers.shared import (
    answers,
    cause_in_short,
    concerns,
    corner_of,
    corrections,
    fitted_parts,
    identity,
    issue_of,
    kit_words,
    release_of,
    subject_part,
    title,
    where_it_lies,
)
from jobbook.services.papers.visited import visit_deeds
from jobbook.services.sheet.jobsheet import UNSIGNED
from jobbook.services.sheet.step_words import step_words

ENTRIES = "entries.json: the entries of this job with their proofs and the signed head"


@dataclass(frozen=True)
class Earlier:
    """The job of this book that fitted the part which now came off, and the part."""

    facts: JobFacts
    piece: Piece


def earlier_fitting(reading: Book, facts: JobFacts) -> Earlier | None:
    """Where the part that came off was fitted by this shop; None where this book does not know."""
    part = subject_part(facts)
    if part is None:
        return None
    for row in reading.jobs.of_vehicle(facts.vehicle.id):
        if row.number == facts.job.number or in_time(row.opened_at) > in_time(facts.job.opened_at):
            continue
        fitted = [p for p in reading.pieces.of_job(row.number) if p.serves == part.name and p.state == "fitted"]
        if fitted:
            return Earlier(gather(reading, row.number), fitted[-1])
    return None


def evidence(facts: JobFacts, earlier: Earlier | None, now: datetime, by: str, version: int, replaces: str) -> Evidence:
    """Every word and figure of the evidence. Without an earlier fitting it shows the fitting of this job."""
    sources = Sources(facts.names)
    stories = joint_stories(facts)
    rows = tuple(sheet_row(facts, story, sources) for story in stories)
    measured, aligned = heights(facts, sources), geometry(facts, sources)
    return Evidence(
        issue=issue_of(facts, now, by, version, replaces),
        title=": ".join(filter(None, (title(facts), cause_in_short(facts)))),
        recipient="the supplier of the part removed" if earlier else "whom it may concern",
        identity=identity(facts),
        fitting=_fitting(earlier.facts, earlier.piece) if earlier else _fitting_here(facts),
        failure=_failure(facts, earlier) if earlier else None,
        concerns=concerns(facts),
        excluded=(*stand_tests(facts), *(_test(facts, one) for one in facts.tests)),
        heights=measured,
        leak_down=stand_for_paper(facts),
        geometry=aligned,
        parts=fitted_parts(facts),
        joints=rows,
        sources=sources.all(),
        pieces=_pieces(facts),
        tools=_tools(facts),
        codes=code_rows(facts),
        answers=answers(facts),
        corrections=corrections(facts),
        deeds=(*_deeds(facts), *(visit_deeds(earlier.facts) if earlier else ()), *visit_deeds(facts)),
        release=release_of(facts),
        attached=(ENTRIES,),
        found=asked.found(facts),
        price=asked.payers_price(facts),
    )


def _test(facts: JobFacts, one: Tested) -> Test:
    return Test(one.name, one.answer, one.result, one.reason, facts.name(one.by))


def _fitting(facts: JobFacts, piece: Piece) -> Fitting:
    put_on = next((k for k in facts.kept if k.act.do == "put_on" and k.act.on == piece.serves), None)
    at = put_on.act.at if put_on else piece.issued_at
    by = facts.name(put_on.act.by) if put_on else ""
    return Fitting(
        piece.title,
        piece.number,
        piece.serial or piece.batch,
        corner_of(piece),
        f"{day(at)}, by {by or 'not recorded'}, job {facts.job.number}",
        odometer(facts, "out", "in"),
        ", ".join(filter(None, (piece.supplier, piece.delivery_note and f"delivery note {piece.delivery_note}"))),
        piece.purchase_invoice,
        "",
        kit_words(facts),
    )


def _fitting_here(facts: JobFacts) -> Fitting:
    pieces = [piece for piece in facts.pieces if piece.kind == "part" and piece.state == "fitted"]
    return _fitting(facts, pieces[0]) if pieces else Fitting()


def _failure(facts: JobFacts, earlier: Earlier) -> Failure:
    came_off = next((k for k in facts.kept if k.act.do == "take_off" and k.act.on == earlier.piece.serves), None)
    new = [piece for piece in facts.pieces if piece.kind == "part" and piece.state == "fitted"]
    authority = next((p for p in facts.permissions if p.scope == "authority"), None)
    return Failure(
        noticed="",
        reported=day(facts.job.opened_at),
        removed=moment(came_off.act.at) if came_off else "",
        odometer=odometer(facts, "in"),
        in_service=_in_service(facts, earlier),
        term=_term(facts, earlier),
        where_it_is=where_it_lies(facts, earlier.piece.serves),
        replaced_by=f"{new[0].number}, serial {new[0].serial or 'not recorded'}" if new else "",
        authority=f"{authority.authority}, {day(authority.at)}" if authority else "not applicable",
    )


def _in_service(facts: JobFacts, earlier: Earlier) -> str:
    """How long and how far the part was in service: from the release of the job that fitted it to this arrival."""
    then = datetime.fromisoformat(earlier.facts.job.released_at or earlier.facts.job.opened_at)
    days = (datetime.fromisoformat(facts.job.opened_at) - then).days
    fitted, failed = read_when(earlier.facts.odometers, "out", "in"), read_when(facts.odometers, "in")
    if fitted is None or failed is None:
        return f"{days} days, distance not known"
    return f"{days} days, {_run(facts, fitted, failed)}"


def _term(facts: JobFacts, earlier: Earlier) -> str:
    """The supplier's term, and whether this arrival lies inside it; empty where nobody recorded one."""
    piece = earlier.piece
    term = Term(piece.warranty_months, piece.warranty_distance, piece.warranty_from)
    fitted = earlier.facts.job.released_at or earlier.facts.job.opened_at
    begins = day_of(term.starts or fitted)
    found = running(term, begins, day_of(facts.job.opened_at), _km(facts, earlier))
    if found is None:
        return ""
    told = " and ".join(filter(None, (term.months and f"{term.months} months", term.distance)))
    words = {True: "inside", False: "over", None: "it cannot be told, the distance is not known"}
    said = words[found.inside]
    return f"{told} from {day(begins.isoformat())}: {said}"


def _km(facts: JobFacts, earlier: Earlier) -> Fraction | None:
    """What the vehicle truly ran from the fitting to this arrival, where both ends are known."""
    fitted, failed = read_when(earlier.facts.odometers, "out", "in"), read_when(facts.odometers, "in")
    ends = [facts.true.get(one.entry) for one in (fitted, failed) if one is not None]
    known = [end.km for end in ends if end is not None and end.known == "exact"]
    return known[1] - known[0] if len(known) == 2 and known[1] >= known[0] else None


def _run(facts: JobFacts, fitted: Odometer, failed: Odometer) -> str:
    """The distance between two readings: as read, or reckoned where the counter began anew in between."""
    then, now = facts.true.get(fitted.entry), facts.true.get(failed.entry)
    read = kilometres(failed.value, failed.unit) - kilometres(fitted.value, fitted.unit)
    if then is not None and now is not None and now.km - then.km != read:
        if now.known == "unknown" != then.known:
            return "distance not known: the counter began anew in between"
        least = "at least " if now.known == "at least" else ""
        if now.km > then.km:
            return f"{least}{thousands(in_unit(now.km - then.km, failed.unit))} {failed.unit}"
    if read < 0:
        return "distance not known: the odometer reads less than before"
    if fitted.unit == failed.unit:
        return f"{thousands(failed.value - fitted.value)} {failed.unit}"
    return f"{thousands(round(read))} km"


def _pieces(facts: JobFacts) -> tuple[PieceRow, ...]:
    batches = {p.serves: p.batch or p.number for p in facts.pieces}
    return tuple(
        PieceRow(need.title, str(need.needed), str(need.issued), str(need.fitted), "", batches.get(need.serves, ""))
        for need in needs_of(facts.state, facts.pieces)
        if need.kind != "part"
    )


def _tools(facts: JobFacts) -> tuple[Tool, ...]:
    used = {k.act.tool.number: k.act.tool for k in facts.kept if k.act.tool}
    rows = []
    for number, use in sorted(used.items()):
        card = facts.tools.get(number)
        due = day(card.due_on) if card and card.due_on else ""
        rows.append(
            Tool(number, use.kind, use.range_text, day(use.calibrated_on), due, use.certificate, use.unfit or "fit")
        )
    return tuple(rows)


def _deeds(facts: JobFacts) -> tuple[Deed, ...]:
    return tuple(
        Deed(
            moment(k.act.at),
            facts.name(k.act.by),
            step_words(facts.state, k.act) + (" (not signed)" if not k.signed and k.act.do not in UNSIGNED else ""),
            "checked" if k.act.do == "second_check" else "did",
        )
        for k in facts.kept
        if k.act.do not in ("figure", "issue", "arrive", "declare", "price", "said")
    )
