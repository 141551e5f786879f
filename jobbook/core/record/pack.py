"""The evidence pack: entries of one job with the proof that they stand in the book whose signed head is beside them.

    {"book": id, "head": {"size": n, "root": hex}, "signature": hex, "key": hex,
     "entries": [{"number": n, "body": text, "proof": [hex, ...]}, ...]}

The pack is canonical text itself, so that no byte of it can change without being seen.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from jobbook.core.errors import Unreadable
from jobbook.core.record.canonical import canonical
from jobbook.core.record.heads import Head, fingerprint, from_hex, head_message, signed_by
from jobbook.core.record.tree import leaf_hash, verify_inclusion

FORMS = {"book": str, "head": dict, "signature": str, "key": str, "entries": list}
ENTRY_FORMS = {"number": int, "body": str, "proof": list}
LARGEST_PACK = 64 * 1024 * 1024


@dataclass(frozen=True)
class Proved:
    """One entry of a pack: its number, its body word for word, and its path to the head."""

    number: int
    body: str
    proof: tuple[bytes, ...]


@dataclass(frozen=True)
class Pack:
    """What a pack says; `findings` is empty when it all fits together."""

    book: str
    head: Head
    key: bytes
    entries: tuple[Proved, ...]
    findings: tuple[str, ...]

    @property
    def fingerprint(self) -> str:
        return fingerprint(self.key)


def write_pack(book: str, head: Head, signature: bytes, key: bytes, entries: list[Proved]) -> bytes:
    """The bytes of a pack."""
    listed = [{"number": e.number, "body": e.body, "proof": [h.hex() for h in e.proof]} for e in entries]
    top = {"size": head.size, "root": head.hex}
    return canonical(
        {"book": book, "head": top, "signature": signature.hex(), "key": key.hex(), "entries": listed}
    ).encode()


def read_pack(data: bytes) -> Pack:
    """Read a pack and prove every entry of it. Raises Unreadable when it is no pack at all."""
    plain = _plain(data)
    head = _head(plain["head"])
    key, signature = from_hex(plain["key"], 32), from_hex(plain["signature"], 64)
    if head is None or key is None or signature is None:
        raise _unreadable("its head, key or signature is not written as the book writes it")
    findings = []
    if canonical(plain).encode() != data:
        findings.append("The pack is not written as the book writes it: spaces, order or spelling were changed.")
    if not signed_by(key, signature, head_message(plain["book"], head)):
        findings.append("The signature does not belong to this head of this book.")
    entries = [_entry(part) for part in plain["entries"]]
    numbers = [entry.number for entry in entries]
    if numbers != sorted(set(numbers)):
        findings.append("The entries do not stand in the order of their numbers.")
    findings += [sentence for entry in entries for sentence in _doubts(entry, plain["book"], head)]
    return Pack(plain["book"], head, key, tuple(entries), tuple(findings))


def verify_pack(data: bytes) -> tuple[str, ...]:
    """What does not fit in a pack, as sentences; nothing when it is consistent. Raises Unreadable."""
    return read_pack(data).findings


def _unreadable(why: str) -> Unreadable:
    return Unreadable(f"The entries could not be read: {why}. Nothing can be said of them; ask for the file again.")


def _plain(data: bytes) -> dict[str, Any]:
    if len(data) > LARGEST_PACK:
        raise _unreadable("the file is larger than 64 MB")
    try:
        plain = json.loads(data.decode(), parse_float=_no_float, parse_constant=_no_float)
    except (ValueError, RecursionError) as error:
        raise _unreadable("this is not the text of a pack") from error
    if not _formed(plain, FORMS):
        raise _unreadable("something is missing or of another kind")
    return dict(plain)


def _no_float(text: str) -> float:
    raise ValueError(f"{text} is no whole number")


def _formed(plain: object, forms: Mapping[str, type]) -> bool:
    return isinstance(plain, dict) and plain.keys() == forms.keys() and all(type(plain[k]) is forms[k] for k in forms)


def _head(plain: dict[str, Any]) -> Head | None:
    root = from_hex(plain.get("root"), 32)
    if root is None or not _formed(plain, {"size": int, "root": str}):
        return None
    return Head(plain["size"], root)


def _entry(plain: object) -> Proved:
    if not isinstance(plain, dict) or not _formed(plain, ENTRY_FORMS):
        raise _unreadable("an entry lacks its number, its body or its proof")
    path = [from_hex(step, 32) for step in plain["proof"]]
    if any(step is None for step in path):
        raise _unreadable(f"the proof of entry {plain['number']} is not written as the book writes it")
    return Proved(plain["number"], plain["body"], tuple(step for step in path if step is not None))


def _doubts(entry: Proved, book: str, head: Head) -> list[str]:
    try:
        leaf = leaf_hash(entry.body.encode())
        facts = json.loads(entry.body)
    except (ValueError, RecursionError):
        return [f"Entry {entry.number} is not the text of an entry."]
    doubts = []
    if not verify_inclusion(leaf, entry.number - 1, head.size, entry.proof, head.root):
        doubts.append(f"Entry {entry.number} is not the one that the head witnesses.")
    if not isinstance(facts, dict) or facts.get("book") != book:
        doubts.append(f"Entry {entry.number} belongs to another book.")
    return doubts
