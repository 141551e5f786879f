"""What a method file may not be, looked at before it is parsed, and the text of it once it may."""

import re
import tomllib
from collections.abc import Iterator
from decimal import Decimal
from typing import Any, NoReturn

from jobbook.core.errors import Unreadable

MOST_BYTES = 256 * 1024
MOST_DOTS = 8
MOST_LEVELS = 16
MOST_OPTIONS = 10
MOST_STEPS = 400
MOST_DIGITS = 40

# Strings and comments, in the order in which TOML itself would begin to read them.
QUOTED = re.compile(
    r'"""(?:\\.|[^\\])*?"""|' + r"'''.*?'''|" + r'"(?:\\.|[^"\\\n])*"|' + r"'[^'\n]*'|" + r"#[^\n]*",
    re.DOTALL,
)
DIGITS = re.compile(rf"[0-9_]{{{MOST_DIGITS},}}")
BRACKET = re.compile(r"[\[\]{}]")
KEY_END = re.compile(r"[=,{}\[\]\n]")
PLACE = re.compile(r"^(?P<what>.*) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$", re.DOTALL)


def decoded(raw: bytes | str) -> str:
    """Return the text of a file. Unreadable where it is too long or is not UTF-8."""
    data = raw.encode("utf-8", "surrogatepass") if isinstance(raw, str) else raw
    if len(data) > MOST_BYTES:
        raise Unreadable(
            f"This file holds {len(data)} bytes and a method at most {MOST_BYTES}: it was not read; divide it."
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig", "replace")
        _refuse(before, len(before), "a byte that is not UTF-8 text", "save it as UTF-8")
    return text.replace("\r\n", "\n")


def bare(text: str) -> str:
    """Return the text with every string as `S` and every comment blank, all else where it stood."""
    return QUOTED.sub(_blank, text)


def within_limits(code: str) -> None:
    """Refuse, as Unreadable, what the parser would choke on. `code` is the bare text."""
    if found := DIGITS.search(code):
        _refuse(code, found.start(), "a number of too many digits", f"at most {MOST_DIGITS - 1} are read")
    for start, dots in _keys(code):
        if dots > MOST_DOTS:
            _refuse(code, start, f"a key with {dots} dots", f"at most {MOST_DOTS} are read")
    depth = 0
    for found in BRACKET.finditer(code):
        depth = depth + 1 if found[0] in "[{" else max(depth - 1, 0)
        if depth > MOST_LEVELS:
            _refuse(code, found.start(), "too many brackets inside one another", f"at most {MOST_LEVELS} are read")


def parsed(text: str) -> dict[str, Any]:
    """Return the file as Python values, fractions as Decimal. Unreadable with line and column where it is no TOML."""
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        found = PLACE.match(str(error))
        what = found["what"] if found else str(error)
        last = text.rsplit("\n", 1)[-1]
        line = int(found["line"]) if found and found["line"] else text.count("\n") + 1
        column = int(found["column"]) if found and found["column"] else len(last) + 1
        raise Unreadable(_sentence(line, column, what, "mend that place")) from error
    except (ValueError, RecursionError, ArithmeticError) as error:
        raise Unreadable(_sentence(1, 1, "a value that no method needs", "look for it and take it out")) from error


def _blank(found: re.Match[str]) -> str:
    blank = re.sub(r"[^\n]", " ", found[0])
    return blank if found[0][0] == "#" else "S" + blank[1:]


def _keys(code: str) -> Iterator[tuple[int, int]]:
    start = 0
    for found in KEY_END.finditer(code):
        yield start, code.count(".", start, found.start())
        start = found.end()
    yield start, code.count(".", start)


def _refuse(text: str, position: int, what: str, advice: str) -> NoReturn:
    line = text.count("\n", 0, position) + 1
    column = position - (text.rfind("\n", 0, position) + 1) + 1
    raise Unreadable(_sentence(line, column, what, advice))


def _sentence(line: int, column: int, what: str, advice: str) -> str:
    return f"The method cannot be read at line {line}, column {column}: {what}; nothing was kept; {advice}."
