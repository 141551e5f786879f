"""The shop: its facts, its tools, and the figures that it read from makers' documents."""

from dataclasses import asdict, replace
from datetime import date
from decimal import Decimal, InvalidOperation

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import parse_stages
from jobbook.core.journal import Draft
from jobbook.core.people import Person, Shop
from jobbook.core.quantities import read_quantity
from jobbook.core.specifications import Specification
from jobbook.core.tools import KINDS, Tool
from jobbook.services.opened import OpenBook
from jobbook.services.people import need

DUE_SOON_DAYS = 30


def shop(book: OpenBook) -> Shop:
    with book.store.read() as reading:
        return replace(reading.shop(), book_id=book.store.book_id)


def change_shop(book: OpenBook, who: Person, facts: Shop) -> Shop:
    """Keep the workshop's facts and settings; papers issued before stay as they are."""
    need(who, "people")
    if not facts.name.strip():
        raise Refused("Nothing was changed: the workshop's name prints on every paper and cannot be empty.")
    kept = {key: value for key, value in asdict(facts).items() if key != "book_id"}
    with book.store.write(who.id) as tx:
        tx.keep(Draft("shop/1", "shop", kept))
    return facts


def tools(book: OpenBook) -> tuple[Tool, ...]:
    with book.store.read() as reading:
        return tuple(reading.tools.all())


def keep_tool(book: OpenBook, who: Person, tool: Tool) -> Tool:
    """Keep a tool's card. A tool is never deleted: it is scrapped, and its sign-offs stay findable."""
    need(who, "tools")
    if not tool.number.strip() or tool.kind not in KINDS:
        raise Refused("The tool was not kept: it needs its number and its kind.")
    for end in (tool.low, tool.high):
        _decimal(end, "The tool was not kept: its range")
    for day in (tool.calibrated_on, tool.due_on):
        _day(day, "The tool was not kept")
    with book.store.write(who.id) as tx:
        tx.keep(Draft("tool/1", f"tool/{tool.number}", asdict(tool)))
    return tool


def _decimal(text: str, what: str) -> None:
    try:
        number = Decimal(text or "0")
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or number < 0:
        raise Refused(f"{what} is not a number: “{text}”. Write it like 20 or 0.5.")


def _day(text: str, what: str) -> None:
    try:
        date.fromisoformat(text or "2000-01-01")
    except ValueError as error:
        raise Refused(f"{what}: “{text}” is not a date. Write it like 2027-03-14.") from error


def tool_state(tool: Tool, today: date) -> tuple[str, str]:
    """The mark and the words for how a tool stands today."""
    if tool.status != "in use":
        return "bar", tool.status
    if not tool.due_on:
        return "half", "calibration not recorded" if not tool.calibrated_on else "no date due recorded"
    days = (date.fromisoformat(tool.due_on) - today).days
    if days < 0:
        return "bar", f"calibration overdue since {date.fromisoformat(tool.due_on):%d %b %Y}"
    words = f"calibrated to {date.fromisoformat(tool.due_on):%d %b %Y}"
    return ("half", f"{words}, due soon") if days <= DUE_SOON_DAYS else ("disc", words)


def variants(book: OpenBook) -> tuple[str, ...]:
    with book.store.read() as reading:
        return tuple(reading.specifications.variants())


def specifications(book: OpenBook, variant: str) -> tuple[Specification, ...]:
    with book.store.read() as reading:
        return tuple(reading.specifications.for_variant(variant))


def keep_specification(
    book: OpenBook,
    who: Person,
    *,
    variant: str,
    key: str,
    kind: str,
    title: str,
    text: str,
    document: str,
    edition: str,
    tolerance: str = "",
    conditions: str = "",
    second_look_by: str = "",
) -> Specification:
    """Keep a figure for a variant as it was typed, with the document and edition that it was read from."""
    need(who, "specifications")
    if not variant.strip() or not document.strip() or not edition.strip():
        raise Refused("The figure was not kept: it needs its vehicle variant, its document and its edition.")
    stages = read_figure(kind, text, tolerance)
    with book.store.write(who.id) as tx:
        facts = {
            "specification": tx.next_specification_id(), "variant": variant.strip(), "key": key, "kind": kind,
            "title": title, "text": text.strip(), "stages": list(stages), "tolerance": tolerance.strip(),
            "conditions": conditions.strip(), "document": document.strip(), "edition": edition.strip(),
            "second_look_by": second_look_by,
        }  # fmt: skip
        tx.keep(Draft("specification/1", f"variant/{variant.strip()}", facts))
    return next(s for s in specifications(book, variant.strip()) if s.key == key)


def read_figure(kind: str, text: str, tolerance: str = "") -> tuple[str, ...]:
    """The stages of a figure as exact texts, one for each; Refused where it cannot be read for certain."""
    if kind == "torque":
        return tuple(stage.exact for stage in parse_stages(text, tolerance))
    return (read_quantity(text, kind).text(),)
