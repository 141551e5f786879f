"""What a figure of the list consists of, how its inputs are read, and how it is computed from what is given."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.figures import given as read
from jobbook.core.figures.refusals import unfit
from jobbook.core.quantities import Quantity
from jobbook.core.quantities.units import UNIT

Reader = Callable[[Any], Any]


@dataclass(frozen=True)
class Input:
    """One thing that a figure is given: its key, how it is read, and in words what it is.

    `argument` is the name in the formula where the key is a word of the language; `unit` the one computed in; `allowed`
    the few texts that it is one of, where it is.
    """

    key: str
    read: Reader
    says: str
    unit: str = ""
    optional: bool = False
    argument: str = ""
    allowed: tuple[str, ...] = ()


@dataclass(frozen=True)
class Figure:
    """One row of the list. Of the inputs in `one_of` exactly one is given; `results` are the keys that come back."""

    name: str
    says: str
    inputs: tuple[Input, ...]
    compute: Callable[..., Any]
    results: tuple[str, ...]
    source: str
    one_of: frozenset[str] = frozenset()


def amount(
    key: str,
    *units: str,
    over: int | None = None,
    least: int | None = None,
    most: int | None = None,
    default: str | None = None,
    optional: bool = False,
    argument: str = "",
    says: str = "",
) -> Input:
    """Return an input of a quantity, computed in the first unit; further units stand for further kinds.

    `over`, `least` and `most` bound it in the first unit of its kind, `default` is the unit that the key itself names.
    """
    kinds = {UNIT[unit].kind: unit for unit in units}

    def reader(value: object) -> Quantity:
        found = _of_one_kind(value, tuple(kinds), default)
        _look_at_bounds(found.in_unit(kinds[found.kind]), over, least, most, kinds[found.kind])
        return found

    return Input(key, reader, says or " or ".join(kinds), units[0], optional, argument)


def number(
    key: str,
    *,
    over: Fraction | int | None = None,
    least: Fraction | int | None = None,
    most: Fraction | int | None = None,
    optional: bool = False,
    reader: Reader = read.number,
    says: str = "number",
) -> Input:
    """Return an input of a pure number within bounds."""

    def bounded(value: object) -> Fraction:
        found: Fraction = reader(value)
        _look_at_bounds(found, over, least, most, "")
        return found

    return Input(key, bounded, says, "1", optional)


def choice(key: str, *allowed: str) -> Input:
    """Return an input of one of a few texts; a comma in it counts as a point."""

    def reader(value: object) -> str:
        found = read.text(value).replace(",", ".")
        if found not in allowed:
            raise Refused(f"“{found[:20]}” is none of {', '.join(allowed)}; choose one of them.")
        return found

    return Input(key, reader, " or ".join(allowed), allowed=allowed)


def compute(figure: Figure, given: Mapping[str, object]) -> dict[str, Any]:
    """Return what the figure gives for raw values, by result key; what does not apply is left out.

    Refused: a missing key, one too many, a value that cannot be read or that the formula does not hold for; the
    sentence names the key.
    """
    _look_at_keys(figure, given)
    arguments = {one.argument or one.key: _read(one, given[one.key]) for one in figure.inputs if one.key in given}
    try:
        found = figure.compute(**arguments)
    except Refused as refused:
        raise Refused(_naming(str(refused), tuple(given))) from None
    only = len(figure.results) == 1
    values = {key: found if only else getattr(found, key) for key in figure.results}
    return {key: value for key, value in values.items() if value is not None}


def _look_at_keys(figure: Figure, given: Mapping[str, object]) -> None:
    keys = [one.key for one in figure.inputs]
    for key in given:
        if key not in keys:
            raise unfit(f"“{key[:40]}”", f"{figure.name} takes no such key", f"give {', '.join(keys)}")
    needed = [one.key for one in figure.inputs if not one.optional and one.key not in figure.one_of]
    missing = [key for key in needed if key not in given]
    if missing:
        raise Refused(f"{missing[0]} is missing, so {figure.name} was not computed; give {' and '.join(missing)}.")
    if figure.one_of and sum(key in given for key in figure.one_of) != 1:
        either = [key for key in keys if key in figure.one_of]
        raise Refused(f"{figure.name} was not computed: it takes one of {' and '.join(either)}; give exactly one.")


def _read(one: Input, value: object) -> Any:
    try:
        return one.read(value)
    except Refused as refused:
        raise Refused(f"{one.key}: {refused}") from None


def _naming(sentence: str, keys: tuple[str, ...]) -> str:
    """Return the sentence with the keys in front, unless it begins with one."""
    named = any(sentence.startswith((f"{key} ", f"{key}: ")) for key in keys)
    return sentence if named else f"{', '.join(keys)}: {sentence}"


def _of_one_kind(value: object, kinds: tuple[str, ...], default: str | None) -> Quantity:
    for kind in kinds[:-1]:
        try:
            return read.quantity(value, kind)
        except Refused:
            continue
    return read.quantity(value, kinds[-1], default)


def _look_at_bounds(
    found: Fraction, over: Fraction | int | None, least: Fraction | int | None, most: Fraction | int | None, unit: str
) -> None:
    shown = f"{float(found):g} {unit}".strip()
    if over is not None and found <= over:
        raise Refused(f"{shown} is not above {float(over):g}; look at the figure again.")
    if least is not None and found < least:
        raise Refused(f"{shown} is below {float(least):g}; look at the figure again.")
    if most is not None and found > most:
        raise Refused(f"{shown} is above {float(most):g}; look at the figure again.")
