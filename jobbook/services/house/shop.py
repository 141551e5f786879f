"""The shop: its facts, its tools, and the figures that it read from makers' documents."""

import re
from dataclasses import asdict, replace
from datetime import date
from decimal import Decimal

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import parse_stages
from jobbook.core.fitness import DUE_SOON_DAYS, WRENCHES, due_on
from jobbook.core.measured.alignment_limits import PREFIX as GEOMETRY
from jobbook.core.measured.alignment_limits import read_limits
from jobbook.core.measured.practice import UNITS as HEIGHT_UNITS
from jobbook.core.measured.practice import read_practice
from jobbook.core.people import Person, Shop
from jobbook.core.quantities import read_quantity
from jobbook.core.record.journal import Draft, clean_text
from jobbook.core.tools import KINDS, Tool
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.vehicle.warranty import read_term
from jobbook.core.work.words import FIGURE_KINDS
from jobbook.core.written import day
from jobbook.services.house.people import writing
from jobbook.services.measured.torque_at_work import look_before_keeping, with_look
from jobbook.services.opened import OpenBook
from jobbook.services.typed_times import look_at_day, typed_day

TOOL_STATES = ("in use", "quarantined", "scrapped", "outside")
PLAIN_NUMBER = re.compile(r"[0-9]{1,7}(?:\.[0-9]{1,6})?")


def shop(book: OpenBook) -> Shop:
    with book.store.read() as reading:
        return replace(reading.shop(), book_id=book.store.book_id)


def change_shop(book: OpenBook, who: Person, facts: Shop) -> Shop:
    """Keep the workshop's facts and settings; papers issued before stay as they are."""
    if not facts.name.strip():
        raise Refused("Nothing was changed: the workshop's name prints on every paper and cannot be empty.")
    if facts.height_unit not in HEIGHT_UNITS:
        raise Refused("Nothing was changed: heights are shown in mm or in inches.")
    own = read_term(facts.warranty_months, facts.warranty_distance, "", facts.distance_unit)
    facts = replace(facts, warranty_months=own.months, warranty_distance=own.distance)
    facts = replace(facts, practice=read_practice(facts.practice))
    kept = {key: value for key, value in asdict(facts).items() if key != "book_id"}
    with writing(book, who, "people") as tx:
        tx.keep(Draft("shop/1", "shop", kept))
    return facts


def tools(book: OpenBook) -> tuple[Tool, ...]:
    with book.store.read() as reading:
        return tuple(reading.tools.all())


def keep_tool(book: OpenBook, who: Person, tool: Tool) -> Tool:
    """Keep a tool's card. A tool is never deleted: it is scrapped, and its sign-offs stay findable."""
    if not tool.number.strip() or tool.kind not in KINDS:
        raise Refused("The tool was not kept: it needs its number and its kind.")
    if tool.status not in TOOL_STATES:
        raise Refused(f"The tool was not kept: say how it stands, {', '.join(TOOL_STATES)}.")
    _look_at_range(tool)
    for figure in (tool.resolution, tool.uncertainty):
        _decimal(figure, "The tool was not kept: its division or its uncertainty")
    done = typed_day(tool.calibrated_on, book.today(), ahead=False, what="The tool was not kept")
    due = typed_day(tool.due_on, book.today(), ahead=True, what="The tool was not kept")
    kept = replace(tool, number=clean_text(tool.number).strip(), calibrated_on=done, due_on=due)
    with writing(book, who, "tools") as tx:
        tx.keep(Draft("tool/1", f"tool/{kept.number}", asdict(kept)))
    return kept


def _look_at_range(tool: Tool) -> None:
    """A range that nobody can compute with would bar every joint of the shop later: it is refused here."""
    low, high = (_decimal(end, "The tool was not kept: its range") for end in (tool.low, tool.high))
    if tool.high and low >= high:
        raise Refused(f"The tool was not kept: its range goes from {tool.low or '0'} to {tool.high}. Look at the tool.")
    if tool.high and tool.kind in WRENCHES:
        read_quantity(f"{tool.high} {tool.unit}", "torque")


def _decimal(text: str, what: str) -> Decimal:
    if not PLAIN_NUMBER.fullmatch(text or "0"):
        raise Refused(f"{what} is not a number: “{text}”. Write it like 20 or 0.5.")
    return Decimal(text or "0")


def tool_state(tool: Tool, today: date) -> tuple[str, str]:
    """The mark and the words for how a tool stands today."""
    if tool.status != "in use":
        return "bar", tool.status
    due = due_on(tool)
    if due is None:
        return "half", "calibration not recorded"
    days = (due - today).days
    if days < 0:
        return "bar", f"calibration overdue since {day(due)}"
    words = f"calibrated to {day(due)}"
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
    valid_from: str = "",
    fastener: str = "",
    confirmed: bool = False,
) -> Specification:
    """Keep a figure for a variant as it was typed, with the document and edition that it was read from.

    It is in force from `valid_from` on, today where no day is named: jobs that were released before keep theirs. A
    torque is looked at against thread and grade of its `fastener`, where they are known; what was said is kept with its
    conditions. Doubtful: where it looks wrong and nobody has `confirmed` that it stands so in the document."""
    variant, key = clean_text(variant).strip(), clean_text(key).strip()
    if not variant or not key or not document.strip() or not edition.strip():
        raise Refused("The figure was not kept: it needs its vehicle variant, its document and its edition.")
    look_at_day(valid_from, "The figure was not kept")
    stages = read_figure(kind, text, tolerance, key)
    if kind == "torque":
        conditions = with_look(conditions, look_before_keeping(text, tolerance, fastener, confirmed))
    with writing(book, who, "specifications") as tx:
        facts = {
            "specification": tx.next_entry, "variant": variant, "key": key, "kind": kind,
            "title": title, "text": text.strip(), "stages": list(stages), "tolerance": tolerance.strip(),
            "conditions": conditions.strip(), "document": document.strip(), "edition": edition.strip(),
            "valid_from": valid_from.strip() or book.today().isoformat(),
        }  # fmt: skip
        entry = tx.keep(Draft("specification/1", f"variant/{variant}", facts))
        return next(s for s in tx.specifications.ever_of(variant) if s.entry == entry.number)


def read_figure(kind: str, text: str, tolerance: str = "", key: str = "") -> tuple[str, ...]:
    """The stages of a figure as exact texts, one for each; Refused where it cannot be read for certain."""
    if kind not in FIGURE_KINDS:
        raise Refused(f"The figure was not kept: “{kind}” is no kind of figure.")
    if kind == "torque":
        return tuple(stage.exact for stage in parse_stages(text, tolerance))
    if key.startswith(GEOMETRY):
        return (read_limits(key, text, tolerance).target.text(),)
    if tolerance.strip():
        _look_at_tolerance(kind, text, tolerance.strip().lstrip("±+-/ "))
    return (read_quantity(text, kind).text(),)


def _look_at_tolerance(kind: str, text: str, tolerance: str) -> None:
    """A height's tolerance is a length, since limits are drawn from it; elsewhere it may be a share too."""
    if "%" in tolerance and kind != "length":
        read_quantity(tolerance, "ratio")
    else:
        unit = "mm" if kind == "length" else read_quantity(text, kind).unit
        read_quantity(tolerance, kind, default_unit=unit)
