"""The journal: what an entry is, how it is worded, and which entries count.

The tree, the head and the pack have modules of their own; their names are given here too, since they are used together.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any

from jobbook.core.record.canonical import canonical, clean, clean_text, commitment
from jobbook.core.record.heads import Head, fingerprint, head_message, signed_by
from jobbook.core.record.pack import Pack, Proved, read_pack, verify_pack, write_pack
from jobbook.core.record.tree import (
    Tree,
    consistency_proof,
    inclusion_proof,
    leaf_hash,
    root,
    verify_consistency,
    verify_inclusion,
)

__all__ = [
    "MEANINGS", "Draft", "Entry", "Head", "Pack", "Proved", "Tree", "as_it_stands", "body_of", "canonical", "clean",
    "clean_text", "commitment", "consistency_proof", "fingerprint", "head_message", "inclusion_proof", "leaf_hash",
    "read_pack", "root", "signed_by", "verify_consistency", "verify_inclusion", "verify_pack", "write_pack",
]  # fmt: skip

MEANINGS = ("", "did", "checked", "allowed", "released")


@dataclass(frozen=True)
class Draft:
    """What somebody wants kept. The book adds who entered it, when, the salt and, where empty, the act and the person.

    `kind` carries its version (`sign-off/1`); `meaning` is that of the signature: did, checked, allowed, released or
    empty. `act` names the doing itself: the same act kept twice is kept once."""

    kind: str
    subject: str
    payload: Mapping[str, Any] = field(default_factory=dict)
    job: int | None = None
    done_at: str = ""
    done_by: str = ""
    meaning: str = ""
    replaces: int | None = None
    reason: str = ""
    act: str = ""


@dataclass(frozen=True)
class Entry:
    """One entry as it stands in the journal: `body` word for word, `leaf` its hash in the tree."""

    number: int
    kind: str
    job: int | None
    done_at: str
    replaces: int | None
    body: str
    leaf: bytes

    @cached_property
    def facts(self) -> Mapping[str, Any]:
        """book, act, kind, subject, job, done_at, entered_at, done_by, entered_by, meaning, payload, salt, replaces,
        reason: read from the body."""
        return MappingProxyType(json.loads(self.body))

    @property
    def payload(self) -> Mapping[str, Any]:
        payload: Mapping[str, Any] = self.facts["payload"]
        return payload

    @property
    def act(self) -> str:
        return str(self.facts["act"])

    @property
    def subject(self) -> str:
        return str(self.facts["subject"])

    @property
    def done_by(self) -> str:
        return str(self.facts["done_by"])

    @property
    def entered_by(self) -> str:
        return str(self.facts["entered_by"])

    @property
    def entered_at(self) -> str:
        return str(self.facts["entered_at"])


def body_of(draft: Draft, *, book: str, act: str, entered_at: str, entered_by: str, salt: str) -> str:
    """The canonical text of an entry. Times are ISO 8601 with their zone; `salt` is 128 random bits in hex.

    Raises ValueError or TypeError for what could not be read alike everywhere: that is a defect of the caller."""
    if draft.meaning not in MEANINGS or "/" not in draft.kind:
        raise ValueError(f"an entry {draft.kind!r} cannot mean {draft.meaning!r}")
    facts = {
        "book": book, "act": act, "kind": draft.kind, "subject": draft.subject, "job": draft.job,
        "done_at": draft.done_at or entered_at, "entered_at": entered_at, "done_by": draft.done_by or entered_by,
        "entered_by": entered_by, "meaning": draft.meaning, "payload": draft.payload, "salt": salt,
        "replaces": draft.replaces, "reason": draft.reason,
    }  # fmt: skip
    return canonical(clean(facts))


def as_it_stands(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that count, in the order in which things happened.

    Undone and replaced entries are left out, and so are the entries that undid them; a correction stands at the place
    of the entry that it corrects. Give all the entries of a job, in the order of their numbers."""
    listed = list(entries)
    undone = {entry.payload["act"] for entry in listed if entry.kind.startswith("undone/")}
    replaced = {entry.replaces for entry in listed if entry.replaces is not None}
    place: dict[int, int] = {}
    for entry in listed:
        place[entry.number] = place.get(entry.replaces, entry.replaces) if entry.replaces is not None else entry.number
    counted = [
        entry
        for entry in listed
        if entry.number not in replaced and entry.act not in undone and not entry.kind.startswith("undone/")
    ]
    return tuple(sorted(counted, key=lambda entry: place[entry.number]))
