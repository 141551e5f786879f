"""Kit and parts of a job: what the begun methods need, what was issued, what was fitted."""

from collections import Counter
from dataclasses import dataclass

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.parts import CONDITIONS, Piece
from jobbook.core.vehicle.warranty import read_term
from jobbook.core.work.model import Joint, Line, Part, Thing
from jobbook.core.work.state import State
from jobbook.db.store import WritingBook
from jobbook.services.house.people import writing
from jobbook.services.job.in_hand import in_hand
from jobbook.services.job.replay import job_state
from jobbook.services.opened import OpenBook

RETURNS = ("returned unused", "wrong", "discarded")
MOST_SETS = 10  # so many sets of single-use pieces at once are still no typing slip


@dataclass(frozen=True)
class Need:
    """What one thing of the job needs: pieces or a part, with three numbers side by side. `each`: how many are a set;
    a joint that was undone again needs another one."""

    serves: str
    title: str
    kind: str
    needed: int
    issued: int
    fitted: int
    each: int = 1

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
    wanted = (need for thing in state.things.values() for need in _wanted(thing, state))
    return tuple(
        Need(name, title, kind, each * sets, issued[name], fitted[name], each)
        for name, title, kind, each, sets in wanted
    )


def _wanted(thing: Thing, state: State) -> tuple[tuple[str, str, str, int, int], ...]:
    """Name, title, kind, how many are a set, and how many sets: one, and one more for each that was spent."""
    spent = len(state.discarded.get(thing.name, ()))
    if isinstance(thing, Part) and thing.renewed:
        return ((thing.name, thing.title, "part", 1, 1),)
    if isinstance(thing, Line) and thing.seal:
        return ((thing.name, f"{thing.title}: {thing.seal}", "seal", 1, 1 + spent),)
    if isinstance(thing, Joint) and thing.single_use:
        what = " and ".join(thing.pieces) or "fastener"
        sets = 1 + spent // max(1, len(thing.pieces))
        return ((thing.name, f"{thing.title}: new {what}", "piece", thing.count, sets),)
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
    warranty: tuple[str, str, str] = ("", "", ""),
    attempt: str = "",
) -> None:
    """Issue a part, or single-use pieces alike, to the thing of the job that they are for.

    More than one set is kept as several entries, so that each is fitted, returned or thrown away on its own. `attempt`
    names this doing: given again after a broken connection, nothing is issued twice. `warranty` is the supplier's term
    as typed: months, distance, and the day from which it counts where that is not the fitting; where nothing is typed,
    the months of the part that the shop knows by this number are taken."""
    if condition not in CONDITIONS:
        raise Refused(f"Nothing was issued: say in what condition it is, {', '.join(CONDITIONS)}.")
    told = {
        "number": number, "serial": serial, "batch": batch, "condition": condition, "supplier": supplier,
        "delivery_note": delivery_note, "purchase_invoice": purchase_invoice,
    }  # fmt: skip
    facts = {key: value.strip() for key, value in told.items()}
    with writing(book, who, "work", "desk") as tx:
        if not attempt or tx.journal.by_act(f"{attempt} 1") is None:
            _issue(tx, job, serves, count, facts, warranty, attempt)


def _issue(
    tx: WritingBook,
    job: int,
    serves: str,
    count: int,
    facts: dict[str, str],
    warranty: tuple[str, str, str],
    attempt: str,
) -> None:
    in_hand(tx, job)
    there = tuple(tx.pieces.of_job(job))
    need = next((n for n in needs_of(job_state(tx, job), there) if n.serves == serves), None)
    if need is None:
        raise Refused("Nothing was issued: no method begun on this job needs that.")
    _look_at(need, count, facts["number"])
    facts = facts | _term(tx, warranty, need, facts["number"])
    for place, size in enumerate(_sets(need, count), 1):
        what = {"job": job, "serves": serves, "title": need.title, "kind": need.kind, "count": size}
        act = f"{attempt} {place}" if attempt else ""
        tx.keep(Draft("issued/1", f"job/{job}", what | facts, job=job, act=act))


def _term(tx: WritingBook, typed: tuple[str, str, str], need: Need, number: str) -> dict[str, str]:
    """The supplier's term as the issue keeps it; what nobody said is not kept at all."""
    if need.kind != "part":
        return {}
    months, distance, starts = (text.strip() for text in typed)
    known = tx.parts.numbered(number) if number and not (months or distance) else None
    term = read_term(months or (known.warranty_months if known else ""), distance, starts, tx.shop().distance_unit)
    told = {"warranty_months": term.months, "warranty_distance": term.distance, "warranty_from": term.starts}
    return {key: text for key, text in told.items() if text}


def _look_at(need: Need, count: int, number: str) -> None:
    most = MOST_SETS * need.each
    if not 1 <= count <= most:
        raise Refused(f"Nothing was issued: {need.each} are a set, and 1 to {most} can be issued at once.")
    if need.kind == "part" and not number:
        raise Refused("The part was not issued: its number is needed, as it stands on the part.")


def _sets(need: Need, count: int) -> list[int]:
    """The counts of the entries: first what completes the set that is begun, then whole sets, then what is left."""
    begun = need.issued % need.each
    sizes = [min(count, need.each - begun)] if begun else []
    whole, over = divmod(count - sum(sizes), need.each)
    return [*sizes, *[need.each] * whole, *([over] if over else [])]


def return_piece(book: OpenBook, who: Person, piece: Piece, state: str, reason: str) -> None:
    """Take an issued piece back: unused, wrong (not fitted), or discarded, with the reason."""
    if state not in RETURNS or not reason.strip():
        raise Refused("The piece stays issued: say what becomes of it, and why.")
    with writing(book, who, "work", "desk") as tx:
        now = next((one for one in tx.pieces.of_job(piece.job) if one.id == piece.id), None)
        if now is None or now.state != "issued":
            word = now.state if now else "not of this job"
            raise Refused(f"The piece stays as it is: it is {word}, not waiting to be fitted.")
        facts = {"job": piece.job, "piece": piece.id, "state": state, "reason": reason.strip()}
        tx.keep(Draft("piece-state/1", f"job/{piece.job}", facts, job=piece.job))
