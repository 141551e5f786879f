"""From the entries of a job to the state of its work: which acts count, in which order, and where they lead."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import reduce

from jobbook.core.journal import Entry
from jobbook.core.work.acts_text import act_from_plain
from jobbook.core.work.model import Act, Joint, Line, Thing
from jobbook.core.work.rules import apply
from jobbook.core.work.state import START, State
from jobbook.db.store import Book
from jobbook.services.desk import DISMANTLING

KINDS = (
    "act/1", "begun/1", "allowance/1", "permission/1", "asked/1", "issued/1", "piece-state/1", "sign-off/1", "undone/1",
    "waiting/1",
)  # fmt: skip


@dataclass(frozen=True)
class Kept:
    """An act that counts, with the entry that keeps it. `was` is the act that a correction took the place of."""

    entry: Entry
    act: Act
    signed_by: str = ""
    signed_at: str = ""
    was: Act | None = None

    @property
    def signed(self) -> bool:
        return bool(self.signed_by)


def work_entries(reading: Book, job: int) -> list[Entry]:
    return reading.journal.entries(job=job, kind=KINDS)


def kept_acts(entries: Iterable[Entry]) -> tuple[Kept, ...]:
    """The acts that count, each at the place of the entry that it was first kept as; undone ones are left out."""
    listed = list(entries)
    undone = {entry.payload["act"] for entry in listed if entry.kind == "undone/1"}
    corrections: Mapping[int | None, Entry] = {e.replaces: e for e in listed if e.replaces is not None}
    signatures, taken_back = _signatures(listed), _taken_back(listed)
    issues = _Issues()
    kept = []
    for entry in listed:
        if entry.replaces is not None or entry.act in undone or str(entry.number) in taken_back:
            continue
        valid = _latest(entry, corrections)
        for act in issues.acts_of(valid):
            was = next(iter(_Issues().acts_of(entry)), None) if valid is not entry else None
            kept.append(_signed(Kept(valid, act, was=was), signatures, entry.act))
    return tuple(kept)


def _latest(entry: Entry, corrections: Mapping[int | None, Entry]) -> Entry:
    while entry.number in corrections:
        entry = corrections[entry.number]
    return entry


def _taken_back(entries: list[Entry]) -> set[str]:
    """The pieces that went back unused, wrong or to waste before they were fitted: as if they were never issued."""
    last = {e.payload["piece"]: e.payload["state"] for e in entries if e.kind == "piece-state/1"}
    return {piece for piece, state in last.items() if state not in ("issued", "fitted")}


def _signatures(entries: list[Entry]) -> Mapping[str, Entry]:
    return {act: entry for entry in entries if entry.kind == "sign-off/1" for act in entry.payload["acts"]}


def _signed(kept: Kept, signatures: Mapping[str, Entry], act: str) -> Kept:
    signature = signatures.get(act)
    if signature is None:
        return kept
    return replace(kept, signed_by=str(signature.facts["done_by"]), signed_at=signature.done_at)


class _Issues:
    """Turns entries into acts. Pieces count as issued once there are as many as the thing has fasteners."""

    def __init__(self) -> None:
        self._things: dict[str, Thing] = {}
        self._there: Counter[str] = Counter()
        self._makers: Mapping[str, Callable[[Entry], Iterator[Act]]] = {
            "act/1": self._plain,
            "begun/1": self._plain,
            "allowance/1": self._plain,
            "permission/1": self._permission,
            "asked/1": lambda entry: iter((_own("ask_authority", entry),)),
            "issued/1": self._issued,
        }

    def acts_of(self, entry: Entry) -> Iterator[Act]:
        maker = self._makers.get(entry.kind)
        return maker(entry) if maker else iter(())

    def _plain(self, entry: Entry) -> Iterator[Act]:
        act = act_from_plain(entry.payload["act"])
        self._things |= {thing.name: thing for thing in act.things}
        yield replace(act, id=entry.act, at=entry.done_at, by=str(entry.facts["done_by"]))

    def _permission(self, entry: Entry) -> Iterator[Act]:
        if entry.payload["scope"] in DISMANTLING:
            yield _own("permit", entry)
        if entry.payload["scope"] == "authority":
            yield _own("authority", entry)

    def _issued(self, entry: Entry) -> Iterator[Act]:
        facts = entry.payload
        thing = self._things.get(facts["serves"])
        each = thing.count if isinstance(thing, Joint) else 1
        self._there[facts["serves"]] += facts["count"]
        sets, self._there[facts["serves"]] = divmod(self._there[facts["serves"]], each)
        for _ in range(sets):
            yield replace(_own("issue", entry), on=facts["serves"], pieces=_names(thing, str(entry.number)))


def _names(thing: Thing | None, piece: str) -> tuple[str, ...]:
    """Pieces are named by their kind and the number of the issue that they came with."""
    kinds: tuple[str, ...] = ()
    if isinstance(thing, Joint):
        kinds = thing.pieces
    elif isinstance(thing, Line):
        kinds = (thing.seal,)
    return tuple(f"{kind} {piece}" for kind in kinds or ("part",))


def _own(do: str, entry: Entry) -> Act:
    return Act(do, id=entry.act, at=entry.done_at, by=str(entry.facts["done_by"]))


def state_of(kept: Iterable[Kept]) -> State:
    """Where the acts lead. Replay never refuses: what would be refused today is told by the state itself."""
    return reduce(lambda state, one: apply(state, one.act), kept, START)


def job_state(reading: Book, job: int) -> State:
    return state_of(kept_acts(work_entries(reading, job)))
