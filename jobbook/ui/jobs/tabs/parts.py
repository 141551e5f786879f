"""Parts: what the begun methods need against what was issued and fitted; issue, and take back."""

from collections.abc import Mapping

from jobbook.core.quantities.whole import whole_number
from jobbook.core.vehicle.part_lives import REASONS, STILL_ON, FittedPart
from jobbook.core.vehicle.parts import CONDITIONS, KnownPart, Piece
from jobbook.services.job import stores
from jobbook.services.job.stores import Need
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, JobSheet, Option, options_of
from jobbook.services.vehicle import joiners, part_life
from jobbook.ui.jobs.tabs import joiner_lines, known
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Offers, Signing, TabSheet

STATES = (
    Option("returned unused", "returned unused"),
    Option("wrong", "wrong, not fitted"),
    Option("discarded", "discarded"),
)
WARRANTY_ASKS = (
    Ask("warranty_months", "Supplier's warranty, months", "number", required=False),
    Ask("warranty_distance", "and distance, like 60000 km", required=False),
    Ask("warranty_from", "Counts from (day, where not from the fitting)", required=False, folded=True),
)
BACK_ASKS = (Ask("state", "What becomes of it", "choice", STATES), Ask("reason", "Why"))


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    needs = stores.needed(book, sheet.number)
    pieces = stores.pieces(book, sheet.number)
    off = _came_off(*part_life.parts_before(book, sheet.number))
    lines = joiner_lines.block(joiners.joiners(book, sheet.number))
    return TabSheet((_needs(book, needs), _pieces(pieces), *((off,) if off.lines else ()), lines))


def _needs(book: OpenBook, needs: tuple[Need, ...]) -> Block:
    nothing = "Nothing is needed yet. Begin a method in Work, and its parts, new pieces and seals stand here."
    return Block(
        "What the work needs",
        tuple(_need(need, known.offers(book, ("number", "supplier"), _fills)) for need in needs),
        headings=("needed", "issued", "fitted"),
        nothing=nothing,
    )


def _fills(part: KnownPart) -> Mapping[str, str]:
    return {"number": part.number, "supplier": part.supplier, "warranty_months": part.warranty_months}


def _need(need: Need, offers: Offers) -> Line:
    mark = "disc" if need.fitted >= need.needed else "half" if need.issued >= need.needed else "ring"
    short = f"{need.short} short" if need.short else ""
    deeds = (Deed("issue", "Issue…", _issue_asks(need), of=need.serves, offers=offers),) if need.short else ()
    cells = (str(need.needed), str(need.issued), str(need.fitted))
    return Line(need.title, short, mark, cells=cells, deeds=deeds)


def _issue_asks(need: Need) -> tuple[Ask, ...]:
    conditions = options_of(CONDITIONS)
    part = need.kind == "part"
    return (
        Ask("count", "How many", "number", value=str(need.short)),
        Ask("number", "Number, as on the part" if part else "Number of the kit or piece", required=part),
        Ask("serial", "Serial", "serial", required=False),
        Ask("batch", "Batch", "serial", required=False),
        Ask("condition", "Condition", "choice", conditions, value="new"),
        Ask("supplier", "Supplier", required=False),
        Ask("delivery_note", "Delivery note", required=False),
        Ask("purchase_invoice", "Purchase invoice", required=False),
        *(WARRANTY_ASKS if part else ()),
    )


def _pieces(pieces: tuple[Piece, ...]) -> Block:
    return Block("Issued to this job", tuple(_piece(piece) for piece in pieces), nothing="Nothing has been issued.")


def _piece(piece: Piece) -> Line:
    said = (
        piece.state,
        piece.number and f"number {piece.number}",
        piece.serial and f"serial {piece.serial}",
        piece.batch and f"batch {piece.batch}",
        piece.condition,
        piece.supplier,
        piece.delivery_note and f"delivery note {piece.delivery_note}",
        piece.purchase_invoice and f"invoice {piece.purchase_invoice}",
    )
    mark = {"issued": "half", "fitted": "disc"}.get(piece.state, "bar")
    words = f"{piece.count} × {piece.title}" if piece.count != 1 else piece.title
    waiting = piece.state == "issued"
    deeds = (Deed("back", "Take back…", BACK_ASKS, of=piece.id),) if waiting else ()
    return Line(words, " · ".join(filter(None, said)), mark, piece.issued_at, deeds=deeds)


def _came_off(off: tuple[FittedPart, ...], on: tuple[FittedPart, ...]) -> Block:
    """Parts that this shop fitted before: why they came off counts in part life, so it is asked where it is known."""
    title = "Fitted by this shop before: what came off, and why"
    return Block(title, (*(_off(part) for part in off), *(_on(part) for part in on)))


def _off(part: FittedPart) -> Line:
    said = REASONS.get(part.reason, "why it came off is not said yet")
    deed = Deed("off", "Why…", _why_asks(part.reason, taken_back=True), of=part.piece)
    return Line(_title(part), f"came off · {said}", "disc" if part.reason else "half", part.off_at, deeds=(deed,))


def _on(part: FittedPart) -> Line:
    deed = Deed("off", "It came off…", _why_asks("", taken_back=False), of=part.piece)
    return Line(_title(part), "still on", "ring", deeds=(deed,))


def _title(part: FittedPart) -> str:
    told = (f"{part.title} {part.place}".strip(), part.serial and f"serial {part.serial}", f"job {part.job}")
    return " · ".join(filter(None, told))


def _why_asks(reason: str, taken_back: bool) -> tuple[Ask, ...]:
    options = [Option(value, words) for value, words in REASONS.items()]
    options += [Option(STILL_ON, "it is still on after all")] if taken_back else []
    return (
        Ask("reason", "Why it came off", "list", tuple(options), value=reason),
        Ask("note", "What was seen", required=False),
    )


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if deed.key == "back":
        piece = next(piece for piece in stores.pieces(book, job) if piece.id == deed.of)
        stores.return_piece(book, by.who, piece, given["state"], given["reason"])
        return f"{piece.title}: {given['state']}"
    if deed.key in joiner_lines.KEYS:
        return joiner_lines.keep(book, by.who, job, deed, given)
    if deed.key == "off":
        part_life.part_came_off(book, by.who, job, deed.of, given["reason"], given["note"])
        return "Why the part came off is kept"
    told = ("number", "serial", "batch", "supplier", "delivery_note", "purchase_invoice")
    stores.issue(
        book,
        by.who,
        job,
        deed.of,
        whole(given["count"]),
        condition=given["condition"],
        warranty=(
            given.get("warranty_months", ""),
            given.get("warranty_distance", ""),
            given.get("warranty_from", ""),
        ),
        **{name: given[name] for name in told},
    )
    return f"{given['count'].strip()} issued"


def whole(typed: str) -> int:
    """A count as typed; what is no whole number counts as none, and the rule about counts refuses it."""
    return whole_number(typed, most=99_999) or 0
