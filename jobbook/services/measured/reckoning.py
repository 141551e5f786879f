"""Any figure of the list by its name: for a person who types it, and for a file of many."""

import json
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from jobbook.core.errors import NotFound, Refused, Unreadable
from jobbook.core.figures.figure import Figure, compute
from jobbook.core.figures.registry import FIGURES

LARGEST_FILE = 16 * 1024 * 1024
SHOWN_DIGITS = 7


@dataclass(frozen=True)
class Line:
    """One figure in the listing: what it is given, what comes back, from where it is taken."""

    name: str
    says: str
    inputs: tuple[str, ...]
    results: tuple[str, ...]
    source: str


def reckon(name: str, given: Mapping[str, object]) -> dict[str, Any]:
    """Return the results of a figure by key, as JSON holds them: numbers, texts, lists, true and false.

    Refused: bad input, in a sentence that names the key. NotFound: no such figure.
    """
    return {key: plain(value) for key, value in compute(figure(name), given).items()}


def figure(name: str) -> Figure:
    """Return the figure of that name."""
    if name not in FIGURES:
        raise NotFound(f"There is no figure “{name[:40]}”, so nothing was computed; “jobbook reckon” lists them all.")
    return FIGURES[name]


def listing() -> tuple[Line, ...]:
    """Return every figure with its inputs, units, results and source."""
    return tuple(Line(one.name, one.says, _inputs(one), one.results, one.source) for one in FIGURES.values())


def given_words(words: Iterable[str]) -> dict[str, object]:
    """Return what was typed as key=value; a value that begins with a bracket is read as JSON."""
    given: dict[str, object] = {}
    for word in words:
        key, sign, value = word.partition("=")
        key = key.strip()
        if not sign or not key:
            raise Refused(f"“{word[:40]}” was not taken: it is not written key=value; write it like lever=“400 mm”.")
        if key in given:
            raise Refused(f"{key} was not taken: it is given twice; give it once.")
        given[key] = _typed(key, value)
    return given


def batch(text: str) -> list[dict[str, Any]]:
    """Return the answers to a JSON list of {"id", "reckon", "given"}: {"id", "result"} or {"id", "error"} each.

    Unreadable: what is no such list. What is wrong with one case is its own error and holds up no other.
    """
    cases = _json(text)
    if not isinstance(cases, list):
        raise Unreadable("The file holds no list of cases, so nothing was computed; write a JSON list of objects.")
    return [_answer(case) for case in cases]


def plain(value: Any) -> Any:
    """Return a result as JSON holds it."""
    if isinstance(value, (Fraction, Decimal, float)):
        return _finite(float(value))
    if isinstance(value, Mapping):
        return {key: plain(one) for key, one in value.items()}
    return [plain(one) for one in value] if isinstance(value, (tuple, list)) else value


def sentences(results: Mapping[str, Any]) -> list[str]:
    """Return the results for a person, one line each."""
    return [f"{key}: {_shown(value)}" for key, value in results.items()]


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.{SHOWN_DIGITS}g}"
    if isinstance(value, dict):
        return ", ".join(f"{key} {_shown(one)}" for key, one in value.items())
    return (
        (" " if any(map(_is_sentence, value)) else ", ").join(map(_shown, value))
        if isinstance(value, list)
        else str(value)
    )


def _is_sentence(value: Any) -> bool:
    return isinstance(value, str) and value.endswith(".")


def _inputs(of: Figure) -> tuple[str, ...]:
    inputs = ((one, one.optional and one.key not in of.one_of) for one in of.inputs)
    written = (
        (f"{one.key} ({one.says}{f', in {one.unit}' if len(one.unit) > 1 else ''})", free) for one, free in inputs
    )
    return tuple(f"[{words}]" if free else words for words, free in written)


def _answer(case: object) -> dict[str, Any]:
    if not isinstance(case, dict):
        return {"id": None, "error": "A case is no object, so it was not computed; write {“id”, “reckon”, “given”}."}
    name, given = case.get("reckon"), case.get("given")
    try:
        if not isinstance(name, str) or not isinstance(given, dict):
            raise Refused("reckon or given is missing, so it was not computed; write {“id”, “reckon”, “given”}.")
        return {"id": plain(case.get("id")), "result": reckon(name, given)}
    except (Refused, NotFound) as error:
        return {"id": plain(case.get("id")), "error": str(error)}


def _typed(key: str, value: str) -> object:
    if not value.lstrip().startswith(("[", "{")):
        return value
    try:
        return _json(value)
    except Unreadable:
        raise Refused(f"{key} was not taken: it begins like JSON and is none; write it as a list or as text.") from None


def _json(text: str) -> Any:
    """Return JSON with its numbers exact. NaN and infinity are read, so that the case that holds them can say so."""
    if len(text) > LARGEST_FILE:
        raise Unreadable("The file is larger than 16 MB, so nothing was computed; split it.")
    try:
        return json.loads(text, parse_float=Decimal, parse_int=Decimal, parse_constant=Decimal)
    except (ValueError, RecursionError, ArithmeticError) as error:
        where = f", line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise Unreadable(f"It is not JSON{where}, so nothing was computed; look at the file again.") from None


def _finite(number: float) -> float:
    if not math.isfinite(number):
        raise Refused("The result is too large for a number, so it was not computed; look at the figures again.")
    return number
