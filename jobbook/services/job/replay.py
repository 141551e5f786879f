"""From the entries of a job to the state of its work: which acts count, in which order, and where they lead."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import reduce

from jobbook.core.record.journal import Entry
from jobbook.core.work.acts_text import act_from_plain
from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act, Joint, Line, Thing
from jobbook.core.work.rules import apply
from jobbook.core.work.state import START, State
from jobbook.db.store import Book
from jobbook.services.agreed.finding_acts import FINDING, found
from jobbook.services.agreed.permission_acts import DESK, STANDS_SIGNED, PermissionActs, act_of

KINDS = (
    "act/1", "begun/1", "allowance/1", "permission/1", "asked/1", "issued/1", "piece-state/1", "sign-off/1", "undone/1",
    "waiting/1", FINDING, *DESK,
)  # fmt: skip


COUNTERSIGNED = "countersigned"


@dataclass(frozen=True)
class Kept:
    """An act that counts, with the entry that keeps it. `was` is the act that a correction took the place of."""

    entry: Entry
    act: Act
    signed_by: str = ""
    was: Act | None = None
    learning: bool = False  # whoever signed it was learning then
    countersigned_by: str = ""

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
        if entry.replaces is not None or str(entry.number) in taken_back:
            continue
        chain = _chain(entry, corrections)
        if any(one.act in undone for one in chain):
            continue
        for act in issues.acts_of(chain[-1], entry.number):
            was = next(iter(_Issues().acts_of(entry, entry.number)), None) if len(chain) > 1 else None
            kept.append(_signed(Kept(chain[-1], act, was=was), signatures, chain))
    return tuple(kept)


def _chain(entry: Entry, corrections: Mapping[int | None, Entry]) -> list[Entry]:
    """An entry with its corrections: the last one counts."""
    chain = [entry]
    while chain[-1].number in corrections:
        chain.append(corrections[chain[-1].number])
    return chain


def _taken_back(entries: list[Entry]) -> set[str]:
    """The pieces that went back unused, wrong or to waste before they were fitted: as if they were never issued."""
    last = {e.payload["piece"]: e.payload["state"] for e in entries if e.kind == "piece-state/1"}
    return {piece for piece, state in last.items() if state not in ("issued", "fitted")}


def _signatures(entries: list[Entry]) -> Mapping[str, Entry]:
    """By act, its signature; under the act's id after "+" its countersignature."""
    signed = [entry for entry in entries if entry.kind == "sign-off/1"]
    return {
        ("+" if entry.payload.get("meaning") == COUNTERSIGNED else "") + act: entry
        for entry in signed
        for act in entry.payload["acts"]
    }


def _signed(kept: Kept, signatures: Mapping[str, Entry], chain: list[Entry]) -> Kept:
    """A signature stands under the act, whether it was given before or after a correction."""
    signature = next((signatures[one.act] for one in chain if one.act in signatures), None)
    if kept.entry.kind in STANDS_SIGNED:
        return replace(kept, signed_by=kept.entry.done_by)
    if signature is None:
        return kept
    second = next((signatures["+" + one.act] for one in chain if "+" + one.act in signatures), None)
    return replace(
        kept,
        signed_by=str(signature.facts["done_by"]),
        learning=bool(signature.payload.get("learning")),
        countersigned_by=str(second.facts["done_by"]) if second is not None else "",
    )


class _Issues:
    """Turns entries into acts. Pieces count as issued once there are as many as the thing has fasteners; a set may be
    made up of several issues (the delivery was short, the shelf helped out), and is named by all of them."""

    def __init__(self) -> None:
        self._things: dict[str, Thing] = {}
        self._there: dict[str, list[tuple[str, int]]] = {}
        permissions = PermissionActs()
        self._makers: Mapping[str, Callable[[Entry], Iterator[Act]]] = dict.fromkeys(DESK, permissions.acts_of) | {
            "act/1": self._plain,
            "begun/1": self._plain,
            "allowance/1": self._plain,
            "asked/1": lambda entry: iter((act_of("ask_authority", entry),)),
            "issued/1": self._issued,
        }

    def acts_of(self, entry: Entry, first: int) -> Iterator[Act]:
        """`first` is the number of the entry that this one is a correction of, or its own."""
        if entry.kind == FINDING:
            return found(entry, first)
        maker = self._makers.get(entry.kind)
        return maker(entry) if maker else iter(())

    def _plain(self, entry: Entry) -> Iterator[Act]:
        act = act_from_plain(entry.payload["act"])
        self._things |= {thing.name: thing for thing in act.things}
        yield replace(act, id=entry.act, at=entry.done_at, by=str(entry.facts["done_by"]))

    def _issued(self, entry: Entry) -> Iterator[Act]:
        facts = entry.payload
        thing = self._things.get(facts["serves"])
        there = self._there.setdefault(facts["serves"], [])
        there.append((str(entry.number), facts["count"]))
        each = thing.count if isinstance(thing, Joint) else 1
        while sum(count for _, count in there) >= each:
            yield replace(act_of("issue", entry), on=facts["serves"], pieces=_names(thing, _take(there, each)))


def _take(there: list[tuple[str, int]], wanted: int) -> list[str]:
    """Take so many pieces off what is there; the ids of the issues that they came with."""
    ids = []
    while wanted:
        piece, count = there.pop(0)
        ids.append(piece)
        if count > wanted:
            there.insert(0, (piece, count - wanted))
        wanted -= min(count, wanted)
    return ids


def _names(thing: Thing | None, pieces: list[str]) -> tuple[str, ...]:
    """Pieces are named by their kind and the numbers of the issues that they came with: "nut 41+44"."""
    kinds: tuple[str, ...] = ()
    if isinstance(thing, Joint):
        kinds = thing.pieces
    elif isinstance(thing, Line):
        kinds = (thing.seal,)
    return tuple(f"{kind} {'+'.join(pieces)}" for kind in kinds or ("part",))


def piece_ids(act: Act) -> set[str]:
    """The ids of the issued pieces that an act names."""
    return {piece for name in act.pieces for piece in name.rsplit(" ", 1)[-1].split("+")}


def state_of(kept: Iterable[Kept]) -> State:
    """Where the acts lead. Replay never refuses: what would be refused today is told by the state itself."""
    return reduce(lambda state, one: apply(state, one.act), kept, START)


def job_state(reading: Book, job: int) -> State:
    return state_of(kept_acts(work_entries(reading, job)))
