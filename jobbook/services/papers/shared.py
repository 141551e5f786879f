"""What both papers say alike: who issues, which vehicle, concerns, parts, answers, corrections, release."""

from datetime import datetime

from jobbook.core.record.journal import Entry
from jobbook.core.vehicle.ownership import modification_words
from jobbook.core.vehicle.parts import Piece
from jobbook.core.work.acts_text import act_from_plain
from jobbook.core.work.loose_ends import loose_ends
from jobbook.core.work.model import Act, Part
from jobbook.core.work.state import called
from jobbook.core.written import unless_erased
from jobbook.paperwork.answers import Answer, Correction, LetGo, Release
from jobbook.paperwork.concerns import Concern
from jobbook.paperwork.issue import Identity, Issue
from jobbook.paperwork.parts import FittedPart
from jobbook.services.agreed.finding_acts import FINDING, finding_of
from jobbook.services.job.moving import Moved
from jobbook.services.papers.agreeing import declined
from jobbook.services.papers.gathered import JobFacts, Moment, moment
from jobbook.services.sheet.sheet_work import act_note

ENDS = {"declined": "declined", "referred": "sublet"}
LONGEST_HEADING = 70
CORNER_WORDS = {"FL": "front left", "FR": "front right", "RL": "rear left", "RR": "rear right"}


def issue_of(facts: JobFacts, now: datetime, by: str, version: int, replaces: str) -> Issue:
    at = moment(now.isoformat())
    shop = facts.shop
    return Issue(shop.name, shop.address, str(facts.job.number), at, by, str(version), replaces, shop.phone)


def identity(facts: JobFacts) -> Identity:
    vehicle = facts.vehicle
    named = ", ".join(filter(None, (vehicle.title, vehicle.year)))
    changed = "; ".join(modification_words(one) for one in facts.modifications)
    variant = ". ".join(filter(None, (vehicle.variant, f"Changed by others: {changed}" if changed else "")))
    return Identity(named, variant, vehicle.plate, vehicle.vin)


def concerns(facts: JobFacts) -> tuple[Concern, ...]:
    return tuple(Concern(unless_erased(c.words), c.cause, c.correction, c.confidence) for c in facts.job.concerns)


def title(facts: JobFacts) -> str:
    """What the job was about: the renewed part with its corner and what was found, or the first concern."""
    part = subject_part(facts)
    if part is not None:
        corner = CORNER_WORDS.get(part.corner, part.corner)
        return f"{part.title}, {corner}" if corner else part.title
    first = next(iter(facts.job.concerns), None)
    said = unless_erased(first.words).strip().rstrip(".") if first else ""
    return said if 0 < len(said) <= LONGEST_HEADING else f"Job {facts.job.number}"


def subject_part(facts: JobFacts) -> Part | None:
    """The part that the job is about: the one that was renewed, or is to be."""
    parts = [thing for thing in facts.state.things.values() if isinstance(thing, Part) and thing.renewed]
    return next((part for part in parts if facts.state.parts[part.name] == "renewed"), next(iter(parts), None))


def fitted_parts(facts: JobFacts) -> tuple[FittedPart, ...]:
    pieces = [piece for piece in facts.pieces if piece.kind == "part" and piece.state == "fitted"]
    kit = kit_words(facts)
    return tuple(
        FittedPart(piece.title, corner_of(piece), piece.number, piece.serial or piece.batch, piece.condition, kit)
        for piece in pieces
    )


def corner_of(piece: Piece) -> str:
    return piece.serves.partition("@")[2]


def where_it_lies(facts: JobFacts, part: str) -> str:
    """Where the part that came off was put."""
    return next((k.act.how for k in reversed(facts.kept) if k.act.do == "take_off" and k.act.on == part), "")


def cause_in_short(facts: JobFacts) -> str:
    """The first clause of the cause, where it is short enough for a heading."""
    cause = next((concern.cause for concern in facts.job.concerns if concern.cause), "")
    clause = cause.split(". ")[0].split(": ")[0].split("; ")[0].rstrip(".")
    return clause if len(clause) <= LONGEST_HEADING else ""


def kit_words(facts: JobFacts) -> str:
    fitted = [piece for piece in facts.pieces if piece.kind != "part" and piece.state == "fitted"]
    return "; ".join(f"{piece.count} × {piece.title.replace(': new ', ', ')}" for piece in fitted)


def answers(facts: JobFacts) -> tuple[Answer, ...]:
    """Whatever was answered otherwise than by being done, in the tests and in the work, each with its reason."""
    tested = [
        Answer(t.name, t.answer, t.reason, "", f"{facts.name(t.by)}, {moment(t.at)}")
        for t in facts.tests
        if t.answer != "done"
    ]
    worked = [
        Answer(_subject(facts, k.act), k.act.answer, k.act.reason, "", f"{facts.name(k.act.by)}, {moment(k.act.at)}")
        for k in facts.kept
        if k.act.answer != "done" and k.act.do not in ("permit", "authority")
    ]
    ended = [
        Answer(found.text, ENDS.get(found.ended, "not done"), found.ended or found.kind, "", moment(found.at))
        for name, found in facts.state.findings.items()
        if found.ended != "repaired" and not finding_of(name)
    ]
    return (*tested, *worked, *ended, *declined(facts.agreed))


def _subject(facts: JobFacts, act: Act) -> str:
    what = called(facts.state, act.on) if act.on else act.what.replace("_", " ")
    words = {"align": "Wheel geometry", "drive": "Road test", "prove": f"{what}: looked at under pressure"}
    return words.get(act.do) or f"{act.do} {what}".strip().capitalize()


def corrections(facts: JobFacts) -> tuple[Correction, ...]:
    """Corrections of acts, both values readable; and what was moved to this job or away from it."""
    told = {"act/1": _correction, FINDING: _found_anew}
    corrected = (told[new.kind](facts, old, new) for old, new in facts.corrections if new.kind in told)
    return (*corrected, *(_moved(facts, one) for one in facts.moved))


def _found_anew(facts: JobFacts, old: Entry, new: Entry) -> Correction:
    was, now = (f"{entry.payload['words']} ({entry.payload['severity']})" for entry in (old, new))
    by, at = facts.name(str(new.facts["entered_by"])), moment(str(new.facts["entered_at"]))
    return Correction("What was found", was, now, str(new.facts["reason"]), by, at)


def _moved(facts: JobFacts, one: Moved) -> Correction:
    was, now = (one.other, facts.job.number) if one.here else (facts.job.number, one.other)
    return Correction(one.words, f"on job {was}", f"on job {now}", one.reason, one.by, moment(one.at))


def _correction(facts: JobFacts, old: Entry, new: Entry) -> Correction:
    was, now = (act_from_plain(entry.payload["act"]) for entry in (old, new))
    by = facts.name(str(new.facts["entered_by"]))
    said = [act_note(act) or act.text or act.answer for act in (was, now)]
    return Correction(
        _subject(facts, now), said[0], said[1], str(new.facts["reason"]), by, moment(str(new.facts["entered_at"]))
    )


def release_of(facts: JobFacts) -> Release:
    if facts.release is None:
        return Release()
    told = facts.release.payload
    by, at = facts.name(str(facts.release.facts["done_by"])), moment(facts.release.done_at)
    let_go = told.get("let_go", [])
    gone = [LetGo(one.get("what", one["rule"]), one["reason"], by, at) for one in let_go]
    named = {(one["rule"], one["on"]) for one in let_go}
    gone += [_let_go(facts, m) for m in facts.moments if m.kept.act.do in ("allow", "let_go") and _pair(m) not in named]
    return Release(by, at, told.get("restriction", ""), tuple(gone))


def _pair(there: Moment) -> tuple[str, str]:
    return there.kept.act.rule, there.kept.act.on


def _let_go(facts: JobFacts, there: Moment) -> LetGo:
    """What a named person allowed beforehand or let go, in the words that it had at that moment."""
    act = there.kept.act
    ends = (end.sentence for end in loose_ends(there.before) if (end.rule, end.on) == (act.rule, act.on))
    what = next(ends, act.rule.replace("-", " "))
    said = f"Allowed beforehand: {what}" if act.do == "allow" else what
    return LetGo(said, act.reason, facts.name(act.by), moment(act.at))
