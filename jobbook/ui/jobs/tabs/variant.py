"""Which variant the vehicle is: the signed choice, those that it may be, and their figures side by side."""

from jobbook.core.vehicle.specifications import Apart, Specification
from jobbook.core.vehicle.variants import FITS, Fit, span_words
from jobbook.services.house.people import get_person
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.services.vehicle.variants import READ_FROM, VariantOfVehicle, choose_variant, variant_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing

KEY = "variant"
TITLE = "Variant, which the figures are valid for"
UNKNOWN = "not known"
LETTERS = "ABCDEFGH"
NOT_SIGNED = "as written on the vehicle's page; nobody has signed for it"
NOTHING_KNOWN = "no figures hold for it: readings stay plain and nothing is judged"
EXPLAIN = (
    "Limits and torques come from it. Read the codes on the vehicle; where it is not certain, say not known and why."
)


def blocks(book: OpenBook, vehicle: int, released: bool) -> tuple[Block, ...]:
    """The choice with those that fit; beside it, where several do, what differs between them."""
    there = variant_of(book, vehicle)
    lines = (_chosen(book, there), *(_fit(fit, LETTERS[n]) for n, fit in enumerate(there.fits[: len(LETTERS)])))
    deeds = () if released else (_choose(there),)
    first = Block(TITLE, lines, deeds=deeds)
    return (first, _apart(there)) if there.apart else (first,)


def _chosen(book: OpenBook, there: VariantOfVehicle) -> Line:
    name, chosen = there.vehicle.variant, there.chosen
    if chosen is None or chosen.variant != name:
        return Line(name, NOT_SIGNED, "half") if name else Line(UNKNOWN.capitalize(), NOTHING_KNOWN, "ring")
    by = get_person(book, chosen.by).name
    codes = f"codes {' '.join(chosen.codes)}" if chosen.codes else ""
    others = f"fitted too: {', '.join(chosen.others)}" if chosen.others else ""
    told = " · ".join(filter(None, (chosen.read_from, codes, chosen.reason, others, f"signed by {by}")))
    if not name:
        return Line(UNKNOWN.capitalize(), f"{told}\n{NOTHING_KNOWN}", "query", chosen.at)
    return Line(name, told, "disc", chosen.at)


def _fit(fit: Fit, letter: str) -> Line:
    codes = f"codes {' '.join(fit.variant.codes)}" if fit.variant.codes else ""
    told = (fit.word, *fit.open, span_words(fit.variant), codes, fit.variant.note)
    return Line(f"{letter}  {fit.variant.name}", " · ".join(filter(None, told)), "disc" if fit.word == FITS else "ring")


def _apart(there: VariantOfVehicle) -> Block:
    """The figures that differ, a column for each variant; the others are counted, those that one lacks apart."""
    apart = [row for row in there.apart if row.differs]
    lacking = sum(row.lacking and not row.differs for row in there.apart)
    rest = (
        _counted(lacking, "not entered for all of them: nobody knows whether they differ"),
        _counted(len(there.apart) - len(apart) - lacking, "the same in all of them"),
    )
    lines = (*(Line(row.title, cells=_cells(row)) for row in apart), *(line for line in rest if line is not None))
    return Block("What differs between them", lines, headings=tuple(LETTERS[: len(there.compared)]), wide=True)


def _counted(figures: int, what: str) -> Line | None:
    return Line(f"{figures} figure{'s are' if figures > 1 else ' is'} {what}") if figures else None


def _cells(row: Apart) -> tuple[str, ...]:
    return tuple(_figure(one) for one in row.figures[: len(LETTERS)])


def _figure(one: Specification | None) -> str:
    return f"{one.text} {one.tolerance}".strip() if one is not None else UNKNOWN


def _choose(there: VariantOfVehicle) -> Deed:
    fitting = [fit.variant.name for fit in there.fits]
    names = (*fitting, *(name for name in there.names if name not in fitting))
    options = (*(Option(name, name) for name in names), Option(UNKNOWN, UNKNOWN))
    chosen = there.chosen
    asks = (
        Ask("variant", "Variant", "list", options, value=fitting[0] if len(fitting) == 1 else ""),
        Ask("codes", "Equipment codes, as read", value=" ".join(chosen.codes) if chosen else "", required=False),
        Ask("read_from", "Read from", "list", options_of(READ_FROM), required=False),
        Ask("reason", "Remark; where not known: why, and what would settle it", required=False),
    )
    return Deed(KEY, "Choose the variant…", asks, signs=True, keep="Choose", explain=EXPLAIN)


def keep(book: OpenBook, by: Signing, vehicle: int, given: Answers) -> str:
    name = "" if given["variant"] == UNKNOWN else given["variant"]
    signer = by.signer or by.who
    chosen = choose_variant(book, signer, vehicle, name, given["codes"], given["read_from"], given["reason"])
    return f"Variant {chosen.variant or UNKNOWN}"
