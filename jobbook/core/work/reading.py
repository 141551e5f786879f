"""Reading a method file into a Method. A fault of content is read past here and told by `findings`."""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from jobbook.core.errors import Unreadable
from jobbook.core.work import language, limits
from jobbook.core.work.language import Check
from jobbook.core.work.model import CORNERS, Aid, Connector, Joint, Line, Part, Thing

HEAD = re.compile(r"^[ \t]*\[\[[ \t]*(\w+)[ \t]*\]\]", re.MULTILINE)
PIECES_UNNAMED = ("fastener",)


@dataclass(frozen=True)
class FigureNeed:
    """A figure that the method asks the shop for. `name` is what it is called, or empty."""

    key: str
    kind: str
    name: str = ""


@dataclass(frozen=True)
class Declared:
    """A thing as the file declares it: names are bare keys, `at` is not yet a place."""

    thing: Thing
    at: str = ""
    when: str = ""
    unless: str = ""


@dataclass(frozen=True)
class Step:
    """One step. `key` is the thing that it acts on; `args` holds what else stands with it, as text."""

    number: int
    do: str
    key: str = ""
    text: str = ""
    caution: str = ""
    when: str = ""
    unless: str = ""
    args: Mapping[str, str] = field(default_factory=dict)
    method_key: str = ""
    line: int = 0


@dataclass(frozen=True)
class Method:
    """A method as written. `digest` is the SHA-256 of its text and names the revision."""

    key: str
    title: str
    corners: tuple[str, ...]
    summary: str
    basis: str
    options: Mapping[str, str]
    figures: tuple[FigureNeed, ...]
    declared: tuple[Declared, ...]
    steps: tuple[Step, ...]
    text: str
    digest: str


@dataclass(frozen=True)
class Document:
    """A method file as values, and the line of the head of every `[[table]]` in it."""

    text: str
    data: Mapping[str, Any]
    lines: Mapping[tuple[str, int], int]


def read_document(raw: bytes | str) -> Document:
    """Parse a file. Unreadable where it passes a limit, is no TOML, or comes from a newer program."""
    text = limits.decoded(raw)
    code = limits.bare(text)
    limits.within_limits(code)
    data = limits.parsed(text)
    _count(data)
    return Document(text, data, _heads(code))


def read_method(raw: bytes | str) -> Method:
    """Read a method. Unreadable with line and column where that cannot be done at all."""
    return method_of(read_document(raw))


def method_of(document: Document) -> Method:
    """Return the method that a document holds; what is not as it should be is left at its default."""
    about = document.data.get("method")
    about = about if isinstance(about, dict) else {}
    title = fitting(about, "title", language.text, "Method without a title")
    key = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-") or "method"
    options = document.data.get("options")
    return Method(
        key,
        title,
        _corners(about.get("corners")),
        fitting(about, "summary", language.maybe_text, ""),
        fitting(about, "basis", language.maybe_text, ""),
        {name: text for name, text in options.items() if isinstance(text, str)} if isinstance(options, dict) else {},
        tuple(
            FigureNeed(row["key"], str(row.get("kind", "")), str(row.get("name", "")))
            for row in _keyed(document, "figure")
        ),
        tuple(_declared(table, row) for table in _THINGS for row in _keyed(document, table)),
        tuple(_step(document, key, number, row) for number, row in enumerate(rows(document, "step"), 1)),
        document.text,
        hashlib.sha256(document.text.encode()).hexdigest(),
    )


def rows(document: Document, table: str) -> list[dict[str, Any]]:
    """Return the rows of an array of tables; what is no table counts as an empty row, so that numbers stay right."""
    found = document.data.get(table)
    return [row if isinstance(row, dict) else {} for row in found] if isinstance(found, list) else []


def fitting(row: Mapping[str, Any], key: str, check: Check, otherwise: Any) -> Any:
    """Return the value behind a key where it is fit to be there, otherwise the default."""
    return row[key] if key in row and not check(row[key]) else otherwise


def _corners(value: object) -> tuple[str, ...]:
    """Return those corners that are some, so that one wrong word does not make a method one for the whole vehicle."""
    return tuple(dict.fromkeys(one for one in value if one in CORNERS)) if isinstance(value, list) else ()


def _keyed(document: Document, table: str) -> list[dict[str, Any]]:
    seen: dict[str, dict[str, Any]] = {}
    for row in rows(document, table):
        if "key" in row and not language.name(row["key"]):
            seen.setdefault(row["key"], row)
    return list(seen.values())


def _declared(table: str, row: Mapping[str, Any]) -> Declared:
    fits = {key: row[key] for key, check in language.TABLES[table].items() if key in row and not check(row[key])}
    when, unless, at = (fits.pop(key, "") for key in ("when", "unless", "at"))
    key, title = fits.pop("key"), fits.pop("name", row["key"])
    if "held_by" in fits:
        fits["held_by"] = tuple(fits["held_by"])
    if table == "joint":
        fits |= _single_use(fits.pop("single_use", False))
    return Declared(
        _THINGS[table](name=key, title=title, **fits), at or ("here" if table == "line" else ""), when, unless
    )


def _single_use(value: bool | str | list[str]) -> dict[str, Any]:
    pieces = tuple(value) if isinstance(value, list) else PIECES_UNNAMED if value else ()
    return {"single_use": bool(pieces), "by_variant": value == "variant", "pieces": pieces}


def _step(document: Document, method_key: str, number: int, row: Mapping[str, Any]) -> Step:
    do = fitting(row, "do", language.STEP_KEYS["do"], str(row.get("do", "")))
    allowed = language.STEP_ARGS.get(do, {})
    args = {key: str(row[key]) for key, check in allowed.items() if key in row and not check(row[key])}
    key = next((args.pop(table) for table in _THINGS if table in args), "")
    told = {name: fitting(row, name, language.STEP_KEYS[name], "") for name in ("text", "caution", "when", "unless")}
    line = document.lines.get(("step", number), 0)
    return Step(number, do, key, args=args, method_key=method_key, line=line, **told)


def _heads(code: str) -> dict[tuple[str, int], int]:
    lines: dict[tuple[str, int], int] = {}
    counts: dict[str, int] = {}
    line, passed = 1, 0
    for found in HEAD.finditer(code):
        table = found[1]
        line += code.count("\n", passed, found.start(1))
        passed = found.start(1)
        counts[table] = counts.get(table, 0) + 1
        lines[table, counts[table]] = line
    return lines


def _count(data: Mapping[str, Any]) -> None:
    options, steps, version = data.get("options"), data.get("step"), data.get("version")
    if isinstance(options, dict) and len(options) > limits.MOST_OPTIONS:
        raise Unreadable(
            f"This method asks {len(options)} questions and at most {limits.MOST_OPTIONS} are read: "
            "nothing was kept; make two methods of it."
        )
    if isinstance(steps, list) and len(steps) > limits.MOST_STEPS:
        raise Unreadable(
            f"This method has {len(steps)} steps and at most {limits.MOST_STEPS} are read: "
            "nothing was kept; make two methods of it."
        )
    if isinstance(version, int) and not isinstance(version, bool) and version > 1:
        raise Unreadable(
            f"This method is written in version {version} of the language and this program reads version 1: "
            "nothing was kept; use a newer program."
        )


_THINGS: Mapping[str, type[Any]] = {"joint": Joint, "line": Line, "part": Part, "connector": Connector, "aid": Aid}
