"""The lines of the estimate on the Permission tab: parts, labour and the rest, with what they come to while typed."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from jobbook.core.desk.estimate import CONDITIONS, CUSTOMER, STATES, Line, standing, totals
from jobbook.core.desk.profiles import WORDS
from jobbook.core.errors import Refused
from jobbook.core.people import Shop
from jobbook.core.vehicle.parts import KnownPart
from jobbook.services.agreed import estimate
from jobbook.services.agreed.permission_page import PermissionPage, permission_page
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.ui.jobs.tabs import known, times
from jobbook.ui.jobs.tabs import records as tab
from jobbook.ui.jobs.tabs.permission_asks import options
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Signing

ADDED = {"part": "Part…", "labour": "Labour…", "other": "Other…"}
AGAIN = "Putting together again…"
NEW, CHANGE, DONE, TERMS = "line", "line-change", "line-done", "line-terms"
KEYS = (NEW, CHANGE, DONE, TERMS)
QUANTITY = {"part": "Pieces", "labour": "Hours", "other": "Quantity", "reassembly": "Quantity"}
EACH = {"part": "Each, before tax", "labour": "An hour, before tax"}


def block(book: OpenBook, page: PermissionPage) -> Block:
    lines = page.agreed.lines
    word = page.agreed.terms.word if page.agreed.terms.entry else estimate.default_terms(page.shop).word
    deeds = [_new(book, page, kind, title) for kind, title in ADDED.items()]
    if any(one.reassembly for one in page.agreed.permissions):
        deeds.append(_new(book, page, "reassembly", AGAIN))
    deeds.append(Deed(TERMS, "Holds until, leaves out…", _terms_asks(page, word)))
    return Block(
        f"Lines of the {word}",
        tuple(_line(page, one) for one in lines),
        headings=("Net",) if lines else (),
        nothing="Nothing is reckoned yet: parts with their condition, labour and the rest stand here with their price.",
        deeds=tuple(deeds),
    )


def _line(page: PermissionPage, line: Line) -> tab.Line:
    net = line.net
    told = (
        f"{line.quantity} × {line.price}" if line.price else f"{line.quantity} ×, no price yet",
        f"{line.tax or 0} % tax",
        line.part,
        CONDITIONS.get(line.condition, ""),
        "" if line.payer == CUSTOMER else f"pays: {line.payer}",
        "" if line.state == "to do" else line.state,
    )
    deeds = [Deed(CHANGE, "Change…", _asks(page.shop, line, changing=True), str(line.number), live=_live(page, line))]
    if line.state == "to do":
        deeds.insert(0, Deed(DONE, "Done", of=str(line.number)))
    words = " · ".join(filter(None, told))
    return tab.Line(
        f"{line.number}  {line.words}", words, STATES[line.state], cells=(net.figures if net else "?",),
        deeds=tuple(deeds),
    )  # fmt: skip


def _new(book: OpenBook, page: PermissionPage, kind: str, title: str) -> Deed:
    rate = page.shop.labour_rate if kind == "labour" else ""
    count, pays = "" if kind == "labour" else "1", page.job.payer_name or page.job.payer or CUSTOMER
    fresh = Line(0, kind, "", count, rate, page.shop.currency, page.shop.tax_rate, condition="new", payer=pays)
    offers = known.offers(book, ("part", "words"), _fills) if kind == "part" else None
    return Deed(NEW, title, _asks(page.shop, fresh), kind, live=_live(page, fresh), offers=offers)


def _fills(part: KnownPart) -> Mapping[str, str]:
    return {"words": part.title, "part": part.number}


def _asks(shop: Shop, line: Line, changing: bool = False) -> tuple[Ask, ...]:
    part = (
        Ask("part", "Its number", required=False, value=line.part),
        Ask("condition", "Condition", "list", options(CONDITIONS), value=line.condition or "new"),
    )
    states = options_of(STATES.keys())
    payer = line.payer if line.payer != CUSTOMER else ""
    return (
        Ask("words", "What", value=line.words),
        *(part if line.kind == "part" else ()),
        Ask("quantity", QUANTITY[line.kind], "quantity", value=line.quantity),
        Ask("price", EACH.get(line.kind, "Price each, before tax"), "quantity", unit=shop.currency, required=False,
            value=line.price),
        Ask("tax", "Tax", "quantity", unit="%", required=False, value=line.tax),
        *((Ask("state", "It is", "choice", states, value=line.state),) if changing else ()),
        Ask("payer", "Who pays it, if not the customer", required=False, value=payer, folded=not payer),
    )  # fmt: skip


def _terms_asks(page: PermissionPage, word: str) -> tuple[Ask, ...]:
    terms = page.agreed.terms
    return (
        Ask("word", "The paper is called", "choice", options_of(WORDS), value=word),
        Ask("valid_until", "The price holds until (day)", "time", value=terms.valid_until, required=False),
        Ask("exclusions", "What it leaves out", "long text", value=terms.exclusions or "", required=False),
    )


def _live(page: PermissionPage, line: Line) -> tab.Live:
    """What this line comes to as it is typed, and all of them with it."""

    def said(given: Mapping[str, str]) -> str:
        if not given.get("quantity", "").strip():
            return "No quantity yet."
        try:
            now = estimate.read_line(_typed(line, given), page.shop)
        except Refused:
            return ""
        others = [one for one in page.agreed.lines if one.number != line.number or not line.number]
        alone, net = totals((now,), now.currency), now.net
        if net is None:
            return "No price yet."
        together = totals(standing([*others, now]), now.currency)
        return (
            f"{now.quantity} × {now.price} = {net.figures}, {alone.gross.shown} with tax · all {together.gross.shown}"
        )

    return said


def _typed(line: Line, given: Mapping[str, str]) -> Line:
    told: dict[str, Any] = {
        key: given[key] for key in ("words", "part", "condition", "quantity", "price", "tax", "state") if key in given
    }
    if not told.get("words", "").strip():
        told["words"] = line.words or "…"
    return replace(line, **told, payer=given.get("payer", "").strip() or CUSTOMER)


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    page = permission_page(book, job)
    if deed.key == TERMS:
        until = times.read_day(given["valid_until"], book.today())
        terms = replace(page.agreed.terms, word=given["word"], valid_until=until, exclusions=given["exclusions"])
        estimate.keep_terms(book, by.who, job, terms)
        return f"The {given['word']} holds" + (f" until {given['valid_until'].strip()}" if until else "")
    if deed.key == NEW:
        fresh = Line(0, deed.of, given["words"], "1", "", page.shop.currency)
        line = estimate.keep_line(book, by.who, job, _typed(fresh, given))
        return f"Line {line.number}: {line.words}"
    there = page.agreed.priced.lines[int(deed.of)]
    if deed.key == DONE:
        estimate.change_state(book, by.who, job, there, "done")
        return f"Line {there.number} is done"
    line = estimate.keep_line(book, by.who, job, _typed(there, given))
    return f"Line {line.number} is changed"
