"""Kit and parts of a job: what the begun methods need, what was issued, what was fitted."""

from collections import Counter
from dataclasses import dataclass

from jobbook.core.errors import Refused
from jobbook.core.journal import Draft
from jobbook.core.parts import CONDITIONS, Piece
from jobbook.core.people import Person
from jobbook.core.work.model import Joint, Line, Part, Thing
from jobbook.core.work.state import State
from jobbook.services.opened import OpenBook
from jobbook.services.replay import job_state

RETURNS = ("returned unused", "wrong", "discarded")


@dataclass(frozen=True)
class Need:
    """What one thing of the job needs: pieces or a part, with three numbers side by side."""

    serves: str
    title: str
    kind: str
    needed: int
    issued: int
    fitted: int

    @property
    def short(self) -> int:
        return max(0, self.needed - self.issued)


def pieces(book: OpenBook, job: int) -> tuple[Piece, ...]:
    with book.store.read() as reading:
        return tuple(reading.pieces.of_job(job))


def needed(book: OpenBook, job: int) -> tuple[Need, ...]:
    """What the begun methods need against what was issued and fitted, in the order of the methods."""
    with book.store.read() as reading:
        state = job_state(reading, job)
        there = tuple(reading.pieces.of_job(job))
    return needs_of(state, there)


def needs_of(state: State, there: tuple[Piece, ...]) -> tuple[Need, ...]:
    issued, fitted = Counter[str](), Counter[str]()
    for piece in there:
        issued[piece.serves] += piece.count if piece.state in ("issued", "fitted") else 0
        fitted[piece.serves] += piece.count if piece.state == "fitted" else 0
    wanted = (need for thing in state.things.values() for need in _wanted(thing))
    return tuple(Need(name, title, kind, count, issued[name], fitted[name]) for name, title, kind, count in wanted)


def _wanted(thing: Thing) -> tuple[tuple[str, str, str, int], ...]:
    if isinstance(thing, Part) and thing.renewed:
        return ((thing.name, thing.title, "part", 1),)
    if isinstance(thing, Line) and thing.seal:
        return ((thing.name, f"{thing.title}: {thing.seal}", "seal", 1),)
    if isinstance(thing, Joint) and thing.single_use:
        what = " and ".join(thing.pieces) or "fastener"
        return ((thing.name, f"{thing.title}: new {what}", "piece", thing.count),)
    return ()


def issue(
    book: OpenBook,
    who: Person,
    job: int,
    serves: str,
    count: int,
    *,
    number: str = "",
    serial: str = "",
    batch: str = "",
    condition: str = "new",
    supplier: str = "",
    delivery_note: str = "",
    purchase_invoice: str = "",
) -> None:
    """Issue a part, or single-use pieces alike, to the thing of the job that they are for."""
    if condition not in CONDITIONS or not 1 <= count <= 200:
        raise Refused("Nothing was issued: choose a condition, and a count from 1 to 200.")
    with book.store.write(who.id) as tx:
        want = next((n for n in needs_of(job_state(tx, job), ()) if n.serves == serves), None)
        if want is None:
            raise Refused("Nothing was issued: no method begun on this job needs that.")
        if want.kind == "part" and not number.strip():
            raise Refused("The part was not issued: its number is needed, as it stands on the part.")
        facts = {
            "job": job, "serves": serves, "title": want.title, "kind": want.kind, "count": count,
            "number": number.strip(), "serial": serial.strip(), "batch": batch.strip(), "condition": condition, "supplier": supplier.strip(),
            "delivery_note": delivery_note.strip(), "purchase_invoice": purchase_invoice.strip(),
        }  # fmt: skip
        tx.keep(Draft("issued/1", f"job/{job}", facts, job=job))


def return_piece(book: OpenBook, who: Person, piece: Piece, state: str, reason: str) -> None:
    """Take an issued piece back: unused, wrong (not fitted), or discarded, with the reason."""
    if state not in RETURNS or not reason.strip():
        raise Refused("The piece stays issued: say what becomes of it, and why.")
    if piece.state != "issued":
        raise Refused(f"The piece stays as it is: it is {piece.state}, not waiting to be fitted.")
    facts = {"job": piece.job, "piece": piece.id, "state": state, "reason": reason.strip()}
    with book.store.write(who.id) as tx:
        tx.keep(Draft("piece-state/1", f"job/{piece.job}", facts, job=piece.job))
