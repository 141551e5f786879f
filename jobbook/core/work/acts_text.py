"""An act as plain values for the journal, and back: texts, whole numbers, booleans, lists and mappings only."""

from collections.abc import Mapping
from dataclasses import MISSING, Field, fields
from typing import Any

from jobbook.core.errors import Unreadable
from jobbook.core.work.model import Act, Aid, Connector, Figure, Joint, Line, Part, Thing, ToolUse

Plain = dict[str, Any]

KINDS: Mapping[str, type[Any]] = {"joint": Joint, "line": Line, "part": Part, "connector": Connector, "aid": Aid}
KIND_NAMES = {kind: name for name, kind in KINDS.items()}


def act_to_plain(act: Act) -> Plain:
    """Return an act as plain values, without what stands at its default."""
    return _plain(act)


def act_from_plain(plain: Mapping[str, Any]) -> Act:
    """Return the act that plain values tell of. Unreadable where a key is unknown or a value of the wrong type."""
    act: Act = _made(Act, plain)
    return act


def _plain(record: Any) -> Plain:
    told = {one.name: getattr(record, one.name) for one in fields(record)}
    return {one.name: _value(told[one.name]) for one in fields(record) if told[one.name] != _default(one)}


def _value(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_value(one) for one in value]
    if isinstance(value, Mapping):
        return dict(value)
    if type(value) in KIND_NAMES:
        return {"kind": KIND_NAMES[type(value)], **_plain(value)}
    return _plain(value) if isinstance(value, Figure | ToolUse) else value


def _default(one: Field[Any]) -> Any:
    return one.default_factory() if one.default_factory is not MISSING else one.default


def _made(record: type[Any], plain: object) -> Any:
    if not isinstance(plain, Mapping):
        raise Unreadable(f"An entry of the book cannot be read: a {record.__name__} was expected; nothing was changed.")
    known = {one.name: one for one in fields(record)}
    if strange := sorted(str(key) for key in plain if key not in known):
        raise Unreadable(
            f"An entry of the book cannot be read: {strange[0]!r} is no part of a {record.__name__}; "
            "nothing was changed; a newer program may have written it."
        )
    if missing := [name for name, one in known.items() if name not in plain and _default(one) is MISSING]:
        raise _wrong(record, missing[0])
    return record(**{name: READ[known[name].type](record, name, value) for name, value in plain.items()})


def _wrong(record: type[Any], name: str) -> Unreadable:
    return Unreadable(
        f"An entry of the book cannot be read: {name!r} of a {record.__name__} is missing or of the wrong type; "
        "nothing was changed."
    )


def _exactly(kind: type[Any]) -> Any:
    def read(record: type[Any], name: str, value: object) -> Any:
        if type(value) is not kind:
            raise _wrong(record, name)
        return value

    return read


def _texts(record: type[Any], name: str, value: object) -> tuple[str, ...]:
    if not isinstance(value, list | tuple) or not all(isinstance(one, str) for one in value):
        raise _wrong(record, name)
    return tuple(value)


def _pairs(record: type[Any], name: str, value: object) -> tuple[tuple[str, ...], ...]:
    pairs = tuple(_texts(record, name, one) for one in value) if isinstance(value, list | tuple) else None
    if pairs is None or any(len(pair) != 2 for pair in pairs):
        raise _wrong(record, name)
    return pairs


def _mapping(kind: type[Any]) -> Any:
    def read(record: type[Any], name: str, value: object) -> dict[str, Any]:
        right = isinstance(value, Mapping) and all(type(key) is str and type(one) is kind for key, one in value.items())
        if not right or not isinstance(value, Mapping):
            raise _wrong(record, name)
        return dict(value)

    return read


def _things(record: type[Any], name: str, value: object) -> tuple[Any, ...]:
    if not isinstance(value, list | tuple) or not all(isinstance(one, Mapping) for one in value):
        raise _wrong(record, name)
    if not all(one.get("kind") in KINDS for one in value):
        raise _wrong(record, name)
    return tuple(_made(KINDS[one["kind"]], {key: one[key] for key in one if key != "kind"}) for one in value)


READ: Mapping[Any, Any] = {
    str: _exactly(str),
    int: _exactly(int),
    bool: _exactly(bool),
    tuple[str, ...]: _texts,
    tuple[tuple[str, str], ...]: _pairs,
    Mapping[str, bool]: _mapping(bool),
    Mapping[str, str]: _mapping(str),
    tuple[Thing, ...]: _things,
    Figure | None: lambda record, name, value: _made(Figure, value),
    ToolUse | None: lambda record, name, value: _made(ToolUse, value),
}
