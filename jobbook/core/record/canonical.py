"""One text for one value: what is hashed, signed and kept word for word.

The text is that of RFC 8785 (JSON Canonicalization Scheme) for the values allowed here: strings, whole numbers,
booleans, None, lists, and mappings with ASCII keys. Fractions of numbers are kept as strings, so that no reader
rounds them.
"""

import hashlib
import json
import unicodedata
from collections.abc import Mapping
from typing import Any

LARGEST = 2**53 - 1  # RFC 8785 and RFC 7493: beyond it, readers in other languages round

_encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True, allow_nan=False).encode


def clean(value: Any) -> Any:
    """The value with every text composed (NFC) and without control characters; line ends become "\\n".

    Done once, where a value enters the book. Mappings become dicts, tuples and lists become lists; keys stay.
    """
    if isinstance(value, str):
        return clean_text(value)
    if isinstance(value, Mapping):
        return {key: clean(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [clean(part) for part in value]
    return value


def clean_text(text: str) -> str:
    """One text as the book keeps it; a tab becomes a space, and half of a surrogate pair is left out."""
    if text.isascii() and text.isprintable():
        return text
    lines = text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", " ")
    kept = (sign for sign in lines if sign == "\n" or unicodedata.category(sign) not in ("Cc", "Cs"))
    return unicodedata.normalize("NFC", "".join(kept))


def canonical(value: Any) -> str:
    """The one text of a value. Raises TypeError or ValueError for a value that has no text of its own."""
    _look(value)
    return _encode(value)


def _look(value: Any) -> None:
    """Go through a value; whatever two readers could understand differently stops here."""
    kind = type(value)
    if value is None or kind is bool:
        return
    if kind is int:
        if abs(value) > LARGEST:
            raise ValueError(f"the whole number {value} is too large to be read alike everywhere")
    elif kind is str:
        value.encode()  # half of a surrogate pair has no UTF-8 and raises here
    elif kind is list:
        for part in value:
            _look(part)
    elif kind is dict:
        for key, part in value.items():
            # RFC 8785 sorts keys by UTF-16 units and Python by code points: for ASCII they agree.
            if type(key) is not str or not key.isascii():
                raise TypeError(f"the key {key!r} is not an ASCII text")
            _look(part)
    else:
        raise TypeError(f"a {kind.__name__} has no canonical text; write it as a string")


def commitment(salt: str, value: str) -> str:
    """What the journal holds in place of a sealed value: SHA-256 over the canonical [salt, value], in hex."""
    return hashlib.sha256(canonical([salt, value]).encode()).hexdigest()
