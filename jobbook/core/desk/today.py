"""What is due: overdue first, then today, what is waited for, what is coming, and what merely stands in the shop."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import reduce

from jobbook.core.desk.answers_to_findings import Answers, heard
from jobbook.core.record.journal import Entry

ORDER = ("overdue", "today", "waiting", "coming", "open")


@dataclass(frozen=True)
class Due:
    """One thing to be seen to. `due` is an ISO day or a time of the shop's own clock, or ""; `since` when the waiting
    for it began. `number` is that of the call, reminder, wait, stand or job, `key` that of a tool. `kind`: clock, clock
    ahead, backup, call, job, wait, stand, held, authority, permission, visit, reminder, tool, kept long."""

    kind: str
    what: str
    due: str = ""
    since: str = ""
    where: str = ""
    number: int = 0
    job: int = 0
    key: str = ""
    state: str = ""


@dataclass(frozen=True)
class Loose:
    """What is loose in one job: how many ends now, how many things still to do, and the first of them."""

    now: int
    to_do: int
    first: str


def state_of(one: Due, now: datetime) -> str:
    """How urgent it is. A day is overdue when it is over, a time when it has passed."""
    if one.kind in ("clock", "clock ahead", "backup"):
        return "overdue"  # they are told of only when they are
    moment = now.strftime("%Y-%m-%dT%H:%M")
    if one.due:
        passed = one.due < moment if "T" in one.due else one.due < moment[:10]
        return "overdue" if passed else "today" if one.due[:10] == moment[:10] else "coming"
    return "waiting" if one.since and one.kind != "job" else "open"


def in_order(listed: Iterable[Due], now: datetime) -> tuple[Due, ...]:
    """The list with how urgent each is, the most urgent first; the order is total."""
    judged = [replace(one, state=state_of(one, now)) for one in listed]
    return tuple(sorted(judged, key=lambda one: (*_urgency(one), one.kind, one.number, one.key)))


def _urgency(one: Due) -> tuple[int, bool, str]:
    return ORDER.index(one.state), not one.kind.startswith("clock"), one.due or one.since


def waited_for(entries: Sequence[Entry]) -> tuple[tuple[str, str, str], ...]:
    """What a job in the shop waits for from the customer or the payer: kind, words, since.

    Give its entries asked/1, finding/1 and those that answer findings, in the order of their numbers. A payer that was
    asked is waited for until it authorised, or refused; a finding that needs permission until it was answered;
    permission at all until there is one."""
    allowed = [entry for entry in entries if entry.kind == "permission/1"]
    found: list[tuple[str, str, str]] = []
    found += [("authority", f"authority from {e.payload.get('of') or 'the payer'}", e.done_at) for e in _asked(entries)]
    found += [("permission", f"permission: {e.payload['words']}", e.done_at) for e in _needing(entries)]
    if not any(entry.payload.get("scope") != "authority" for entry in allowed):
        found.append(("permission", "a first permission", ""))
    return tuple(found)


def _asked(entries: Sequence[Entry]) -> list[Entry]:
    """The payers that were asked and have neither authorised nor refused since; the last time each was asked."""
    waiting: dict[str, Entry] = {}
    for entry in entries:
        if entry.kind == "asked/1" and entry.payload.get("what") == "authority":
            waiting[str(entry.payload.get("of", ""))] = entry
        elif entry.kind == "permission/1" and entry.payload.get("scope") == "authority":
            waiting.clear()
        elif entry.kind == "permission-changed/1":
            waiting = {of: one for of, one in waiting.items() if one.number != entry.payload.get("of")}
    return list(waiting.values())


def _needing(entries: Sequence[Entry]) -> list[Entry]:
    """Findings that need permission and are not answered. A correction stands in the place of what it corrects."""
    answers = reduce(lambda told, e: heard(told, e.kind, e.number, e.payload), entries, Answers())
    first: dict[int, int] = {}  # of each finding, the entry that it began with; an answer names that one
    standing: dict[int, Entry] = {}
    for entry in entries:
        if entry.kind == "finding/1":
            first[entry.number] = first.get(entry.replaces or 0, entry.replaces or entry.number)
            standing[first[entry.number]] = entry
    needing = {number: e for number, e in standing.items() if e.payload.get("needs") == "permission"}
    return [e for number, e in needing.items() if not answers.of(number)]
