"""Entries that were kept on the wrong job: moved by a linked correction that both jobs show."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, Entry
from jobbook.core.work.acts_text import act_from_plain
from jobbook.core.work.changing import replace
from jobbook.core.work.rules import perform
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import as_now, writing
from jobbook.services.job.in_hand import in_hand, reopen
from jobbook.services.job.replay import kept_acts, piece_ids, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.work.figures import bay_of
from jobbook.services.work.written import Written, written

KINDS = ("act/1", "test/1", "fault-code/1", "note/1", "file/1")
OWN = ("begin", "arrive", "figure", "declare", "let_go", "allow")  # what belongs to the job itself, and never moves


@dataclass(frozen=True)
class Movable:
    """An entry that can be moved: the id of its act, and what it says in a few words."""

    act: str
    words: str
    by: str
    at: str


@dataclass(frozen=True)
class Moved:
    """What was moved away from this job, or to it: the other job, with the reason and who moved it when."""

    words: str
    here: bool
    other: int
    reason: str
    by: str
    at: str


def moves(book: OpenBook, job: int) -> tuple[tuple[Movable, ...], tuple[Moved, ...]]:
    """The entries of a job that can be moved, the newest first; and what was moved away from it and to it."""
    with book.store.read() as reading:
        names, entries = _names(reading), _entries(reading, job)
    there = reversed(_there(entries).values())
    listed = (Movable(e.act, _words(e), names.get(_doer(e), _doer(e)), e.done_at) for e in there)
    return tuple(listed), _moved(entries, names)


def moved_of(reading: Book, job: int) -> tuple[Moved, ...]:
    """What was moved away from this job and to it, in the order in which it was."""
    return _moved(_entries(reading, job), _names(reading))


def _entries(reading: Book, job: int) -> list[Entry]:
    return reading.journal.entries(job=job, kind=(*KINDS, "undone/1"))


def _moved(entries: Sequence[Entry], names: Mapping[str, str]) -> tuple[Moved, ...]:
    mine = {entry.act: entry for entry in entries}
    return tuple(
        Moved(
            _words(mine[entry.payload["act"]] if "moved_to" in entry.payload else entry),
            "moved_from" in entry.payload,
            entry.payload.get("moved_to") or entry.payload["moved_from"],
            str(entry.facts["reason"]),
            names.get(str(entry.facts["entered_by"]), ""),
            str(entry.facts["entered_at"]),
        )
        for entry in entries
        if entry.payload.keys() & {"moved_to", "moved_from"}
    )


def move(book: OpenBook, signer: Person, job: int, acts: Sequence[str], to: int, reason: str) -> Written:
    """Move entries to the job that they belong to, all or none; the rules of that job judge each.

    The doer, the hour and the words stay as they were kept. In the other job an act waits for its doer's signature. One
    moves one's own; another's with the permission to allow. A released job is opened again by it."""
    if not acts or not reason.strip():
        raise Refused("Nothing was moved: choose what is on the wrong job, and say how it came there.")
    if to == job:
        raise Refused(f"Nothing was moved: this is job {job} itself.")
    with writing(book, signer, "work", "desk") as tx:
        in_hand(tx, to)
        there = _there(_entries(tx, job))
        wanted = [there[act] for act in there if act in acts]
        if len(wanted) != len(set(acts)):
            raise Refused("Nothing was moved: part of it is not there any more. Look at the job again.")
        if any(_doer(entry) != signer.id for entry in wanted):
            as_now(tx, signer, "allow")
        for entry in wanted:
            last = _move_one(tx, book, entry, to, reason.strip())
        reopen(tx, job, reason.strip())
    many = f"{len(wanted)} entries" if len(wanted) > 1 else "1 entry"
    return written(last, f"{many} moved to job {to}")


def _move_one(tx: WritingBook, book: OpenBook, entry: Entry, to: int, reason: str) -> Entry:
    """Keep it in the other job with its doer and hour, and let it count no longer in this one."""
    if entry.kind == "act/1":
        _judge(tx, book, entry, to)
    facts = {key: value for key, value in entry.payload.items() if key not in ("beside", "moved_from", "to")}
    facts |= {"job": to, "moved_from": entry.job}
    kept = tx.keep(
        Draft(entry.kind, f"job/{to}", facts, job=to, done_at=entry.done_at, done_by=_doer(entry), reason=reason)
    )
    gone = {"job": entry.job, "act": entry.act, "moved_to": to, "as": kept.number}
    return tx.keep(Draft("undone/1", f"job/{entry.job}", gone, job=entry.job, reason=reason))


def _judge(tx: WritingBook, book: OpenBook, entry: Entry, to: int) -> None:
    bay = bay_of(tx, to, kept_acts(work_entries(tx, to)), book)
    act = replace(act_from_plain(entry.payload["act"]), by=_doer(entry), at=entry.done_at)
    try:
        perform(bay.state, act)
    except Refused as refusal:
        raise Refused(
            f"Nothing was moved: job {to} cannot take “{_words(entry)}” as it stands. {refusal} "
            "Bring that job to where it was done, then move it."
        ) from refusal


def _there(entries: Sequence[Entry]) -> dict[str, Entry]:
    """What counts of a job and may be moved, by act: nothing that was corrected, holds pieces or is the job's own."""
    gone = {entry.payload["act"] for entry in entries if entry.kind == "undone/1"}
    replaced = {entry.replaces for entry in entries}
    return {
        entry.act: entry
        for entry in entries
        if entry.kind in KINDS
        and entry.act not in gone
        and entry.number not in replaced
        and entry.replaces is None
        and not _is_of_the_job(entry)
    }


def _is_of_the_job(entry: Entry) -> bool:
    if entry.kind != "act/1":
        return bool(entry.payload.get("beside"))
    act = act_from_plain(entry.payload["act"])
    return act.do in OWN or bool(piece_ids(act))


def _words(entry: Entry) -> str:
    facts = entry.payload
    if entry.kind == "act/1":
        act = act_from_plain(facts["act"])
        return " ".join(filter(None, (act.do.replace("_", " "), act.on, act.what.replace("_", " "), act.text)))
    if entry.kind == "file/1":
        return str(facts["what"])
    if entry.kind == "fault-code/1":
        return f"fault code {facts['code'] or 'none'}, {facts['module']}"
    return f"test: {facts['name']}" if entry.kind == "test/1" else "note"


def _doer(entry: Entry) -> str:
    return str(entry.facts["done_by"])


def _names(reading: Book) -> Mapping[str, str]:
    return {person.id: person.name for person in reading.people.all()}
