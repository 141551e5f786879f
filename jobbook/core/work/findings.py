"""Text rules: what is wrong with a method file before any of it is done.

Each rule takes the document and yields complaints: (step or 0, sentence, line). `mended` returns the document with
misspelt words replaced by the nearest known one, so that one slip of the pen does not drown the rest.
"""

import difflib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from jobbook.core.work import language, words
from jobbook.core.work.changing import replace
from jobbook.core.work.names import declared, uses
from jobbook.core.work.reading import Document, rows

Complaint = tuple[int, str, int]


@dataclass(frozen=True)
class Finding:
    """One thing wrong with a method. `step` is a step's number, 0 for what stands outside the steps, or "end"."""

    rule: str
    step: int | str
    options: Mapping[str, bool] = field(default_factory=dict)
    corner: str = ""
    message: str = ""
    line: int = 0


def text_findings(document: Document) -> tuple[Finding, ...]:
    """Return what is wrong with the text itself, in the order of the file."""
    found = [
        Finding(rule, step, message=sentence, line=line)
        for rule, judge in TEXT_RULES.items()
        for step, sentence, line in judge(document)
    ]
    return tuple(sorted(found, key=lambda finding: (finding.line, str(finding.step))))


def unknown_name(document: Document) -> Iterator[Complaint]:
    known = declared(document)
    for use in uses(document):
        if use.key not in known[use.kind]:
            guess = nearest(use.key, known[use.kind])
            hint = f"; {guess!r} is nearest" if guess else ""
            yield use.step, f"No {use.kind} is declared under {use.key!r}{hint}.", use.line


def unused_name(document: Document) -> Iterator[Complaint]:
    known = declared(document)
    used = {(use.kind, use.key) for use in uses(document)}
    used |= {(use.kind, nearest(use.key, known[use.kind])) for use in uses(document) if use.key not in known[use.kind]}
    holders = {key for kind, key in used if kind == "holder"}
    for kind, keys in known.items():
        for key, line in keys.items() if kind != "holder" else ():
            if (kind, key) not in used and not (kind in HOLDERS and key in holders):
                yield 0, f"The {kind} {key!r} is declared and never used.", line


def no_caution(document: Document) -> Iterator[Complaint]:
    near = {str(row.get("key")) for row in rows(document, "part") if row.get("near_restraints") is True}
    for number, row in enumerate(rows(document, "step"), 1):
        do, caution = row.get("do"), row.get("caution")
        wanted = do in ("vent", "open", "fill") or (do == "set" and "support" in row)
        wanted = wanted or (do == "take_off" and str(row.get("part")) in near)
        if wanted and not (isinstance(caution, str) and caution.strip()):
            what = "set support" if do == "set" else f"{do}"
            yield number, f"A step that does {what} carries a caution.", document.lines.get(("step", number), 0)


def impossible_value(document: Document) -> Iterator[Complaint]:
    yield from _of_the_file(document)
    for table, checks in language.TABLES.items():
        yield from _not_tables(document, table)
        seen: set[str] = set()
        for index, row in enumerate(rows(document, table), 1):
            line = document.lines.get((table, index), 0)
            for sentence in _of_a_row(row, checks, language.NEEDED[table], table):
                yield 0, sentence, line
            key = str(row.get("key", f"none in row {index}"))
            if key in seen:
                yield 0, f"The key {key!r} is declared twice.", line
            seen.add(key)
    yield from _same_key_twice(document)
    yield from _not_tables(document, "step")
    for number, row in enumerate(rows(document, "step"), 1):
        for sentence in _of_a_step(row):
            yield number, sentence, document.lines.get(("step", number), 0)
    yield from _of_places(document)
    yield from _of_figures(document)


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word that is meant by a misspelt one, or "" where none is near."""
    return next(iter(difflib.get_close_matches(word, list(known), 1, 0.75)), "")


def mended(document: Document) -> Document:
    """Return the document with misspelt acts and keys of steps replaced by the nearest known ones."""
    known = declared(document)
    steps = [_mended_step(row, known) for row in rows(document, "step")]
    return replace(document, data={**document.data, "step": steps})


def _mended_step(row: dict[str, Any], known: Mapping[str, Mapping[str, int]]) -> dict[str, Any]:
    do = row.get("do")
    if isinstance(do, str) and do not in language.STEP_ARGS:
        row = {**row, "do": nearest(do, language.STEP_ARGS) or do}
    kind = words.ACTS_ON.get(str(row.get("do")), "")
    key = row.get(kind)
    if kind and isinstance(key, str) and key not in known[kind]:
        return {**row, kind: nearest(key, known[kind]) or key}
    return row


def _of_the_file(document: Document) -> Iterator[Complaint]:
    data = document.data
    for key in data:
        if key not in language.TOP_KEYS:
            yield 0, f"{key!r} has no place in a method file.", 0
    if data.get("format") != "jobbook-method":
        yield 0, 'format must be "jobbook-method".', 0
    if isinstance(data.get("version"), bool) or data.get("version") != 1:
        yield 0, "version must be 1.", 0
    about = data.get("method")
    if not isinstance(about, dict):
        yield 0, "The table [method] is missing.", 0
        return
    for sentence in _of_a_row(about, language.METHOD_KEYS, language.NEEDED["method"], "method"):
        yield 0, sentence, 0
    options = data.get("options", {})
    for key, value in options.items() if isinstance(options, dict) else [("options", options)]:
        if not isinstance(options, dict) or language.text(value) or language.name(key):
            yield 0, f"The option {key!r} must be a question, as a text.", 0


def _of_a_row(row: Mapping[str, Any], checks: Mapping[str, Any], needed: Iterable[str], table: str) -> Iterator[str]:
    for key in needed:
        if key not in row:
            yield f"A {table} needs {key!r}."
    for key, value in row.items():
        if key not in checks:
            yield f"{key!r} has no place in a {table}."
        elif wrong := checks[key](value):
            yield f"{key!r} must be {wrong}."


def _of_a_step(row: Mapping[str, Any]) -> Iterator[str]:
    do = row.get("do")
    if not isinstance(do, str) or do not in language.STEP_ARGS:
        yield from _of_a_row({key: row[key] for key in row if key == "do"}, language.STEP_KEYS, ("do",), "step")
        return
    args = language.STEP_ARGS[do]
    yield from _of_a_row(row, {**language.STEP_KEYS, **args}, language.STEP_NEEDED.get(do, ()), f"{do} step")
    if do == "set" and len(conditions := [key for key in row if key in language.SET_KEYS]) != 1:
        yield f"A set step sets exactly one condition, not {len(conditions)}."
    if do == "set" and "fills" in row and row.get("support") != "touching":
        yield "'fills' belongs to support = \"touching\" only."
    if do == "wait" and ("minutes" in row) == ("figure" in row):
        yield "A wait step needs either minutes or a figure of kind time."


def _not_tables(document: Document, table: str) -> Iterator[Complaint]:
    found = document.data.get(table, [])
    if not isinstance(found, list) or not all(isinstance(row, dict) for row in found):
        yield 0, f"{table!r} must be written as [[{table}]].", 0


def _same_key_twice(document: Document) -> Iterator[Complaint]:
    seen: dict[str, str] = {}
    for kind, keys in declared(document).items():
        for key, line in keys.items() if kind not in ("figure", "option", "holder") else ():
            if key in seen:
                yield 0, f"The key {key!r} stands for a {seen[key]} and for a {kind}.", line
            seen[key] = kind


def _of_places(document: Document) -> Iterator[Complaint]:
    """A method for the whole vehicle has no corner that `here` or `axle` could mean."""
    about = document.data.get("method")
    if not isinstance(about, dict) or about.get("corners", []) != []:
        return
    for table in ("line", "part", "step"):
        for number, row in enumerate(rows(document, table), 1):
            for key in ("at", "fills"):
                if row.get(key) in ("here", "axle"):
                    line = document.lines.get((table, number), 0)
                    yield number if table == "step" else 0, f"{row[key]!r} means nothing for the whole vehicle.", line


def _of_figures(document: Document) -> Iterator[Complaint]:
    kinds = {str(row.get("key")): row.get("kind") for row in rows(document, "figure")}
    for use in uses(document):
        if (
            use.wants
            and kinds.get(use.key, use.wants) in words.FIGURE_KINDS
            and kinds.get(use.key, use.wants) != use.wants
        ):
            yield use.step, f"The figure {use.key!r} is of kind {kinds[use.key]}; a {use.wants} is wanted.", use.line


HOLDERS = ("joint", "line", "connector")
TEXT_RULES: Mapping[str, Callable[[Document], Iterator[Complaint]]] = MappingProxyType(
    {
        "unknown-name": unknown_name,
        "unused-name": unused_name,
        "impossible-value": impossible_value,
        "no-caution": no_caution,
    }
)
