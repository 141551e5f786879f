"""Which keys a method file declares, and where it uses which."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from jobbook.core.work import language, words
from jobbook.core.work.reading import Document, rows

HOLDERS = ("joint", "line", "connector")


@dataclass(frozen=True)
class Use:
    """A key used: of what kind it must be ("holder": a joint, a line or a connector), in which step (0: in none).

    `wants` is the kind of figure that is wanted there.
    """

    kind: str
    key: str
    step: int
    line: int
    wants: str = ""


def declared(document: Document) -> Mapping[str, Mapping[str, int]]:
    """Return the declared keys by kind, each with its line. Kind `holder` joins what can hold something."""
    found: dict[str, dict[str, int]] = {
        table: {
            row["key"]: document.lines.get((table, index), 0)
            for index, row in reversed([*enumerate(rows(document, table), 1)])
            if "key" in row and not language.name(row["key"])
        }
        for table in language.TABLES
    }
    options = document.data.get("options")
    found["option"] = {str(key): 0 for key in options} if isinstance(options, dict) else {}
    found["holder"] = {key: line for table in HOLDERS for key, line in found[table].items()}
    return found


def uses(document: Document) -> Iterator[Use]:
    """Yield every key that the file uses, in the order of the file's tables, steps last."""
    for table in language.TABLES:
        for index, row in enumerate(rows(document, table), 1):
            line = document.lines.get((table, index), 0)
            yield from _asked(row, 0, line)
            yield from _held(row, line) if table in ("line", "part") else ()
            if table == "joint" and _is_key(row.get("figure")):
                yield Use("figure", row["figure"], 0, line, "torque")
    for number, row in enumerate(rows(document, "step"), 1):
        line = document.lines.get(("step", number), 0)
        yield from _asked(row, number, line)
        yield from _of_step(row, number, line)


def _of_step(row: Mapping[str, Any], number: int, line: int) -> Iterator[Use]:
    do = str(row.get("do"))
    kind = words.ACTS_ON.get(do, "")
    if kind and _is_key(row.get(kind)):
        yield Use(kind, row[kind], number, line)
    for arg, wants in language.FIGURE_ARGS.items():
        if arg in language.STEP_ARGS.get(do, {}) and _is_key(row.get(arg)):
            yield Use("figure", row[arg], number, line, wants)


def _asked(row: Mapping[str, Any], number: int, line: int) -> Iterator[Use]:
    for key in ("when", "unless"):
        if _is_key(row.get(key)):
            yield Use("option", row[key], number, line)


def _held(row: Mapping[str, Any], line: int) -> Iterator[Use]:
    held_by = row.get("held_by")
    for key in held_by if isinstance(held_by, list) else ():
        if _is_key(key):
            yield Use("holder", key, 0, line)


def _is_key(value: object) -> bool:
    return not language.name(value)
